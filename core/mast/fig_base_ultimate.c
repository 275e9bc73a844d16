/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure base_ultimate: second opinion on a base, the force that overturns it.
 */
#include "lanewick/figure.h"
#include "lanewick/footing.h"

enum { SOIL, ARM, DIAMETER, DEPTH, WEIGHT, FRICTION, CU, FORCE };
static const lw_input inputs[] = {
    [SOIL] = {"soil", "", "sand (weight and friction) or clay (undrained strength)", LW_CHOICE, 0, 0, "sand|clay", NULL,
              0, 0},
    [ARM] = {"arm_m", "m", "height of the force above ground", LW_NUMBER, 0.05, 14, NULL, NULL, 0, 0},
    [DIAMETER] = {"diameter_m", "m", "pole or collar", LW_NUMBER, 0.03, 1.5, NULL, NULL, 0, 0},
    [DEPTH] = {"depth_m", "m", "depth in the ground", LW_NUMBER, 0.2, 4, NULL, NULL, 0, 0},
    [WEIGHT] = {"soil_n_m3", "N/m3", "sand: weight of the soil; 10000 under water", LW_NUMBER, 5000, 25000, NULL,
                "18000", 0, 0},
    [FRICTION] = {"friction_deg", "degree", "sand: angle of friction", LW_NUMBER, 15, 45, NULL, "30", 0, 0},
    [CU] = {"cu_pa", "Pa", "clay: undrained shear strength", LW_NUMBER, 2000, 400000, NULL, "40000", 0, 0},
    [FORCE] = {"force_n", "N", "wind force, to tell the margin", LW_NUMBER, 1, 100000, NULL, "", 0, 0},
};

enum { ULTIMATE, MARGIN, F, MOMENT };
static const lw_output outputs[] = {
    [ULTIMATE] = {"ultimate_n", "N", "force that overturns it", LW_NUMBER},
    [MARGIN] = {"margin", "", "that over the wind force; 2.5 to 3 is wanted", LW_NUMBER},
    [F] = {"f_m", "m", "clay: depth of the greatest moment below 1.5 diameters", LW_NUMBER},
    [MOMENT] = {"moment_nm", "N m", "clay: greatest moment in the pile then", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    double ultimate = 0.0;
    if (in[SOIL].number == 0.0) {
        ultimate = lw_broms_sand_n(in[WEIGHT].number, in[FRICTION].number, in[DIAMETER].number, in[DEPTH].number,
                                   in[ARM].number);
    } else {
        double f = 0.0, moment = 0.0;
        if (!lw_broms_clay_n(in[CU].number, in[DIAMETER].number, in[DEPTH].number, in[ARM].number, &ultimate, &f,
                             &moment, err))
            return false;
        out[F] = lw_value_number(f);
        out[MOMENT] = lw_value_number(moment);
    }
    out[ULTIMATE] = lw_value_number(ultimate);
    if (in[FORCE].given)
        out[MARGIN] = lw_value_number(ultimate / in[FORCE].number);
    return true;
}

const lw_figure lw_fig_base_ultimate = {
    .name = "base_ultimate",
    .room = "mast",
    .summary = "Force that overturns a mast's base: a second opinion beside base_depth.",
    .source = "Broms (1964), Design of laterally loaded piles, short free head: clay as in an open textbook, sand from "
              "memory",
    .limits = "Ultimate, not working load: divide by 2.5 to 3 (common practice); the depth of base_depth is set by "
              "movement and usually has more margin",
    .caution = "A licensed engineer decides where ground is soft, filled, organic or flooded.",
    .example = "soil=sand arm_m=2.958 diameter_m=0.3 depth_m=1.2 force_n=655.5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
