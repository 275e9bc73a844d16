/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure string_sharing: how two LED strings of unequal forward voltage share a current.
 */
#include "lanewick/figure.h"
#include "lanewick/netlist.h"
#include "lanewick/wire.h"

#include <math.h>

enum { TOTAL, LEDS, SPREAD, BALLAST, LED_OHM, SATURATION, IDEALITY };
static const lw_input inputs[] = {
    [TOTAL] = {"total_ma", "mA", "current of both strings together", LW_NUMBER, 0.1, 10000, NULL, NULL, 0, 0},
    [LEDS] = {"leds_in_series", "", "in each string", LW_INTEGER, 1, 12, NULL, NULL, 0, 0},
    [SPREAD] = {"led_spread_v", "V", "the LEDs of one string have this much less voltage each", LW_NUMBER, 0, 0.6, NULL,
                "0.1", 0, 0},
    [BALLAST] = {"ballast_ohm", "ohm", "resistor in each string", LW_NUMBER, 0, 10000, NULL, NULL, 0, 0},
    [LED_OHM] = {"led_ohm", "ohm", "series resistance of one LED", LW_NUMBER, 0.001, 100, NULL, "1.0", 0, 0},
    [SATURATION] = {"saturation_a", "A", "of the LED's exponential law", LW_NUMBER, 1e-30, 1e-9, NULL, "1e-19", 0, 0},
    [IDEALITY] = {"ideality", "", "of the same", LW_NUMBER, 1, 6, NULL, "2.6", 0, 0},
};

enum { WEAK, STRONG, RATIO, BALLAST_V };
static const lw_output outputs[] = {
    [WEAK] = {"weak_ma", "mA", "current of the string with the higher voltage", LW_NUMBER},
    [STRONG] = {"strong_ma", "mA", "current of the string with the lower voltage", LW_NUMBER},
    [RATIO] = {"strong_over_weak", "", "how far apart; 1.2 is good", LW_NUMBER},
    [BALLAST_V] = {"ballast_v", "V", "voltage over the stronger string's resistor", LW_NUMBER},
};

/* From node 1 to ground; the number of its diode. */
static size_t add_string(lw_netlist *net, const lw_value *in, double saturation_a)
{
    const double n = in[LEDS].number;
    const int led = lw_netlist_node(net);
    (void)lw_netlist_add(
        net,
        (lw_element){.kind = LW_RESISTANCE, .a = 1, .b = led, .value = in[BALLAST].number + n * in[LED_OHM].number});
    return lw_netlist_add(
        net,
        (lw_element){.kind = LW_DIODE, .a = led, .b = 0, .value = saturation_a, .ideality = n * in[IDEALITY].number});
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const double half_v = 0.5e-3 * in[TOTAL].number * in[BALLAST].number;
    if (half_v > LW_ELV_LIMIT_V)
        return lw_fail(err, LW_REFUSED, "ballast_ohm",
                       "Half of %g mA through %g ohm is %.4g V; extra-low voltage ends at 60 V d.c.", in[TOTAL].number,
                       in[BALLAST].number, half_v);
    lw_netlist net;
    lw_solution s;
    if (!lw_netlist_begin(&net, 8, arena, err))
        return false;
    const double slope_v = in[IDEALITY].number * 0.0258649; /* 27 degC, as the solver's */
    const int top = lw_netlist_node(&net);
    (void)lw_netlist_add(&net, (lw_element){.kind = LW_CURRENT, .a = 0, .b = top, .value = 1e-3 * in[TOTAL].number});
    const size_t weak = add_string(&net, in, in[SATURATION].number);
    const size_t strong = add_string(&net, in, in[SATURATION].number * exp(in[SPREAD].number / slope_v));
    if (!lw_netlist_solve(&net, NULL, arena, &s, err))
        return false;
    out[WEAK] = lw_value_number(1e3 * s.element_a[weak]);
    out[STRONG] = lw_value_number(1e3 * s.element_a[strong]);
    out[RATIO] = lw_value_number(s.element_a[strong] / s.element_a[weak]);
    out[BALLAST_V] = lw_value_number(in[BALLAST].number * s.element_a[strong]);
    return true;
}

const lw_figure lw_fig_string_sharing = {
    .name = "string_sharing",
    .room = "circuit",
    .summary = "How two LED strings of unequal voltage share their current, and what a resistor in each does.",
    .source = "exponential LED law with series resistance, solved as a circuit",
    .limits = "At 27 degC; the stronger string warms up and takes still more; if one opens, the other carries all",
    .caution = "One resistor or sink for each string, never one for all.",
    .example = "total_ma=120 leds_in_series=3 ballast_ohm=15",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
