/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure log_capacity: charge and energy of a logged discharge or charge.
 */
#include "lanewick/cell_test.h"
#include "lanewick/figure.h"

enum { TIMES, VOLTS, AMPS, END_V };
static const lw_input inputs[] = {
    [TIMES] = {"times_s", "s", "times of the samples", LW_NUMBERS, -1e9, 2e9, NULL, NULL, 2, 0},
    [VOLTS] = {"volts_v", "V", "voltage, 0 to 4.6", LW_NUMBERS, -1e5, 1e5, NULL, NULL, 2, 0},
    [AMPS] = {"amps_a", "A", "current, discharge positive, charge negative", LW_NUMBERS, -1e3, 1e3, NULL, NULL, 2, 0},
    [END_V] = {"end_v", "V", "end of the discharge; a charge is counted to the end of the log", LW_NUMBER, 1.0, 4.6,
               NULL, "3.0", 0, 0},
};

enum { DRAWN_AH, DRAWN_WH, MEAN, END_S, REACHED };
static const lw_output outputs[] = {
    [DRAWN_AH] = {"drawn_ah", "Ah", "charge to the first crossing of end_v; negative for a charge", LW_NUMBER},
    [DRAWN_WH] = {"drawn_wh", "Wh", "energy to there", LW_NUMBER},
    [MEAN] = {"mean_a", "A", "mean current to there", LW_NUMBER},
    [END_S] = {"end_s", "s", "time of the crossing, or of the last sample", LW_NUMBER},
    [REACHED] = {"reached", "", "end_v was reached", LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[TIMES].count != in[VOLTS].count || in[TIMES].count != in[AMPS].count)
        return lw_fail(err, LW_WRONG_INPUT, "volts_v",
                       "times_s, volts_v and amps_a have %zu, %zu and %zu values; each "
                       "sample has all three.",
                       in[TIMES].count, in[VOLTS].count, in[AMPS].count);
    const lw_log log = {in[TIMES].list, in[VOLTS].list, in[AMPS].list, in[TIMES].count};
    lw_log_charge c;
    if (!lw_log_capacity(&log, in[END_V].number, &c, err))
        return false;
    out[DRAWN_AH] = lw_value_number(c.drawn_ah);
    out[DRAWN_WH] = lw_value_number(c.drawn_wh);
    out[MEAN] = lw_value_number(c.mean_a);
    out[END_S] = lw_value_number(c.end_s);
    out[REACHED] = lw_value_flag(c.reached);
    return true;
}

const lw_figure lw_fig_log_capacity = {
    .name = "log_capacity",
    .room = "cell",
    .summary = "Charge and energy of a logged discharge down to an end voltage, or of a logged charge.",
    .source =
        "trapezoid integral of the current; exact integral of volts times amperes on straight lines between samples",
    .limits =
        "The log must start full for the charge to be the capacity; when end_v is not reached it is a lower bound.",
    .example = "times_s=0,1800,3600,5400 volts_v=4.05,3.75,3.50,2.95 amps_a=1,1,1,1 end_v=3.0",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
