/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure charge_limits: voltages of charging and cut-off for a pack.
 */
#include "lanewick/charging.h"
#include "lanewick/figure.h"

enum { KIND, SERIES, LONG, TOLERANCE, CAPACITY };
static const lw_input inputs[] = {
    [KIND] = {"voltage_class", "", "of every cell in the pack", LW_CHOICE, 0, 0, LW_CHARGE_CLASS_WORDS, NULL, 0, 0},
    [SERIES] = {"series", "", "groups in series", LW_INTEGER, 1, 14, NULL, NULL, 0, 0},
    [LONG] = {"long_life", "", "lower full voltage: about 10 % less capacity, about twice the cycles", LW_FLAG, 0, 0,
              NULL, "no", 0, 0},
    [TOLERANCE] = {"tolerance_pct", "%", "of the charger's voltage; common chips 1 %", LW_NUMBER, 0, 5, NULL, "1", 0,
                   0},
    [CAPACITY] = {"capacity_ah", "Ah", "of one group", LW_NUMBER, 0.1, 1000, NULL, "", 0, 0},
};

enum { FULL, WORST, PRE, AGAIN, EMPTY, BACK, FLOOR, CURRENT, END, BALANCE };
static const lw_output outputs[] = {
    [FULL] = {"full_v", "V", "charge voltage of the pack", LW_NUMBER},
    [WORST] = {"full_worst_v", "V", "the same at the end of the tolerance", LW_NUMBER},
    [PRE] = {"precharge_v", "V", "below it charge with a tenth of the current", LW_NUMBER},
    [AGAIN] = {"recharge_v", "V", "charging starts again below it", LW_NUMBER},
    [EMPTY] = {"cutoff_v", "V", "the lamp switches itself off below it, under load", LW_NUMBER},
    [BACK] = {"cutoff_back_v", "V", "and on again above it", LW_NUMBER},
    [FLOOR] = {"floor_v", "V", "protection board: no lower in use", LW_NUMBER},
    [CURRENT] = {"current_a", "A", "greatest charge current for reclaimed cells, 0.3 of the capacity", LW_NUMBER},
    [END] = {"end_a", "A", "charging ends at this current", LW_NUMBER},
    [BALANCE] = {"board", "", "what else the pack needs", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_charge_limits cell =
        lw_charge_limits_for((lw_charge_class)in[KIND].number, in[LONG].number != 0.0, in[TOLERANCE].number / 100.0);
    const double series = in[SERIES].number;
    if (!lw_charge_limits_check(&cell, err))
        return false;
    if (series * cell.full_worst_v > 60.0)
        return lw_fail(err, LW_REFUSED, "series", "%g groups reach %.4g V, over the 60 V d.c. of extra-low voltage.",
                       series, series * cell.full_worst_v);
    out[FULL] = lw_value_number(series * cell.full_v);
    out[WORST] = lw_value_number(series * cell.full_worst_v);
    out[PRE] = lw_value_number(series * cell.precharge_v);
    out[AGAIN] = lw_value_number(series * cell.recharge_v);
    out[EMPTY] = lw_value_number(series * cell.empty_v);
    out[BACK] = lw_value_number(series * cell.empty_back_v);
    out[FLOOR] = lw_value_number(series * cell.floor_v);
    if (in[CAPACITY].given) {
        out[CURRENT] = lw_value_number(0.3 * in[CAPACITY].number);
        out[END] = lw_value_number(0.1 * in[CAPACITY].number);
    }
    out[BALANCE] = lw_value_text(series > 1.0 ? "a board that watches and balances every group: the charger cannot see "
                                                "the weakest one"
                                              : "a protection board; the charger's voltage is the first limit, the "
                                                "board the second");
    return true;
}

const lw_figure lw_fig_charge_limits = {
    .name = "charge_limits",
    .room = "circuit",
    .summary = "Charge, recharge and cut-off voltages of a pack; refused when the tolerance passes the hard "
               "limit.",
    .source = "data sheets of common cells and charger chips (4.20 V 1 %, end at a tenth, from memory for the "
              "long-life setting); hard limits 4.25 and 3.70 V of this project",
    .limits = "4v35 cells are charged to 4.20 V like the others; an unknown class is never charged",
    .caution = "Never charge below 0 or above 45 degC. Never tie a bare panel to a lithium pack: it has no "
               "limit of its own.",
    .example = "voltage_class=4v2 series=3 capacity_ah=5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
