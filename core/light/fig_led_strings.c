/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure led_strings: how strings side by side share a driver's current when each warms itself.
 */
#include "lanewick/figure.h"
#include "lanewick/led_strings.h"

#include <math.h>

enum { TYPE, SERIES, OFFSET, TOTAL, BALLAST, AIR, BOARD, OWN, MOST };
static const lw_input inputs[] = {
    [TYPE] = {"type", "", "kind of LED (led_type)", LW_CHOICE, 0, 0, LW_LED_TYPE_WORDS, "2835_05w", 0, 0},
    [SERIES] = {"leds_in_series", "", "in each string", LW_INTEGER, 1, 40, NULL, NULL, 0, 0},
    [OFFSET] = {"offset_v", "V",
                "mean voltage of one LED of each string against the type's, cold: one value for each string",
                LW_NUMBERS, -1, 1, NULL, NULL, 2, 64},
    [TOTAL] = {"total_ma", "mA", "current of all strings together", LW_NUMBER, 1, 50000, NULL, NULL, 0, 0},
    [BALLAST] = {"ballast_ohm", "ohm", "resistor in each string", LW_NUMBER, 0, 100000, NULL, "0", 0, 0},
    [AIR] = {"air_c", "degC", "air around the board", LW_NUMBER, -40, 80, NULL, "30", 0, 0},
    [BOARD] = {"board_to_air_k_w", "K/W", "board to air, for the heat of all", LW_NUMBER, 0, 1000, NULL, "10", 0, 0},
    [OWN] = {"own_k_w", "K/W", "one LED's junction over the board: 15 on metal, 60 to 80 on plain FR4", LW_NUMBER, 0,
             500, NULL, "70", 0, 0},
    [MOST] = {"most_over_mean", "", "no string shall take more than so many times the mean", LW_NUMBER, 1.01, 3, NULL,
              "1.1", 0, 0},
};

enum { CURRENT, SHARE, JUNCTION, STRONGEST, RATIO, COLD, OVER, NEEDED, NEEDED_W, ADVICE };
static const lw_output outputs[] = {
    [CURRENT] = {"current_a", "A", "of each string", LW_NUMBERS},
    [SHARE] = {"over_mean", "", "current of each over the mean", LW_NUMBERS},
    [JUNCTION] = {"junction_c", "degC", "of each string's LEDs", LW_NUMBERS},
    [STRONGEST] = {"strongest", "", "number of the string that takes most", LW_INTEGER},
    [RATIO] = {"strongest_over_weakest", "", "how far apart", LW_NUMBER},
    [COLD] = {"cold_over_mean", "", "the strongest's current over the mean before anything is warm", LW_NUMBER},
    [OVER] = {"over_rated", "", "the strongest passes the rated current of its LEDs", LW_FLAG},
    [NEEDED] = {"ballast_needed_ohm", "ohm", "resistor in each string that keeps most_over_mean", LW_NUMBER},
    [NEEDED_W] = {"ballast_needed_w", "W", "heat in each of them", LW_NUMBER},
    [ADVICE] = {"advice", "", "what to do", LW_TEXT},
};

/* Far beyond the rated current an LED chars its board: never a matter of advice. */
static const double refused_over_rated = 2.0, refused_junction_c = 150.0;

static bool too_far(const lw_led_group *g, lw_error *err)
{
    const double amps = g->current_a[g->strongest], hot = g->junction_c[g->strongest];
    if (amps <= refused_over_rated * g->led.rated_a && hot <= refused_junction_c)
        return true;
    return lw_fail(err, LW_REFUSED, "ballast_ohm",
                   "String %zu would take %.0f mA (rated %.0f mA) at a junction of %.0f degC and burn the board. Give "
                   "every string its own resistor, use less current or more metal.",
                   g->strongest + 1, 1e3 * amps, 1e3 * g->led.rated_a, hot);
}

static const char *advice(const lw_led_group *g, double ratio)
{
    if (g->current_a[g->strongest] > g->led.rated_a)
        return "CAUTION: the strongest string passes its rated current. Put the resistor in each string or use less "
               "current.";
    if (ratio > 1.3)
        return "Put the resistor in each string, or sort the LEDs by their voltage: the strongest string ages first.";
    return "The strings share well enough.";
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    lw_led_group g = {.led = lw_led_type_at((size_t)in[TYPE].number)->led,
                      .count = in[OFFSET].count,
                      .series = in[SERIES].number,
                      .total_a = 1e-3 * in[TOTAL].number,
                      .ballast_ohm = in[BALLAST].number,
                      .air_c = in[AIR].number,
                      .board_to_air_k_w = in[BOARD].number,
                      .own_k_w = in[OWN].number};
    for (size_t i = 0; i < g.count; i++)
        g.offset_v[i] = in[OFFSET].list[i];
    double *list = lw_arena_take(arena, 3 * g.count, sizeof *list, err);
    lw_led_group cold = g;
    cold.led.vf_per_k_v = 0.0; /* no string gains by warming */
    if (!list || !lw_led_strings_solve(&cold, err) || !lw_led_strings_solve(&g, err) || !too_far(&g, err))
        return false;
    const double mean_a = g.total_a / (double)g.count;
    for (size_t i = 0; i < g.count; i++) {
        list[i] = g.current_a[i];
        list[g.count + i] = g.current_a[i] / mean_a;
        list[2 * g.count + i] = g.junction_c[i];
    }
    const double weakest_a = g.current_a[g.weakest], ratio = g.current_a[g.strongest] / weakest_a;
    const double needed = lw_led_strings_ballast_ohm(&g, in[MOST].number);
    out[CURRENT] = lw_value_list(list, g.count);
    out[SHARE] = lw_value_list(list + g.count, g.count);
    out[JUNCTION] = lw_value_list(list + 2 * g.count, g.count);
    out[STRONGEST] = lw_value_integer((double)g.strongest + 1.0);
    if (weakest_a > 0.0)
        out[RATIO] = lw_value_number(ratio);
    out[COLD] = lw_value_number(cold.current_a[cold.strongest] / mean_a);
    out[OVER] = lw_value_flag(g.current_a[g.strongest] > g.led.rated_a);
    if (isfinite(needed)) {
        out[NEEDED] = lw_value_number(needed);
        out[NEEDED_W] = lw_value_number(mean_a * mean_a * needed);
    }
    out[ADVICE] = lw_value_text(advice(&g, ratio));
    return true;
}

const lw_figure lw_fig_led_strings = {
    .name = "led_strings",
    .room = "light",
    .summary = "How LED strings side by side share one driver's current, each warming itself, and the resistor that "
               "evens them.",
    .source = "straight-line LED model with voltage falling by temperature (data sheets), solved with the heat of each "
              "string",
    .limits = "Near the working current; all LEDs of a string alike.",
    .caution = "One resistor or sink for each string, never one for all: a string that takes too much burns its board.",
    .example = "leds_in_series=3 offset_v=-0.08,0,0.05,0.03 total_ma=300 ballast_ohm=2",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
