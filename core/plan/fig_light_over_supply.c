/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure light_over_supply: light, current and watts of a head from full to empty pack.
 */
#include "lanewick/figure.h"
#include "lanewick/led.h"
#include "lanewick/led_string.h"

#include <math.h>
#include <stdio.h>

enum { TYPE, SERIES, STRINGS, MIN_V, MAX_V, DRIVE, CURRENT, AIR, BOARD, DROPOUT, CONVERTER, POINTS };
static const lw_input inputs[] = {
    [TYPE] = {"type", "", "kind of LED (led_type)", LW_CHOICE, 0, 0, LW_LED_TYPE_WORDS, "2835_05w", 0, 0},
    [SERIES] = {"leds_in_series", "", "in each string", LW_INTEGER, 1, 40, NULL, NULL, 0, 0},
    [STRINGS] = {"strings", "", "side by side, each with its own resistor or sink", LW_INTEGER, 1, 200, NULL, NULL, 0,
                 0},
    [MIN_V] = {"supply_min_v", "V", "empty pack", LW_NUMBER, 1, 60, NULL, NULL, 0, 0},
    [MAX_V] = {"supply_max_v", "V", "full pack", LW_NUMBER, 1, 60, NULL, NULL, 0, 0},
    [DRIVE] = {"drive", "", "resistor, constant (linear current sink), buck or boost", LW_CHOICE, 0, 0, LW_DRIVE_WORDS,
               "resistor", 0, 0},
    [CURRENT] = {"current_a", "A",
                 "wanted in each LED, with a resistor at the full pack; left out: half of the rated one", LW_NUMBER,
                 1e-3, 5, NULL, "", 0, 0},
    [AIR] = {"air_c", "degC", "air around the board", LW_NUMBER, -40, 80, NULL, "25", 0, 0},
    [BOARD] = {"board_to_air_k_w", "K/W", "board to air", LW_NUMBER, 0, 1000, NULL, "10", 0, 0},
    [DROPOUT] = {"dropout_v", "V", "constant: lost in the sink at least", LW_NUMBER, 0, 3, NULL, "0.4", 0, 0},
    [CONVERTER] = {"converter_efficiency", "", "of a buck or boost", LW_NUMBER, 0.5, 0.98, NULL, "0.88", 0, 0},
    [POINTS] = {"points", "", "voltages to look at", LW_INTEGER, 2, 100, NULL, "7", 0, 0},
};

enum { SUPPLY, AMP, LUMENS, WATT, LM_W, JUNCTION, OHM, RATIO };
static const lw_output outputs[] = {
    [SUPPLY] = {"supply_v", "V", "voltages of the pack", LW_NUMBERS},
    [AMP] = {"current_a", "A", "in each LED", LW_NUMBERS},
    [LUMENS] = {"lumens", "lm", "of the whole head", LW_NUMBERS},
    [WATT] = {"supply_w", "W", "taken from the pack", LW_NUMBERS},
    [LM_W] = {"lumens_per_w", "lm/W", "of the pack's watts", LW_NUMBERS},
    [JUNCTION] = {"junction_c", "degC", "of the LEDs", LW_NUMBERS},
    [OHM] = {"resistor_ohm", "ohm", "resistor in each string (drive resistor), before rounding", LW_NUMBER},
    [RATIO] = {"empty_over_full", "", "light at the empty pack over that at the full one", LW_NUMBER},
};

static const double dark_a = 1e-5;

typedef struct head {
    lw_led led;
    lw_led_string string;
    size_t count;
    double air_c, board_k_w;
} head;

/* Current that the string takes at this supply with its LEDs as warm as that current makes them. */
static bool settle(const head *h, double supply_v, double *amp, lw_led_point *at, lw_error *err)
{
    lw_led_string s = h->string;
    *at = (lw_led_point){.junction_c = h->air_c};
    *amp = s.current_a;
    for (int i = 0; i < 200; i++) {
        if (*amp >= dark_a && !lw_led_solve(&h->led, *amp, h->count, h->board_k_w, h->air_c, at, err))
            return false;
        s.vf_v = h->string.vf_v + h->led.vf_per_k_v * (at->junction_c - 25.0);
        const double change = lw_led_string_a(&s, supply_v) - *amp;
        *amp += 0.5 * change;
        if (*amp < dark_a || fabs(change) < 1e-10)
            break;
    }
    return true;
}

