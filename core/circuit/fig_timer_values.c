/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure timer_values: resistor of a counter timer.
 */
#include "lanewick/eseries.h"
#include "lanewick/figure.h"
#include "lanewick/switch_values.h"

enum { HOURS, STAGES, C, FACTOR, SERIES, RT, CT, OT };
static const lw_input inputs[] = {
    [HOURS] = {"hours", "h", "wanted time", LW_NUMBER, 0.01, 48, NULL, NULL, 0, 0},
    [STAGES] = {"stages", "", "divider stages to the output used", LW_INTEGER, 4, 24, NULL, "14", 0, 0},
    [C] = {"capacitor_uf", "uF", "of the oscillator, film type", LW_NUMBER, 0.001, 10, NULL, "0.47", 0, 0},
    [FACTOR] = {"factor", "", "period over R C, 2.3 in data sheets of counter-oscillators", LW_NUMBER, 1, 4, NULL,
                "2.3", 0, 0},
    [SERIES] = {"series", "", "resistors at hand", LW_CHOICE, 0, 0, LW_ESERIES_WORDS, "E24", 0, 0},
    [RT] = {"resistor_tolerance_pct", "%", "", LW_NUMBER, 0, 20, NULL, "5", 0, 0},
    [CT] = {"capacitor_tolerance_pct", "%", "", LW_NUMBER, 0, 20, NULL, "10", 0, 0},
    [OT] = {"oscillator_tolerance_pct", "%", "of the chip over supply and temperature", LW_NUMBER, 0, 20, NULL, "5", 0,
            0},
};

enum { R, GIVEN, SHORT, LONG, SERIES_R, BLINK };
static const lw_output outputs[] = {
    [R] = {"resistor_ohm", "ohm", "timing resistor", LW_NUMBER},
    [GIVEN] = {"hours", "h", "time with it", LW_NUMBER},
    [SHORT] = {"hours_worst_low", "h", "worst case, short", LW_NUMBER},
    [LONG] = {"hours_worst_high", "h", "worst case, long", LW_NUMBER},
    [SERIES_R] = {"series_resistor_ohm", "ohm", "protection resistor, 2 to 10 times the timing resistor", LW_NUMBER},
    [BLINK] = {"test_s", "s", "period of the oscillator: the quick test on stage 4 takes 8 of them", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double farad = in[C].number * 1e-6, k = in[FACTOR].number;
    /* the last stage rises after half of its period: 2^(stages - 1) periods of the oscillator */
    const double wanted = in[HOURS].number / lw_timer_h(1.0, farad, (int)in[STAGES].number, k);
    if (wanted < 10e3 || wanted > 10e6)
        return lw_fail(err, LW_NOT_COMPUTABLE, "capacitor_uf",
                       "%g h would need a resistor of %.3g ohm; it must lie between 10 kohm and 10 Mohm: take another "
                       "capacitor or stage.",
                       in[HOURS].number, wanted);
    const double ohm = lw_eseries_round(wanted, (lw_eseries)in[SERIES].number, LW_ROUND_NEAREST);
    const double hours = lw_timer_h(ohm, farad, (int)in[STAGES].number, k);
    const double r = in[RT].number / 100.0, c = in[CT].number / 100.0, o = in[OT].number / 100.0;
    out[R] = lw_value_number(ohm);
    out[GIVEN] = lw_value_number(hours);
    out[SHORT] = lw_value_number(hours * (1.0 - r) * (1.0 - c) * (1.0 - o));
    out[LONG] = lw_value_number(hours * (1.0 + r) * (1.0 + c) * (1.0 + o));
    out[SERIES_R] = lw_value_number(lw_eseries_round(5.0 * ohm, (lw_eseries)in[SERIES].number, LW_ROUND_NEAREST));
    out[BLINK] = lw_value_number(k * ohm * farad);
    return true;
}

const lw_figure lw_fig_timer_values = {
    .name = "timer_values",
    .room = "circuit",
    .summary = "Timing resistor of a counter timer for a number of hours, with its worst case.",
    .source = "period 2.3 R C as in data sheets of CMOS counters with oscillator (from memory); output of "
              "stage n after 2^(n-1) periods",
    .limits = "Film capacitor, no electrolytic; trim with a part in hand, since the chip alone scatters by 5 %",
    .example = "hours=5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
