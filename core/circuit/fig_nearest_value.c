/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure nearest_value: the preferred number nearest to a wanted value.
 */
#include "lanewick/eseries.h"
#include "lanewick/figure.h"

enum { VALUE, SERIES, DIRECTION };
static const lw_input inputs[] = {
    [VALUE] = {"value", "", "the wanted value, in any unit", LW_NUMBER, 1e-12, 1e12, NULL, NULL, 0, 0},
    [SERIES] = {"series", "", "preferred numbers at hand", LW_CHOICE, 0, 0, LW_ESERIES_WORDS, "E12", 0, 0},
    [DIRECTION] = {"direction", "", "nearest by ratio (dividers), up (current-limiting resistors) or down", LW_CHOICE,
                   0, 0, LW_ROUND_WORDS, "nearest", 0, 0},
};

enum { FOUND, MISS, TOLERANCE, PAIR_FIRST, PAIR_SECOND, PAIR_TOGETHER, PAIR_HOW };
static const lw_output outputs[] = {
    [FOUND] = {"value", "", "the preferred number", LW_NUMBER},
    [MISS] = {"miss_pct", "%", "how far it is from the wanted value", LW_NUMBER},
    [TOLERANCE] = {"tolerance_pct", "%", "usual tolerance of parts of this series", LW_NUMBER},
    [PAIR_FIRST] = {"pair_first", "", "when the nearest misses by over 5 %: the first of a pair that comes nearer",
                    LW_NUMBER},
    [PAIR_SECOND] = {"pair_second", "", "the second of the pair", LW_NUMBER},
    [PAIR_TOGETHER] = {"pair_value", "", "value of the two resistors together", LW_NUMBER},
    [PAIR_HOW] = {"pair_how", "", "how to join them: series or parallel", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double wanted = in[VALUE].number;
    const lw_eseries series = (lw_eseries)in[SERIES].number;
    const double found = lw_eseries_round(wanted, series, (lw_round)in[DIRECTION].number);
    const double miss = 100.0 * (found / wanted - 1.0);
    out[FOUND] = lw_value_number(found);
    out[MISS] = lw_value_number(miss);
    out[TOLERANCE] = lw_value_number(100.0 * lw_eseries_tolerance(series));
    if ((miss <= 5.0 && miss >= -5.0) || in[DIRECTION].number != (double)LW_ROUND_NEAREST)
        return true;
    const lw_resistor_pair pair = lw_eseries_pair(wanted, series);
    out[PAIR_FIRST] = lw_value_number(pair.first_ohm);
    out[PAIR_SECOND] = lw_value_number(pair.second_ohm);
    out[PAIR_TOGETHER] = lw_value_number(pair.together_ohm);
    out[PAIR_HOW] = lw_value_text(pair.parallel ? "parallel" : "series");
    return true;
}

const lw_figure lw_fig_nearest_value = {
    .name = "nearest_value",
    .room = "circuit",
    .summary = "Preferred resistor value of an E series for a wanted value, and a pair when none is near.",
    .source = "IEC 60063 (2015); E3 to E24 are tables, E48 to E192 rounded powers with one exception (from memory)",
    .limits = "The pair is meant for resistors; two capacitors add the other way round",
    .example = "value=47.9 series=E12 direction=up",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
