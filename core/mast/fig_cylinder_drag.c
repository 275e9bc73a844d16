/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure cylinder_drag: force coefficient of a round mast.
 */
#include "lanewick/figure.h"
#include "lanewick/wind.h"

enum { DIAMETER, LENGTH, PRESSURE, ROUGHNESS, AIR };
static const lw_input inputs[] = {
    [DIAMETER] = {"diameter_mm", "mm", "outer diameter", LW_NUMBER, 10, 2000, NULL, NULL, 0, 0},
    [LENGTH] = {"length_m", "m", "length, for the end effect", LW_NUMBER, 0.1, 100, NULL, NULL, 0, 0},
    [PRESSURE] = {"pressure_pa", "Pa", "peak velocity pressure", LW_NUMBER, 1, 10000, NULL, NULL, 0, 0},
    [ROUGHNESS] = {"roughness_mm", "mm", "0.02 paint, 0.2 galvanised, 0.5 planed wood, 2 sawn wood or rust", LW_NUMBER,
                   0.001, 5, NULL, "0.2", 0, 0},
    [AIR] = {"air_kg_m3", "kg/m3", "density of air", LW_NUMBER, 0.7, 1.25, NULL, "1.25", 0, 0},
};

enum { REYNOLDS, CF0, PSI, CF };
static const lw_output outputs[] = {
    [REYNOLDS] = {"reynolds", "", "Reynolds number", LW_NUMBER},
    [CF0] = {"cf0", "", "force coefficient without end effect", LW_NUMBER},
    [PSI] = {"end_effect", "", "reduction by the free end", LW_NUMBER},
    [CF] = {"force_coefficient", "", "their product; for masts lanewick uses 1.2 instead", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double d = in[DIAMETER].number / 1000.0;
    const double reynolds = lw_cylinder_reynolds(d, in[PRESSURE].number, in[AIR].number);
    const double cf0 = lw_cylinder_force_coefficient(reynolds, in[ROUGHNESS].number, d);
    const double psi = lw_end_effect(in[LENGTH].number / d);
    out[REYNOLDS] = lw_value_number(reynolds);
    out[CF0] = lw_value_number(cf0);
    out[PSI] = lw_value_number(psi);
    out[CF] = lw_value_number(cf0 * psi);
    return true;
}

const lw_figure lw_fig_cylinder_drag = {
    .name = "cylinder_drag",
    .room = "mast",
    .summary = "Wind force coefficient of a round pipe, by its roughness and Reynolds number.",
    .source = "EN 1991-1-4 7.9.2, Fig. 7.28 (rough branch read in an open implementation, falling branch from memory) "
              "and Fig. 7.36",
    .limits = "Slenderness as for cylinders under 15 m; thin masts run in or just before the drag crisis, where clamps "
              "and dust decide: use 1.2",
    .example = "diameter_mm=76.1 length_m=4 pressure_pa=1012",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
