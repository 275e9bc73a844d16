/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure led_counts: LEDs in series and strings side by side for wanted lumens and a pack.
 */
#include "lanewick/figure.h"
#include "lanewick/led.h"
#include "lanewick/led_string.h"

#include <math.h>

enum { LUMENS, MIN_V, MAX_V, DRIVE, TYPE, CURRENT, AIR, BOARD, DROPOUT };
static const lw_input inputs[] = {
    [LUMENS] = {"lumens", "lm", "wanted of the board, warm", LW_NUMBER, 1, 1e5, NULL, NULL, 0, 0},
    [MIN_V] = {"supply_min_v", "V", "empty pack, or the driver's lowest output", LW_NUMBER, 1, 60, NULL, NULL, 0, 0},
    [MAX_V] = {"supply_max_v", "V", "full pack, or the driver's highest output", LW_NUMBER, 1, 60, NULL, NULL, 0, 0},
    [DRIVE] = {"drive", "", "resistor, constant (linear current sink), buck or boost", LW_CHOICE, 0, 0, LW_DRIVE_WORDS,
               "constant", 0, 0},
    [TYPE] = {"type", "", "kind of LED (led_type)", LW_CHOICE, 0, 0, LW_LED_TYPE_WORDS, "2835_05w", 0, 0},
    [CURRENT] = {"current_a", "A", "in each LED; left out: half of the rated one", LW_NUMBER, 1e-3, 5, NULL, "", 0, 0},
    [AIR] = {"air_c", "degC", "air around the board", LW_NUMBER, -40, 80, NULL, "25", 0, 0},
    [BOARD] = {"board_to_air_k_w", "K/W", "board to air (head_heat)", LW_NUMBER, 0, 1000, NULL, "10", 0, 0},
    [DROPOUT] = {"dropout_v", "V", "lost in sink and switch at least", LW_NUMBER, 0, 3, NULL, "0.4", 0, 0},
};

enum { SERIES, STRINGS, COUNT, AMP, VF, STRING_V, LM, WATT, JUNCTION, LIT, OVER };
static const lw_output outputs[] = {
    [SERIES] = {"leds_in_series", "", "in each string", LW_INTEGER},
    [STRINGS] = {"strings", "", "side by side, each with its own resistor or sink", LW_INTEGER},
    [COUNT] = {"leds", "", "together", LW_INTEGER},
    [AMP] = {"current_a", "A", "in each LED that just gives the lumens", LW_NUMBER},
    [VF] = {"vf_v", "V", "of one LED, warm", LW_NUMBER},
    [STRING_V] = {"string_v", "V", "of a string without its resistor", LW_NUMBER},
    [LM] = {"lumens", "lm", "of the board", LW_NUMBER},
    [WATT] = {"led_w", "W", "of all LEDs", LW_NUMBER},
    [JUNCTION] = {"junction_c", "degC", "of the LEDs", LW_NUMBER},
    [LIT] = {"full_light_to_v", "V", "supply down to which the light is full", LW_NUMBER},
    [OVER] = {"light_at_asked_current", "lm", "what the same LEDs give at the current asked for", LW_NUMBER},
};

typedef struct board {
    lw_led led;
    double asked_a, air_c, board_k_w;
    int series, strings;
    lw_led_point at; /* of one LED at the current asked for, all of them alight */
} board;

static int in_series(const lw_value *in, double vf_v)
{
    switch ((lw_drive)in[DRIVE].number) {
    case LW_DRIVE_BUCK:
        return (int)floor(0.8 * in[MIN_V].number / vf_v);
    case LW_DRIVE_BOOST:
        return (int)ceil(1.15 * in[MAX_V].number / vf_v);
    case LW_DRIVE_RESISTOR:
    case LW_DRIVE_CONSTANT:
        break;
    }
    return (int)floor((in[MIN_V].number - in[DROPOUT].number) / vf_v);
}

