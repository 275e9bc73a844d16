/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure plate_base: a mast on a block or plate that stands on the ground.
 */
#include "lanewick/figure.h"
#include "lanewick/footing.h"
#include "lanewick/mast_parts.h"

enum { WIDTH, THICK, WEIGHT, FORCE, ARM, SOIL, SPACING, SIZE, GRADE };
static const lw_input inputs[] = {
    [WIDTH] = {"width_m", "m", "side of the square block", LW_NUMBER, 0.2, 4, NULL, NULL, 0, 0},
    [THICK] = {"thickness_m", "m", "its height, which adds to the arm", LW_NUMBER, 0, 1.5, NULL, NULL, 0, 0},
    [WEIGHT] = {"weight_n", "N", "block with mast and lamp; what water lifts left out", LW_NUMBER, 50, 200000, NULL,
                NULL, 0, 0},
    [FORCE] = {"force_n", "N", "sideways wind, without load factor (asce: times 0.6)", LW_NUMBER, 1, 20000, NULL, NULL,
               0, 0},
    [ARM] = {"arm_m", "m", "height of that force above the block", LW_NUMBER, 0.1, 14, NULL, NULL, 0, 0},
    [SOIL] = {"soil", "", "named soil of IBC Table 1806.2; soft is refused", LW_CHOICE, 0, 0, LW_SOIL_WORDS, NULL, 0,
              0},
    [SPACING] = {"bolt_spacing_m", "m", "four anchor bolts on a square of this side", LW_NUMBER, 0.05, 2, NULL, "", 0,
                 0},
    [SIZE] = {"bolt_mm", "mm", "their thread, M5 to M24", LW_NUMBER, 5, 24, NULL, "12", 0, 0},
    [GRADE] = {"grade", "", "of the bolts", LW_CHOICE, 0, 0, LW_BOLT_GRADE_WORDS, "4.6", 0, 0},
};

enum { MOMENT, OVERTURNING, ECCENTRICITY, PRESSURE, ALLOWED, BOLT_N, BOLT_USE };
static const lw_output outputs[] = {
    [MOMENT] = {"moment_nm", "N m", "overturning moment at the underside", LW_NUMBER},
    [OVERTURNING] = {"overturning", "", "what holds over what overturns; below 1.5 is refused", LW_NUMBER},
    [ECCENTRICITY] = {"eccentricity_m", "m", "of the resultant; inside a sixth of the width nothing lifts", LW_NUMBER},
    [PRESSURE] = {"pressure_pa", "Pa", "greatest pressure on the soil", LW_NUMBER},
    [ALLOWED] = {"allowed_pa", "Pa", "allowable pressure of the soil", LW_NUMBER},
    [BOLT_N] = {"bolt_tension_n", "N", "pull of one anchor bolt, wind along the diagonal", LW_NUMBER},
    [BOLT_USE] = {"bolt_use", "", "of its strength, with load factor 1.5", LW_NUMBER},
};

static bool holds(const lw_plate_result *r, double allowed_pa, lw_error *err)
{
    if (r->overturning < 1.5)
        return lw_fail(
            err, LW_REFUSED, "overturning",
            "This base is held only %.3g times against overturning, 1.5 is wanted: make it wider or heavier. A "
            "licensed engineer decides.",
            r->overturning);
    if (r->pressure_pa > allowed_pa)
        return lw_fail(err, LW_REFUSED, "pressure_pa",
                       "The edge presses with %.4g Pa on soil that bears %.4g Pa: make the block wider. A licensed "
                       "engineer decides.",
                       r->pressure_pa, allowed_pa);
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_plate plate = {in[WIDTH].number, in[THICK].number, in[WEIGHT].number,
                            in[FORCE].number, in[ARM].number,   in[SPACING].given ? in[SPACING].number : 0.0};
    lw_plate_result r;
    double lateral;
    const double allowed_pa = lw_soil_bearing_pa((lw_soil)in[SOIL].number);
    if (!lw_soil_lateral_pa_per_m((lw_soil)in[SOIL].number, &lateral, err) || !lw_plate_check(&plate, &r, err))
        return false;
    if (!holds(&r, allowed_pa, err))
        return false;
    out[MOMENT] = lw_value_number(r.moment_nm);
    out[OVERTURNING] = lw_value_number(r.overturning);
    out[ECCENTRICITY] = lw_value_number(r.eccentricity_m);
    out[PRESSURE] = lw_value_number(r.pressure_pa);
    out[ALLOWED] = lw_value_number(allowed_pa);
    if (!in[SPACING].given)
        return true;
    lw_bolt bolt;
    if (!lw_bolt_of(in[SIZE].number, (lw_bolt_grade)in[GRADE].number, &bolt, err))
        return false;
    const double use = lw_bolt_use(&bolt, 1.5 * r.bolt_tension_n, 1.5 * in[FORCE].number / 4.0);
    if (use > 1.0)
        return lw_fail(err, LW_REFUSED, "bolt_use",
                       "The anchor bolts fail: %.4g N on one, its strength used %.3g times. Take thicker ones or set "
                       "them wider apart; a licensed engineer decides.",
                       r.bolt_tension_n, use);
    out[BOLT_N] = lw_value_number(r.bolt_tension_n);
    out[BOLT_USE] = lw_value_number(use);
    return true;
}

const lw_figure lw_fig_plate_base = {
    .name = "plate_base",
    .room = "mast",
    .summary = "Whether a mast on a block or plate tips over, sinks or tears its bolts.",
    .source = "statics of a footing with eccentric load (kern of a sixth; beyond it q = 4 N/(3 B (B - 2 e)), as in "
              "geotechnical textbooks); bearing of IBC Table 1806.2; EN 1993-1-8 for the bolts (from memory)",
    .limits = "Level, undisturbed ground; wind along a side for the soil, along the diagonal for the bolts; the plate "
              "itself and the grip of the bolts in the concrete are not checked",
    .caution = "A block on the ground walks and tips where children climb; bury it where you can. A licensed engineer "
               "decides.",
    .example = "width_m=1.2 thickness_m=0.4 weight_n=14500 force_n=600 arm_m=3 soil=sand bolt_spacing_m=0.2",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
