/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure led_spares: failed LEDs over the years, light when strings go out, strings to add.
 */
#include "lanewick/figure.h"
#include "lanewick/led_strings.h"

#include <math.h>

enum { SERIES, STRINGS, YEARS, HOURS, RATE, OPEN, TAKE, CONFIDENCE };
static const lw_input inputs[] = {
    [SERIES] = {"leds_in_series", "", "in each string", LW_INTEGER, 1, 40, NULL, NULL, 0, 0},
    [STRINGS] = {"strings", "", "side by side", LW_INTEGER, 1, 500, NULL, NULL, 0, 0},
    [YEARS] = {"years", "year", "planned life of the board", LW_NUMBER, 0.1, 30, NULL, "5", 0, 0},
    [HOURS] = {"hours_a_night", "h", "alight", LW_NUMBER, 0.1, 24, NULL, "11", 0, 0},
    [RATE] = {"failures_per_million_h", "1/(10^6 h)",
              "of one LED with its two solder joints: 0.2 good part and joint, 1 usual, 5 hand-soldered scrap (from "
              "memory, wide)",
              LW_NUMBER, 0.001, 1000, NULL, "1", 0, 0},
    [OPEN] = {"open_share", "", "share of failures that interrupt the string; the rest are shorts", LW_NUMBER, 0, 1,
              NULL, "0.7", 0, 0},
    [TAKE] = {"others_take_over", "", "a current driver for all: the other strings take the current of a dark one",
              LW_FLAG, 0, 0, NULL, "no", 0, 0},
    [CONFIDENCE] = {"confidence", "", "with which the wanted strings shall still burn", LW_NUMBER, 0.5, 0.999, NULL,
                    "0.9", 0, 0},
};

enum { FAILED, OUT, ALL, ALIVE, ONE_OUT, ONE_OUT_A, AT_MOST, BUILD };
static const lw_output outputs[] = {
    [FAILED] = {"leds_failed", "", "LEDs expected to fail by then", LW_NUMBER},
    [OUT] = {"string_out", "", "probability that a given string is dark", LW_NUMBER},
    [ALL] = {"all_alight", "", "probability that no string is dark", LW_NUMBER},
    [ALIVE] = {"alive_share", "", "expected share of the first light (alive_share of maintenance_factor)", LW_NUMBER},
    [ONE_OUT] = {"light_one_out", "", "share of the light with one string dark", LW_NUMBER},
    [ONE_OUT_A] = {"current_one_out", "", "current of each other string then, over its first", LW_NUMBER},
    [AT_MOST] = {"strings_out_at_most", "", "with that confidence", LW_INTEGER},
    [BUILD] = {"strings_to_build", "", "so that with that confidence the wanted number still burns", LW_INTEGER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const int series = (int)in[SERIES].number, strings = (int)in[STRINGS].number;
    const double hours_h = in[YEARS].number * 365.25 * in[HOURS].number;
    const lw_led_survival s =
        lw_led_survive(series, strings, 1e-6 * in[RATE].number, hours_h, in[OPEN].number, in[CONFIDENCE].number);
    const bool takes = in[TAKE].number != 0.0 && strings > 1;
    const double left = (strings - 1.0) / strings;
    const int build = lw_led_strings_to_build(strings, s.string_out, in[CONFIDENCE].number);
    out[FAILED] = lw_value_number(s.led_failed * series * strings);
    out[OUT] = lw_value_number(s.string_out);
    out[ALL] = lw_value_number(s.all_alight);
    out[ALIVE] = lw_value_number(s.light_share);
    /* current taken over: the same sum of currents, a little less light for droop, which is not counted */
    out[ONE_OUT] = lw_value_number(takes ? 1.0 : left);
    out[ONE_OUT_A] = lw_value_number(takes ? 1.0 / left : 1.0);
    out[AT_MOST] = lw_value_integer(s.strings_out_at_most);
    if (build >= 0)
        out[BUILD] = lw_value_integer(build);
    return true;
}

const lw_figure lw_fig_led_spares = {
    .name = "led_spares",
    .room = "light",
    .summary = "LEDs that fail over the planned years, the light when a string is dark, and the strings to add for it.",
    .source =
        "exponential life, binomial number of dark strings; failure rate from memory (wide): enter your own count",
    .limits = "Constant rate: early failures show in the first hundred hours of burning in, wear-out is "
              "lumen_maintenance. Water in the head kills all at once.",
    .example = "leds_in_series=3 strings=4 years=5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
