/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure tapered_pole: a round solid pole that grows thinner, a force at its tip.
 */
#include "lanewick/figure.h"
#include "lanewick/units.h"

#include <math.h>

enum { LENGTH, BASE, TIP, STIFFNESS, FORCE };
static const lw_input inputs[] = {
    [LENGTH] = {"length_m", "m", "above ground", LW_NUMBER, 0.5, 12, NULL, NULL, 0, 0},
    [BASE] = {"base_mm", "mm", "diameter at the ground", LW_NUMBER, 20, 600, NULL, NULL, 0, 0},
    [TIP] = {"tip_mm", "mm", "diameter at the tip", LW_NUMBER, 10, 600, NULL, NULL, 0, 0},
    [STIFFNESS] = {"stiffness_mpa", "MPa", "modulus of elasticity: C16 wood 8000, bamboo 8600", LW_NUMBER, 500, 220000,
                   NULL, "8000", 0, 0},
    [FORCE] = {"force_n", "N", "at the tip", LW_NUMBER, 0, 20000, NULL, NULL, 0, 0},
};

enum { SWAY, WORST, WORST_AT, AT_BASE };
static const lw_output outputs[] = {
    [SWAY] = {"sway_mm", "mm", "of the tip", LW_NUMBER},
    [WORST] = {"worst_mpa", "MPa", "greatest stress", LW_NUMBER},
    [WORST_AT] = {"worst_below_tip_m", "m", "where it is: not always at the ground", LW_NUMBER},
    [AT_BASE] = {"base_mpa", "MPa", "stress at the ground", LW_NUMBER},
};

static double stress_mpa(double force_n, double arm_m, double d_mm)
{
    return 32.0 * force_n * arm_m * 1e3 / (lw_pi * d_mm * d_mm * d_mm);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double length = in[LENGTH].number, base = in[BASE].number, tip = in[TIP].number, force = in[FORCE].number;
    if (tip > base)
        return lw_fail(err, LW_WRONG_INPUT, "tip_mm", "tip_mm is %g; it cannot pass base_mm, %g.", tip, base);
    const double ei = in[STIFFNESS].number * lw_pi / 64.0 * pow(base, 4) * 1e-6;
    /* The stress of a tip force is greatest where the diameter is 1.5 times that of the tip. */
    const double worst_d = fmin(base, 1.5 * tip);
    const double worst_at = base > tip ? length * (worst_d - tip) / (base - tip) : length;
    out[SWAY] = lw_value_number(1e3 * force * pow(length, 3) / (3.0 * ei) * base / tip);
    out[WORST] = lw_value_number(stress_mpa(force, worst_at, worst_d));
    out[WORST_AT] = lw_value_number(worst_at);
    out[AT_BASE] = lw_value_number(stress_mpa(force, length, base));
    return true;
}

const lw_figure lw_fig_tapered_pole = {
    .name = "tapered_pole",
    .room = "mast",
    .summary = "Sway and greatest stress of a tapering solid pole with a force at its tip.",
    .source = "closed forms of the elastic cone F L^3 / (3 E I_base) x D_base / D_tip; stress greatest at 1.5 D_tip",
    .limits = "Solid round pole, straight taper",
    .caution = "A licensed engineer decides whether a mast stands.",
    .example = "length_m=4 base_mm=140 tip_mm=70 force_n=200",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
