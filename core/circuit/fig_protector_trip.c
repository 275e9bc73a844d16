/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure protector_trip: the current at which a protection board trips.
 */
#include "lanewick/figure.h"

enum { MV, SPREAD, OHM, PAIRS, LOAD };
static const lw_input inputs[] = {
    [MV] = {"threshold_mv", "mV", "over two transistors, from the data sheet", LW_NUMBER, 10, 500, NULL, "150", 0, 0},
    [SPREAD] = {"spread_mv", "mV", "its spread, either way", LW_NUMBER, 0, 200, NULL, "30", 0, 0},
    [OHM] = {"fet_ohm", "ohm", "resistance of one transistor, hot", LW_NUMBER, 0.0005, 1, NULL, NULL, 0, 0},
    [PAIRS] = {"pairs", "", "pairs in parallel", LW_INTEGER, 1, 8, NULL, "1", 0, 0},
    [LOAD] = {"load_a", "A", "greatest current in normal use", LW_NUMBER, 0.001, 200, NULL, "", 0, 0},
};

enum { TRIP, LOW, HIGH, HOLDS };
static const lw_output outputs[] = {
    [TRIP] = {"trip_a", "A", "trips at", LW_NUMBER},
    [LOW] = {"trip_low_a", "A", "at the earliest", LW_NUMBER},
    [HIGH] = {"trip_high_a", "A", "at the latest", LW_NUMBER},
    [HOLDS] = {"holds", "", "carries 1.5 times the normal current", LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[SPREAD].number >= in[MV].number)
        return lw_fail(err, LW_WRONG_INPUT, "spread_mv", "spread_mv is %g; it must lie below threshold_mv, %g.",
                       in[SPREAD].number, in[MV].number);
    const double ohm = 2.0 * in[OHM].number / in[PAIRS].number;
    const double low = 1e-3 * (in[MV].number - in[SPREAD].number) / ohm;
    out[TRIP] = lw_value_number(1e-3 * in[MV].number / ohm);
    out[LOW] = lw_value_number(low);
    out[HIGH] = lw_value_number(1e-3 * (in[MV].number + in[SPREAD].number) / ohm);
    if (in[LOAD].given)
        out[HOLDS] = lw_value_flag(low >= 1.5 * in[LOAD].number);
    return true;
}

const lw_figure lw_fig_protector_trip = {
    .name = "protector_trip",
    .room = "circuit",
    .summary = "Current at which a one-cell protection board trips, with its spread.",
    .source = "threshold over two transistor resistances; data sheet of a common one-cell protector: 150 mV, "
              "30 mV either way",
    .limits = "Transistors warm up and the trip falls by a third to a half",
    .caution = "The board is the second line: the charger's voltage is the first, the fuse the third.",
    .example = "fet_ohm=0.025 load_a=1.2",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
