/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure standby_energy: what the small currents cost.
 */
#include "lanewick/figure.h"

enum { MA, HOURS, VOLTS, LAMP, LEFT };
static const lw_input inputs[] = {
    [MA] = {"currents_ma", "mA", "current of each part", LW_NUMBERS, 0, 10000, NULL, NULL, 1, 40},
    [HOURS] = {"hours", "h", "hours a day of each part", LW_NUMBERS, 0, 24, NULL, NULL, 1, 40},
    [VOLTS] = {"pack_v", "V", "mean pack voltage", LW_NUMBER, 1, 60, NULL, NULL, 0, 0},
    [LAMP] = {"lamp_wh_night", "Wh", "energy of the light in a night", LW_NUMBER, 0.01, 10000, NULL, "", 0, 0},
    [LEFT] = {"stored_ah", "Ah", "what is left in an empty pack, to tell how long it may lie", LW_NUMBER, 0.01, 1000,
              NULL, "", 0, 0},
};

enum { MAH, WH, MONTH, SHARE, DAYS };
static const lw_output outputs[] = {
    [MAH] = {"mah_day", "mAh", "taken from the pack in a day", LW_NUMBER},
    [WH] = {"wh_day", "Wh", "the same as energy", LW_NUMBER},
    [MONTH] = {"wh_month", "Wh", "in 30 days", LW_NUMBER},
    [SHARE] = {"share_pct", "%", "of the light's energy", LW_NUMBER},
    [DAYS] = {"storage_days", "d", "days until that rest is gone without sun", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[MA].count != in[HOURS].count)
        return lw_fail(err, LW_WRONG_INPUT, "hours", "currents_ma has %zu values and hours %zu; they must be as many.",
                       in[MA].count, in[HOURS].count);
    double mah = 0.0;
    for (size_t i = 0; i < in[MA].count; i++)
        mah += in[MA].list[i] * in[HOURS].list[i];
    const double wh = mah / 1000.0 * in[VOLTS].number;
    out[MAH] = lw_value_number(mah);
    out[WH] = lw_value_number(wh);
    out[MONTH] = lw_value_number(30.0 * wh);
    if (in[LAMP].given)
        out[SHARE] = lw_value_number(100.0 * wh / in[LAMP].number);
    if (in[LEFT].given && mah > 0.0)
        out[DAYS] = lw_value_number(1000.0 * in[LEFT].number / mah);
    return true;
}

const lw_figure lw_fig_standby_energy = {
    .name = "standby_energy",
    .room = "circuit",
    .summary = "Energy that comparator, reference, charger and board take all day.",
    .source = "sum of current times hours; closed form",
    .limits = "Mean pack voltage; self-discharge of the cells (1 to 3 % a month, common practice) comes on top",
    .caution = "A stored lamp without sun empties itself below the floor of its cells: fit an isolating plug.",
    .example = "currents_ma=0.6,0.06,0.008,0.5 hours=24,24,24,12 pack_v=11.1 lamp_wh_night=20",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
