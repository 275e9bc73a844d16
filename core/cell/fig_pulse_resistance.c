/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure pulse_resistance: resistance of a cell from a logged current step.
 */
#include "lanewick/cell_test.h"
#include "lanewick/figure.h"

enum { TIMES, VOLTS, AMPS, AT };
static const lw_input inputs[] = {
    [TIMES] = {"times_s", "s", "times of the samples; the first ones at rest", LW_NUMBERS, -1e9, 2e9, NULL, NULL, 2, 0},
    [VOLTS] = {"volts_v", "V", "voltage, 0 to 4.6", LW_NUMBERS, -1e5, 1e5, NULL, NULL, 2, 0},
    [AMPS] = {"amps_a", "A", "current, discharge positive", LW_NUMBERS, -1e3, 1e3, NULL, NULL, 2, 0},
    [AT] = {"at_s", "s", "time after the step at which the resistance is wanted", LW_NUMBER, 0.0, 3600.0, NULL, "10", 0,
            0},
};

enum { RESISTANCE, STEP, LENGTH, AT2, AT10, AT20, R0, R1, TAU };
static const lw_output outputs[] = {
    [RESISTANCE] = {"resistance_ohm", "ohm", "voltage drop over current step at at_s", LW_NUMBER},
    [STEP] = {"step_a", "A", "the current step", LW_NUMBER},
    [LENGTH] = {"length_s", "s", "how long it was held", LW_NUMBER},
    [AT2] = {"resistance_2s_ohm", "ohm", "the same at 2 s", LW_NUMBER},
    [AT10] = {"resistance_10s_ohm", "ohm", "the same at 10 s", LW_NUMBER},
    [AT20] = {"resistance_20s_ohm", "ohm", "the same at 20 s", LW_NUMBER},
    [R0] = {"r0_ohm", "ohm", "fitted: at once", LW_NUMBER},
    [R1] = {"r1_ohm", "ohm", "fitted: of the RC pair", LW_NUMBER},
    [TAU] = {"tau_s", "s", "fitted: time constant of the RC pair", LW_NUMBER},
};

static void put(lw_value *out, lw_reading r)
{
    if (r.given)
        *out = lw_value_number(r.value);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[TIMES].count != in[VOLTS].count || in[TIMES].count != in[AMPS].count)
        return lw_fail(err, LW_WRONG_INPUT, "volts_v",
                       "times_s, volts_v and amps_a have %zu, %zu and %zu values; each "
                       "sample has all three.",
                       in[TIMES].count, in[VOLTS].count, in[AMPS].count);
    const lw_log log = {in[TIMES].list, in[VOLTS].list, in[AMPS].list, in[TIMES].count};
    lw_pulse p;
    if (!lw_pulse_resistance(&log, in[AT].number, &p, err))
        return false;
    out[RESISTANCE] = lw_value_number(p.resistance_ohm);
    out[STEP] = lw_value_number(p.step_a);
    out[LENGTH] = lw_value_number(p.length_s);
    put(&out[AT2], p.at_2s_ohm);
    put(&out[AT10], p.at_10s_ohm);
    put(&out[AT20], p.at_20s_ohm);
    put(&out[R0], (lw_reading){p.fitted, p.r0_ohm});
    put(&out[R1], (lw_reading){p.fitted, p.r1_ohm});
    put(&out[TAU], (lw_reading){p.fitted, p.tau_s});
    return true;
}

const lw_figure lw_fig_pulse_resistance = {
    .name = "pulse_resistance",
    .room = "cell",
    .summary = "Direct-current resistance of a cell at a stated time after a current step, and its RC pair.",
    .source = "definition of d.c. resistance by voltage drop over current step; RC pair by least squares",
    .limits =
        "Compare only values of the same time after the step: 2 s reads about 0.87 of 10 s, 20 s about 1.1 times.",
    .example = "times_s=0,1,2,5,10 volts_v=3.90,3.8166,3.8139,3.8090,3.8025 amps_a=0,2,2,2,2 at_s=10",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
