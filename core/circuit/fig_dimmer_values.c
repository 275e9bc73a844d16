/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure dimmer_values: resistors of a dimmer that switches quickly.
 */
#include "lanewick/eseries.h"
#include "lanewick/figure.h"
#include "lanewick/switch_values.h"

enum { DUTY, HZ, C, SERIES, T };
static const lw_input inputs[] = {
    [DUTY] = {"duty", "", "part of the time the light is on", LW_NUMBER, 0.02, 0.98, NULL, NULL, 0, 0},
    [HZ] = {"frequency_hz", "Hz", "wanted; below 1000 moving things seem to jump", LW_NUMBER, 100, 20000, NULL, "1200",
            0, 0},
    [C] = {"capacitor_nf", "nF", "timing capacitor", LW_NUMBER, 0.1, 1000, NULL, "10", 0, 0},
    [SERIES] = {"series", "", "resistors at hand", LW_CHOICE, 0, 0, LW_ESERIES_WORDS, "E24", 0, 0},
    [T] = {"tolerance_pct", "%", "of the resistors", LW_NUMBER, 0, 20, NULL, "5", 0, 0},
};

enum { RON, ROFF, DUTY_IS, LOW, HIGH, HZ_IS, FLICKER };
static const lw_output outputs[] = {
    [RON] = {"on_ohm", "ohm", "resistor that sets the on time", LW_NUMBER},
    [ROFF] = {"off_ohm", "ohm", "resistor that sets the off time", LW_NUMBER},
    [DUTY_IS] = {"duty", "", "with these", LW_NUMBER},
    [LOW] = {"duty_worst_low", "", "worst case", LW_NUMBER},
    [HIGH] = {"duty_worst_high", "", "worst case", LW_NUMBER},
    [HZ_IS] = {"frequency_hz", "Hz", "with these", LW_NUMBER},
    [FLICKER] = {"flicker_safe", "", "at least 1000 Hz", LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double farad = in[C].number * 1e-9, ln2 = 0.693147180559945, period = 1.0 / in[HZ].number;
    const lw_eseries series = (lw_eseries)in[SERIES].number;
    const double on = lw_eseries_round(lw_dimmer_ohm(in[DUTY].number * period, farad), series, LW_ROUND_NEAREST);
    const double off =
        lw_eseries_round(lw_dimmer_ohm((1.0 - in[DUTY].number) * period, farad), series, LW_ROUND_NEAREST);
    const double t = in[T].number / 100.0;
    if (on < 1000.0 || off < 1000.0 || on > 1e7 || off > 1e7)
        return lw_fail(err, LW_NOT_COMPUTABLE, "capacitor_nf",
                       "The resistors would be %.3g and %.3g ohm; they must lie between 1 kohm and 10 Mohm: take "
                       "another capacitor.",
                       on, off);
    out[RON] = lw_value_number(on);
    out[ROFF] = lw_value_number(off);
    out[DUTY_IS] = lw_value_number(on / (on + off));
    out[LOW] = lw_value_number(on * (1.0 - t) / (on * (1.0 - t) + off * (1.0 + t)));
    out[HIGH] = lw_value_number(on * (1.0 + t) / (on * (1.0 + t) + off * (1.0 - t)));
    const double hz = 1.0 / (ln2 * farad * (on + off));
    out[HZ_IS] = lw_value_number(hz);
    out[FLICKER] = lw_value_flag(hz >= 1000.0);
    return true;
}

const lw_figure lw_fig_dimmer_values = {
    .name = "dimmer_values",
    .room = "circuit",
    .summary = "Timing resistors of a two-level or dimming oscillator.",
    .source = "charge and discharge between one third and two thirds of the supply, each through its own "
              "resistor and diode: t = ln 2 R C (data sheets of the common timer chip)",
    .limits = "The diodes' voltage shifts the duty by some per cent on one cell",
    .caution = "Light that pulses below 200 Hz can harm people with epilepsy and makes turning tools seem to "
               "stand still.",
    .example = "duty=0.3",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
