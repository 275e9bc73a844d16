/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure bolt_strength: what one bolt holds, and under pull and shear together.
 */
#include "lanewick/figure.h"
#include "lanewick/mast_parts.h"

enum { SIZE, GRADE, TENSION, SHEAR };
static const lw_input inputs[] = {
    [SIZE] = {"bolt_mm", "mm", "5, 6, 8, 10, 12, 16, 20 or 24 (M5 to M24)", LW_NUMBER, 5, 24, NULL, NULL, 0, 0},
    [GRADE] = {"grade", "", "on the head; without a mark 4.6", LW_CHOICE, 0, 0, LW_BOLT_GRADE_WORDS, "4.6", 0, 0},
    [TENSION] = {"tension_n", "N", "design pull on it, with load factor", LW_NUMBER, 0, 1000000.0, NULL, "0", 0, 0},
    [SHEAR] = {"shear_n", "N", "design shear in one plane, with load factor", LW_NUMBER, 0, 1000000.0, NULL, "0", 0, 0},
};

enum { PULLS, SHEARS, AREA, USE };
static const lw_output outputs[] = {
    [PULLS] = {"tension_strength_n", "N", "design strength in pull", LW_NUMBER},
    [SHEARS] = {"shear_strength_n", "N", "design strength in shear through the thread, one plane", LW_NUMBER},
    [AREA] = {"stress_area_mm2", "mm2", "of the thread", LW_NUMBER},
    [USE] = {"use", "", "of its strength by both together; above 1 is refused", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    lw_bolt bolt;
    if (!lw_bolt_of(in[SIZE].number, (lw_bolt_grade)in[GRADE].number, &bolt, err))
        return false;
    const double use = lw_bolt_use(&bolt, in[TENSION].number, in[SHEAR].number);
    if (use > 1.0)
        return lw_fail(
            err, LW_REFUSED, "use",
            "This bolt fails: its strength is used %.3g times. Take more or thicker bolts; a licensed engineer "
            "decides.",
            use);
    out[PULLS] = lw_value_number(bolt.tension_n);
    out[SHEARS] = lw_value_number(bolt.shear_n);
    out[AREA] = lw_value_number(bolt.area_mm2);
    out[USE] = lw_value_number(use);
    return true;
}

const lw_figure lw_fig_bolt_strength = {
    .name = "bolt_strength",
    .room = "mast",
    .summary = "Strength of a bolt in pull and shear.",
    .source = "EN 1993-1-8 Table 3.4 with gamma_M2 1.25, stress areas of ISO 898-1 (from memory)",
    .limits = "Coarse thread, thread in the shear plane; not the plate or wall around the hole",
    .caution =
        "Lock nuts, large washers on a thin wall; a bolt that rusts is half a bolt. A licensed engineer decides.",
    .example = "bolt_mm=8 grade=4.6 tension_n=1200 shear_n=800",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
