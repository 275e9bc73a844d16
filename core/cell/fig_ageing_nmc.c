/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure ageing_nmc: fade of an NMC cell under a steady life.
 */
#include "lanewick/ageing.h"
#include "lanewick/figure.h"

enum { DAYS, THROUGHPUT, MEAN_V, CELL_C, CYCLE_V, DEPTH };
static const lw_input inputs[] = {
    [DAYS] = {"days", "d", "age", LW_NUMBER, 0.0, 36500.0, NULL, NULL, 0, 0},
    [THROUGHPUT] = {"throughput_ah", "Ah", "charge plus discharge, scaled to a 2.05 Ah cell", LW_NUMBER, 0.0, 1e6, NULL,
                    "0", 0, 0},
    [MEAN_V] = {"mean_v", "V", "resting voltage most of the time", LW_NUMBER, 2.5, 4.3, NULL, NULL, 0, 0},
    [CELL_C] = {"cell_c", "degC", "cell temperature", LW_NUMBER, -20.0, 70.0, NULL, "25", 0, 0},
    [CYCLE_V] = {"cycle_mean_v", "V", "quadratic mean voltage of the cycle", LW_NUMBER, 2.5, 4.3, NULL, "3.7", 0, 0},
    [DEPTH] = {"depth", "", "depth of the usual cycle", LW_NUMBER, 0.0, 1.0, NULL, "0.5", 0, 0},
};

enum { CALENDAR, CYCLE, CAPACITY, RESISTANCE };
static const lw_output outputs[] = {
    [CALENDAR] = {"calendar_loss", "", "share of the new capacity lost by time", LW_NUMBER},
    [CYCLE] = {"cycle_loss", "", "share lost by use", LW_NUMBER},
    [CAPACITY] = {"capacity_share", "", "capacity left, share of new", LW_NUMBER},
    [RESISTANCE] = {"resistance_share", "", "resistance, times new", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const lw_fade f = lw_fade_nmc(in[DAYS].number, in[THROUGHPUT].number, in[MEAN_V].number, in[CELL_C].number,
                                  in[CYCLE_V].number, in[DEPTH].number);
    out[CALENDAR] = lw_value_number(f.calendar);
    out[CYCLE] = lw_value_number(f.cycle);
    out[CAPACITY] = lw_value_number(f.capacity_share);
    out[RESISTANCE] = lw_value_number(f.resistance_share);
    return true;
}

const lw_figure lw_fig_ageing_nmc = {
    .name = "ageing_nmc",
    .room = "cell",
    .summary = "Capacity and resistance of an NMC cell after time and use.",
    .source = "Schmalstieg et al. (2014), J. Power Sources 257, 325 (coefficients read in public code that cites it)",
    .limits =
        "Fitted on new 2.05 Ah 18650 cells; below about 80 % of new fade speeds up and the model does not see it.",
    .example = "days=365 throughput_ah=449 mean_v=3.9 cell_c=35 cycle_mean_v=3.9 depth=0.3",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
