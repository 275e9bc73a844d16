/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure led_string: resistor, currents and efficiency of a string from empty to full pack.
 */
#include "lanewick/eseries.h"
#include "lanewick/figure.h"
#include "lanewick/led_string.h"

#include <math.h>

enum { VF, MA, COUNT, MIN_V, MAX_V, DRIVE, RESISTOR, SLOPE, DESIGN, DROPOUT, SENSE, CONVERTER, MOST };
static const lw_input inputs[] = {
    [VF] = {"led_vf_v", "V", "forward voltage of one LED at led_ma", LW_NUMBER, 1.2, 60, NULL, NULL, 0, 0},
    [MA] = {"led_ma", "mA", "wanted current in the string; half of the rated current lives longest", LW_NUMBER, 0.5,
            5000, NULL, NULL, 0, 0},
    [COUNT] = {"count_series", "", "LEDs in series", LW_INTEGER, 1, 40, NULL, NULL, 0, 0},
    [MIN_V] = {"supply_min_v", "V", "empty pack", LW_NUMBER, 1, 100, NULL, NULL, 0, 0},
    [MAX_V] = {"supply_max_v", "V", "full pack", LW_NUMBER, 1, 100, NULL, NULL, 0, 0},
    [DRIVE] = {"drive", "", "resistor, constant (linear current sink), buck or boost", LW_CHOICE, 0, 0, LW_DRIVE_WORDS,
               "resistor", 0, 0},
    [RESISTOR] = {"resistor_ohm", "ohm", "resistor at hand; left out: computed, E24 rounded up", LW_NUMBER, 0.01, 1e6,
                  NULL, "", 0, 0},
    [SLOPE] = {"led_slope_ohm", "ohm", "slope resistance of one LED; 0 keeps its voltage fixed", LW_NUMBER, 0, 100,
               NULL, "0", 0, 0},
    [DESIGN] = {"design_v", "V", "supply at which led_ma flows; left out: the full pack, so it is never passed",
                LW_NUMBER, 1, 100, NULL, "", 0, 0},
    [DROPOUT] = {"dropout_v", "V", "constant: lost in the sink at least", LW_NUMBER, 0, 3, NULL, "0.4", 0, 0},
    [SENSE] = {"sense_v", "V", "voltage over the sense resistor; left out: constant 0.65, buck and boost 0.2",
               LW_NUMBER, 0.02, 3, NULL, "", 0, 0},
    [CONVERTER] = {"converter_efficiency", "", "of a buck or boost", LW_NUMBER, 0.5, 0.98, NULL, "0.88", 0, 0},
    [MOST] = {"led_max_ma", "mA", "greatest current that the LED stands; left out: twice led_ma", LW_NUMBER, 0.5, 10000,
              NULL, "", 0, 0},
};

enum { OHM, EXACT, CURRENT_MIN, CURRENT_MAX, WATT, EFFICIENCY_MIN, EFFICIENCY_MAX, RATING, LIT, COUNT_FULL };
static const lw_output outputs[] = {
    [OHM] = {"resistor_ohm", "ohm", "ballast or sense resistor, E24 rounded up", LW_NUMBER},
    [EXACT] = {"resistor_exact_ohm", "ohm", "before rounding", LW_NUMBER},
    [CURRENT_MIN] = {"current_min_a", "A", "in the string, empty pack", LW_NUMBER},
    [CURRENT_MAX] = {"current_max_a", "A", "in the string, full pack", LW_NUMBER},
    [WATT] = {"resistor_w", "W", "heat in the resistor, full pack", LW_NUMBER},
    [EFFICIENCY_MIN] = {"efficiency_min", "", "LED power over supply power, the lower of full and empty", LW_NUMBER},
    [EFFICIENCY_MAX] = {"efficiency_max", "", "the higher of them", LW_NUMBER},
    [RATING] = {"resistor_rating_w", "W", "rating to fit, at least twice the heat", LW_NUMBER},
    [LIT] = {"lit_when_empty", "", "the string still lights with the empty pack", LW_FLAG},
    [COUNT_FULL] = {"count_to_empty", "", "LEDs in series that keep full current to the empty pack", LW_INTEGER},
};

static double sense_v(const lw_value *in, const lw_led_string *s)
{
    return in[SENSE].given ? in[SENSE].number : s->drive == LW_DRIVE_CONSTANT ? 0.65 : 0.2;
}

static double exact_resistor(const lw_value *in, const lw_led_string *s)
{
    if (s->drive == LW_DRIVE_RESISTOR) {
        const double volts = in[DESIGN].given ? in[DESIGN].number : in[MAX_V].number;
        return (volts - lw_led_string_v(s, s->current_a)) / s->current_a;
    }
    return sense_v(in, s) / s->current_a;
}