/* More LEDs warm the board and give less each: repeated until the counts hold. */
static bool count_leds(const lw_value *in, board *b, lw_error *err)
{
    enum { MOST = 2000 };
    b->series = b->strings = 1;
    for (int i = 0; i < 40; i++) {
        if (!lw_led_solve(&b->led, b->asked_a, (size_t)b->series * (size_t)b->strings, b->board_k_w, b->air_c, &b->at,
                          err))
            return false;
        /* cold LEDs need most volts, which a pack must give; warm ones least, which a step-up driver must stay above */
        const double cold_v = b->led.rated_vf_v + b->led.slope_ohm * (b->asked_a - b->led.rated_a);
        const int series = in_series(in, (lw_drive)in[DRIVE].number == LW_DRIVE_BOOST ? b->at.vf_v : cold_v);
        if (series < 1)
            return lw_fail(err, LW_NOT_COMPUTABLE, "supply_min_v",
                           "One LED needs %.2f V; the supply with %g V at its lowest cannot light it this way. Take a "
                           "step-up driver.",
                           b->at.vf_v, in[MIN_V].number);
        const double strings = ceil(in[LUMENS].number / (series * b->at.lumens) - 1e-9);
        if (!(series * strings <= MOST))
            return lw_fail(err, LW_NOT_COMPUTABLE, "lumens", "More than %d LEDs would be needed.", MOST);
        const bool holds = series == b->series && (int)strings == b->strings;
        b->series = series;
        b->strings = holds ? b->strings : (int)fmax(b->strings, strings);
        if (holds)
            break;
    }
    return true;
}

/* The current at which the board just gives the wanted lumens. */
static bool settle(const lw_value *in, const board *b, double *amp, lw_led_point *at, lw_error *err)
{
    const int count = b->series * b->strings;
    double low = 0.001 * b->asked_a, high = b->asked_a;
    for (int i = 0; i < 60; i++) {
        *amp = i ? 0.5 * (low + high) : high;
        if (!lw_led_solve(&b->led, *amp, (size_t)count, b->board_k_w, b->air_c, at, err))
            return false;
        if (count * at->lumens < in[LUMENS].number)
            low = *amp;
        else
            high = *amp;
    }
    return true;
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_led led = lw_led_type_at((size_t)in[TYPE].number)->led;
    board b = {.led = led,
               .asked_a = in[CURRENT].given ? in[CURRENT].number : 0.5 * led.rated_a,
               .air_c = in[AIR].number,
               .board_k_w = in[BOARD].number};
    double amp = 0.0;
    lw_led_point at;
    if (in[MIN_V].number > in[MAX_V].number)
        return lw_fail(err, LW_WRONG_INPUT, "supply_min_v",
                       "supply_min_v is %g V; it must not pass supply_max_v, %g V.", in[MIN_V].number,
                       in[MAX_V].number);
    if (!lw_in_range(err, "current_a", b.asked_a, 0.01 * led.rated_a, 1.5 * led.rated_a, "A") ||
        !count_leds(in, &b, err))
        return false;
    const lw_led_string string = {.vf_v = b.at.vf_v,
                                  .current_a = b.asked_a,
                                  .slope_ohm = led.slope_ohm,
                                  .count = b.series,
                                  .dropout_v = in[DROPOUT].number,
                                  .drive = (lw_drive)in[DRIVE].number,
                                  .converter = 0.88};
    if (!lw_led_string_fits(&string, in[MIN_V].number, in[MAX_V].number, err) || !settle(in, &b, &amp, &at, err))
        return false;
    const int count = b.series * b.strings;
    const bool linear = string.drive == LW_DRIVE_CONSTANT || string.drive == LW_DRIVE_RESISTOR;
    out[SERIES] = lw_value_integer(b.series);
    out[STRINGS] = lw_value_integer(b.strings);
    out[COUNT] = lw_value_integer(count);
    out[AMP] = lw_value_number(amp);
    out[VF] = lw_value_number(at.vf_v);
    out[STRING_V] = lw_value_number(b.series * at.vf_v);
    out[LM] = lw_value_number(count * at.lumens);
    out[WATT] = lw_value_number(count * at.power_w);
    out[JUNCTION] = lw_value_number(at.junction_c);
    if (linear)
        out[LIT] = lw_value_number(b.series * at.vf_v + in[DROPOUT].number);
    out[OVER] = lw_value_number(count * b.at.lumens);
    return true;
}

const lw_figure lw_fig_led_counts = {
    .name = "led_counts",
    .room = "light",
    .summary =
        "LEDs in series and strings side by side for wanted lumens from a pack, and the current that just gives them.",
    .source = "LED data of the type with its heat; step-down below 0.8 of the lowest, step-up above 1.15 of the "
              "highest supply (common practice)",
    .limits = "Lumens of the bare board: divide the light wanted by what the bottle lets through (diffuser).",
    .caution = "One resistor or sink for each string, never one for all. Do not look into the bare LEDs.",
    .example = "lumens=500 supply_min_v=9 supply_max_v=12.6 drive=buck",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
