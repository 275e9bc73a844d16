/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure base_depth: how deep a mast stands.
 */
#include "lanewick/figure.h"
#include "lanewick/footing.h"

enum { FORCE, ARM, DIAMETER, SOIL_PA, DOUBLED, SOIL, PAVED, FLOODED };
static const lw_input inputs[] = {
    [FORCE] = {"force_n", "N", "sideways force, without load factor (asce: times 0.6)", LW_NUMBER, 1, 100000, NULL,
               NULL, 0, 0},
    [ARM] = {"arm_m", "m", "its height above ground: moment over force", LW_NUMBER, 0.05, 14, NULL, NULL, 0, 0},
    [DIAMETER] = {"diameter_m", "m", "pole, or concrete collar over the full depth; a square counts with its diagonal",
                  LW_NUMBER, 0.03, 1.5, NULL, NULL, 0, 0},
    [SOIL_PA] = {"soil_pa_per_m", "Pa/m", "allowable side pressure per metre of depth (or give soil)", LW_NUMBER, 1000,
                 200000, NULL, "", 0, 0},
    [DOUBLED] = {"doubled", "", "yes: the pole may move 12 mm at the ground, so soil values count twice (IBC 1806.3.4)",
                 LW_FLAG, 0, 0, NULL, NULL, 0, 0},
    [SOIL] = {"soil", "", "named soil of IBC Table 1806.2; soft: mud, peat, organic, loose fill", LW_CHOICE, 0, 0,
              LW_SOIL_WORDS, "", 0, 0},
    [PAVED] = {"paved", "", "held by paving on both sides at the surface", LW_FLAG, 0, 0, NULL, "no", 0, 0},
    [FLOODED] = {"flooded", "", "the ground stands in water part of the year: side pressure halves", LW_FLAG, 0, 0,
                 NULL, "no", 0, 0},
};

enum { DEPTH, PRESSURE, A, MEANS, VOLUME };
static const lw_output outputs[] = {
    [DEPTH] = {"depth_m", "m", "depth in undisturbed soil", LW_NUMBER},
    [PRESSURE] = {"pressure_pa", "Pa", "soil pressure used, at a third of the depth (paved: at the depth)", LW_NUMBER},
    [A] = {"a_m", "m", "the formula's A (not with paving)", LW_NUMBER},
    [MEANS] = {"doubled_means", "", "what the doubled values mean", LW_TEXT},
    [VOLUME] = {"hole_m3", "m3", "volume of the hole: concrete for a full collar", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    double soil = in[SOIL_PA].number;
    if (in[SOIL_PA].given == in[SOIL].given)
        return lw_fail(err, LW_WRONG_INPUT, "soil_pa_per_m", "Give either soil_pa_per_m or soil, one of the two.");
    if (in[SOIL].given && !lw_soil_lateral_pa_per_m((lw_soil)in[SOIL].number, &soil, err))
        return false;
    const lw_footing footing = {
        .force_n = in[FORCE].number,
        .arm_m = in[ARM].number,
        .diameter_m = in[DIAMETER].number,
        .soil_pa_per_m = in[FLOODED].number != 0.0 ? 0.5 * soil : soil,
        .doubled = in[DOUBLED].number != 0.0,
        .paved = in[PAVED].number != 0.0,
    };
    double depth = 0.0, pressure = 0.0;
    if (!lw_footing_depth(&footing, &depth, &pressure, err))
        return false;
    out[DEPTH] = lw_value_number(depth);
    out[PRESSURE] = lw_value_number(pressure);
    if (!footing.paved)
        out[A] = lw_value_number(lw_footing_a_m(footing.force_n, pressure, footing.diameter_m));
    out[MEANS] = lw_value_text(footing.doubled ? "soil values count twice: in the design wind the pole may move 12 mm "
                                                 "at the ground, which a lone lamp mast may and a wall may not"
                                               : "soil values count once: the pole stays nearly still at the ground");
    out[VOLUME] = lw_value_number(0.785398163397448 * footing.diameter_m * footing.diameter_m * depth);
    return true;
}

const lw_figure lw_fig_base_depth = {
    .name = "base_depth",
    .room = "mast",
    .summary = "Depth at which a mast or its concrete collar holds in the ground.",
    .source = "IBC 1807.3.2.1 Eq. 18-1 with the pressure at a third of the depth, solved for the depth; Eq. 18-2 with "
              "paving and 1806.3.4 (from memory); Table 1806.2 as reprinted in a geotechnical handbook",
    .limits = "Depths to 3.66 m; add 0.15 to 0.3 m for what frost, ants, gardens or floods loosen (common practice)",
    .caution = "A licensed engineer decides where ground is soft, filled, organic or flooded. Shore or slope a hole "
               "deeper than your waist; nobody in it alone; look for cables and pipes first.",
    .example = "force_n=655.5 arm_m=2.958 diameter_m=0.3 soil_pa_per_m=23560 doubled=yes",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