static head head_of(const lw_value *in)
{
    const lw_led led = lw_led_type_at((size_t)in[TYPE].number)->led;
    const double amp = in[CURRENT].given ? in[CURRENT].number : 0.5 * led.rated_a;
    return (head){.led = led,
                  .string = {.vf_v = led.rated_vf_v + led.slope_ohm * (amp - led.rated_a),
                             .current_a = amp,
                             .slope_ohm = led.slope_ohm,
                             .count = in[SERIES].number,
                             .dropout_v = in[DROPOUT].number,
                             .drive = (lw_drive)in[DRIVE].number,
                             .resistor_ohm = 0.0,
                             .converter = in[CONVERTER].number},
                  .count = (size_t)(in[SERIES].number * in[STRINGS].number),
                  .air_c = in[AIR].number,
                  .board_k_w = in[BOARD].number};
}

/* The string's own check calls the count otherwise. */
static bool fits(const head *h, double low, double high, lw_error *err)
{
    if (lw_led_string_fits(&h->string, low, high, err))
        return true;
    if (err)
        (void)snprintf(err->field, sizeof err->field, "leds_in_series");
    return false;
}

static bool check(const lw_value *in, head *h, lw_value *out, lw_error *err)
{
    const double low = in[MIN_V].number, high = in[MAX_V].number;
    if (low >= high)
        return lw_fail(err, LW_WRONG_INPUT, "supply_min_v",
                       "supply_min_v is %g V; it must be below supply_max_v, %g V.", low, high);
    if (!lw_in_range(err, "current_a", h->string.current_a, 0.01 * h->led.rated_a, 2.0 * h->led.rated_a, "A") ||
        !fits(h, low, high, err))
        return false;
    if (h->string.drive != LW_DRIVE_RESISTOR)
        return true;
    /* the resistor is chosen for warm LEDs at the full pack */
    lw_led_point at;
    if (!lw_led_solve(&h->led, h->string.current_a, h->count, h->board_k_w, h->air_c, &at, err))
        return false;
    h->string.resistor_ohm = (high - h->string.count * at.vf_v) / h->string.current_a;
    if (!(h->string.resistor_ohm > 0.0))
        return lw_fail(err, LW_NOT_COMPUTABLE, "leds_in_series",
                       "The string needs %.4g V and the full pack has %g V: nothing is left for a resistor. Take fewer "
                       "LEDs in series.",
                       h->string.count * at.vf_v, high);
    out[OHM] = lw_value_number(h->string.resistor_ohm);
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const size_t points = (size_t)in[POINTS].number;
    double *list = lw_arena_take(arena, 6 * points, sizeof *list, err);
    head h = head_of(in);
    if (!list || !check(in, &h, out, err))
        return false;
    for (size_t i = 0; i < points; i++) {
        const double share = (double)i / (double)(points - 1), low = in[MIN_V].number, high = in[MAX_V].number;
        const double volt = high + share * (low - high);
        double amp = 0.0;
        lw_led_point at;
        if (!settle(&h, volt, &amp, &at, err))
            return false;
        const bool dark = amp < dark_a, switching = h.string.drive == LW_DRIVE_BUCK || h.string.drive == LW_DRIVE_BOOST;
        const double led_w = dark ? 0.0 : at.power_w * (double)h.count,
                     lumens = dark ? 0.0 : at.lumens * (double)h.count;
        const double watt = dark ? 0.0 : switching ? led_w / h.string.converter : volt * amp * in[STRINGS].number;
        const double row[] = {volt, dark ? 0.0 : amp, lumens, watt, dark ? 0.0 : lumens / watt, at.junction_c};
        for (size_t k = 0; k < 6; k++)
            list[k * points + i] = row[k];
    }
    for (size_t k = 0; k < 6; k++)
        out[SUPPLY + k] = lw_value_list(list + k * points, points);
    out[RATIO] = lw_value_number(list[2 * points + points - 1] / list[2 * points]);
    return true;
}

const lw_figure lw_fig_light_over_supply = {
    .name = "light_over_supply",
    .room = "light",
    .summary = "Light, current and watts of a head from full to empty pack, for resistor, current sink, step-down or "
               "step-up drive.",
    .source = "LED data of the type, straight-line string (led_string) and heat (led_point) solved together",
    .limits =
        "Straight-line LED: near the working current; a string that fades below a tenth of it is darker than told.",
    .caution = "One resistor or sink for each string, never one for all.",
    .example = "leds_in_series=3 strings=4 supply_min_v=9 supply_max_v=12.6 drive=resistor",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