static bool choose_resistor(const lw_value *in, lw_led_string *s, lw_value *out, lw_error *err)
{
    const double exact = exact_resistor(in, s);
    if (in[RESISTOR].given) {
        s->resistor_ohm = in[RESISTOR].number;
    } else {
        if (!(exact > 0.0))
            return lw_fail(err, LW_NOT_COMPUTABLE, "count_series",
                           "The string needs %.4g V at %g mA; nothing is left for a resistor. Take fewer LEDs in "
                           "series.",
                           lw_led_string_v(s, s->current_a), 1e3 * s->current_a);
        s->resistor_ohm = lw_eseries_round(exact, LW_E24, LW_ROUND_UP);
    }
    if (s->drive != LW_DRIVE_RESISTOR)
        s->kept_a = sense_v(in, s) / s->resistor_ohm;
    out[OHM] = lw_value_number(s->resistor_ohm);
    if (exact > 0.0)
        out[EXACT] = lw_value_number(exact);
    return true;
}

/* LEDs over their limit burn out, and what feeds them may start a fire. */
static bool stands(const lw_value *in, const lw_led_string *s, double amps, lw_error *err)
{
    const double most_a = in[MOST].given ? in[MOST].number / 1000.0 : 2.0 * s->current_a;
    return amps <= most_a * (1.0 + 1e-9) ||
           lw_fail(err, LW_REFUSED, in[RESISTOR].given ? "resistor_ohm" : "led_max_ma",
                   "With %.3g ohm %.4g mA would flow with the full pack; the LED stands %.4g mA and burns out, and the "
                   "resistor would burn %.3g W. Take a greater resistor.",
                   s->resistor_ohm, 1e3 * amps, 1e3 * most_a, amps * amps * s->resistor_ohm);
}

static void rating(double watt, lw_value *out)
{
    static const double sizes_w[] = {0.125, 0.25, 0.5, 1.0, 2.0, 3.0, 5.0, 10.0};
    for (size_t i = 0; i < sizeof sizes_w / sizeof sizes_w[0] && !out[RATING].given; i++)
        if (sizes_w[i] >= 2.0 * watt)
            out[RATING] = lw_value_number(sizes_w[i]);
    out[WATT] = lw_value_number(watt);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double low = in[MIN_V].number, high = in[MAX_V].number;
    lw_led_string s = {.vf_v = in[VF].number,
                       .current_a = in[MA].number / 1000.0,
                       .slope_ohm = in[SLOPE].number,
                       .count = in[COUNT].number,
                       .dropout_v = in[DROPOUT].number,
                       .drive = (lw_drive)in[DRIVE].number,
                       .converter = in[CONVERTER].number};
    if (low > high)
        return lw_fail(err, LW_WRONG_INPUT, "supply_min_v",
                       "supply_min_v is %g V; it must not pass supply_max_v, %g V.", low, high);
    if (high > 60.0)
        return lw_fail(err, LW_REFUSED, "supply_max_v", "supply_max_v is %g V; extra-low voltage ends at 60 V d.c.",
                       high);
    if (s.slope_ohm * s.current_a >= s.vf_v)
        return lw_fail(err, LW_WRONG_INPUT, "led_slope_ohm",
                       "led_slope_ohm is %g; times the current it must stay below the forward voltage.", s.slope_ohm);
    if (!lw_led_string_fits(&s, low, high, err) || !choose_resistor(in, &s, out, err))
        return false;
    const double amps_low = lw_led_string_a(&s, low), amps_high = lw_led_string_a(&s, high);
    if (!stands(in, &s, fmax(amps_low, amps_high), err))
        return false;
    const double at_low = lw_led_string_efficiency(&s, low), at_high = lw_led_string_efficiency(&s, high);
    out[CURRENT_MIN] = lw_value_number(amps_low);
    out[CURRENT_MAX] = lw_value_number(amps_high);
    rating(amps_high * amps_high * s.resistor_ohm, out);
    out[EFFICIENCY_MIN] = lw_value_number(fmin(at_low, at_high));
    out[EFFICIENCY_MAX] = lw_value_number(fmax(at_low, at_high));
    out[LIT] = lw_value_flag(amps_low > 0.0);
    out[COUNT_FULL] = lw_value_integer(fmax(0.0, floor((low - s.dropout_v) / s.vf_v + 1e-9)));
    return true;
}

const lw_figure lw_fig_led_string = {
    .name = "led_string",
    .room = "circuit",
    .summary = "Resistor, currents, heat and efficiency of an LED string from empty to full pack.",
    .source = "straight-line LED model around the working current, closed form; limits of buck and boost common "
              "practice",
    .limits = "One string; every string needs its own resistor or sink, never one for all",
    .caution = "Resistors run over 100 degC at their rating: fit twice the heat, away from the bottle and the glue.",
    .example = "led_vf_v=2.85 led_ma=50 count_series=3 supply_min_v=9 supply_max_v=12.6 drive=resistor",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
