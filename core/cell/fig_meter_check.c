/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure meter_check: find the meter that lies before it spoils a crate.
 */
#include "lanewick/cell_test.h"
#include "lanewick/figure.h"

enum { CELL, FRESH, PERCENT, DIGITS, STEP };
static const lw_input inputs[] = {
    [CELL] = {"cell_v", "V", "each meter's reading of the same resting cell", LW_NUMBERS, -1e5, 1e5, NULL, NULL, 2,
              LW_MAX_METERS},
    [FRESH] = {"fresh_v", "V", "each meter's reading of one fresh alkaline cell", LW_NUMBERS, -1e5, 1e5, NULL, "", 0,
               LW_MAX_METERS},
    [PERCENT] = {"meter_percent", "%", "of the reading, from the meters' sheets", LW_NUMBER, 0.0, 10.0, NULL, "0.5", 0,
                 0},
    [DIGITS] = {"meter_digits", "", "of the last place, from the meters' sheets", LW_NUMBER, 0.0, 50.0, NULL, "2", 0,
                0},
    [STEP] = {"meter_step_v", "V", "value of one digit", LW_NUMBER, 1e-6, 0.1, NULL, "0.001", 0, 0},
};

enum { AGREE, SPREAD, ALLOWED, SUSPECT, HIGH, ADVICE };
static const lw_output outputs[] = {
    [AGREE] = {"agree", "", "the meters differ by no more than their sheets allow", LW_FLAG},
    [SPREAD] = {"spread_v", "V", "greatest difference", LW_NUMBER},
    [ALLOWED] = {"allowed_v", "V", "difference that the sheets allow", LW_NUMBER},
    [SUSPECT] = {"suspect", "", "which meter lies, from 1; none when it cannot be told", LW_INTEGER},
    [HIGH] = {"reads_high", "", "the suspect reads too high", LW_FLAG},
    [ADVICE] = {"advice", "", "what to do", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[FRESH].given && in[FRESH].count != in[CELL].count)
        return lw_fail(err, LW_WRONG_INPUT, "fresh_v", "fresh_v has %zu readings, cell_v %zu; each meter reads both.",
                       in[FRESH].count, in[CELL].count);
    const lw_meter meter = {in[PERCENT].number, in[DIGITS].number, in[STEP].number};
    lw_meter_check c;
    if (!lw_meters_compare(in[CELL].list, in[FRESH].given ? in[FRESH].list : NULL, in[CELL].count, &meter, &c, err))
        return false;
    out[AGREE] = lw_value_flag(c.agree);
    out[SPREAD] = lw_value_number(c.spread_v);
    out[ALLOWED] = lw_value_number(c.allowed_v);
    if (c.suspect) {
        out[SUSPECT] = lw_value_integer(c.suspect);
        out[HIGH] = lw_value_flag(c.reads_high);
    }
    out[ADVICE] = lw_value_text(c.advice);
    return true;
}

const lw_figure lw_fig_meter_check = {
    .name = "meter_check",
    .room = "cell",
    .summary = "Whether two or more meters agree, and which one lies.",
    .source =
        "limits of error as percentage plus digits; a fresh alkaline cell reads 1.55 to 1.65 V open and a weak meter "
        "battery makes a meter read high (common practice)",
    .example = "cell_v=3.842,3.921 fresh_v=1.602,1.664",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
