/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure ageing_lfp: fade of an LFP cell under a steady life.
 */
#include "lanewick/ageing.h"
#include "lanewick/figure.h"

enum { DAYS, CYCLES, CHARGE, CELL_C, DEPTH, RATE };
static const lw_input inputs[] = {
    [DAYS] = {"days", "d", "age", LW_NUMBER, 0.0, 36500.0, NULL, NULL, 0, 0},
    [CYCLES] = {"full_cycles", "", "full equivalent cycles", LW_NUMBER, 0.0, 1e5, NULL, "0", 0, 0},
    [CHARGE] = {"charge", "", "share of charge most of the time", LW_NUMBER, 0.0, 1.0, NULL, "0.5", 0, 0},
    [CELL_C] = {"cell_c", "degC", "cell temperature", LW_NUMBER, -20.0, 70.0, NULL, "25", 0, 0},
    [DEPTH] = {"depth", "", "depth of the usual cycle", LW_NUMBER, 0.0, 1.0, NULL, "0.5", 0, 0},
    [RATE] = {"rate_per_h", "1/h", "usual current / capacity", LW_NUMBER, 0.0, 10.0, NULL, "0.1", 0, 0},
};

enum { CALENDAR, CYCLE, CAPACITY };
static const lw_output outputs[] = {
    [CALENDAR] = {"calendar_loss", "", "share of the new capacity lost by time", LW_NUMBER},
    [CYCLE] = {"cycle_loss", "", "share lost by use", LW_NUMBER},
    [CAPACITY] = {"capacity_share", "", "capacity left, share of new", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const lw_fade f = lw_fade_lfp(in[DAYS].number, in[CYCLES].number, in[CHARGE].number, in[CELL_C].number,
                                  in[DEPTH].number, in[RATE].number);
    out[CALENDAR] = lw_value_number(f.calendar);
    out[CYCLE] = lw_value_number(f.cycle);
    out[CAPACITY] = lw_value_number(f.capacity_share);
    return true;
}

const lw_figure lw_fig_ageing_lfp = {
    .name = "ageing_lfp",
    .room = "cell",
    .summary = "Capacity of an LFP cell after time and use.",
    .source = "Naumann et al. (2018), J. Energy Storage 17, 153; Naumann et al. (2020), J. Power Sources 451, 227666 "
              "(coefficients read in public code that cites them)",
    .limits = "Fitted on new 26650 cells; it says nothing of resistance.",
    .example = "days=365 full_cycles=110 charge=0.9 cell_c=35 depth=0.3 rate_per_h=0.2",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
