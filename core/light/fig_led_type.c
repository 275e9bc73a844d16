/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure led_type: a white LED by its type, at half of its rated current.
 */
#include "lanewick/figure.h"
#include "lanewick/led.h"

enum { TYPE, CURRENT, JUNCTION };
static const lw_input inputs[] = {
    [TYPE] = {"type", "", "kind of LED, by its size in tenths of a millimetre or its power", LW_CHOICE, 0, 0,
              LW_LED_TYPE_WORDS, "2835_05w", 0, 0},
    [CURRENT] = {"current_a", "A", "wanted current; left out: half of the rated one", LW_NUMBER, 1e-4, 5, NULL, "", 0,
                 0},
    [JUNCTION] = {"junction_c", "degC", "junction temperature", LW_NUMBER, -40, 150, NULL, "60", 0, 0},
};

enum { RATED, VF, VF_LOW, VF_HIGH, LUMENS, SLOPE, AT, AT_VF, AT_LM, AT_LM_W, GAIN, SOURCE };
static const lw_output outputs[] = {
    [RATED] = {"rated_a", "A", "current of the data sheet", LW_NUMBER},
    [VF] = {"rated_vf_v", "V", "forward voltage there, cold", LW_NUMBER},
    [VF_LOW] = {"vf_low_v", "V", "lowest of that kind", LW_NUMBER},
    [VF_HIGH] = {"vf_high_v", "V", "highest of that kind", LW_NUMBER},
    [LUMENS] = {"rated_lm", "lm", "light there, cold", LW_NUMBER},
    [SLOPE] = {"slope_ohm", "ohm", "rise of the voltage with the current", LW_NUMBER},
    [AT] = {"current_a", "A", "the current of what follows", LW_NUMBER},
    [AT_VF] = {"vf_v", "V", "forward voltage of one LED", LW_NUMBER},
    [AT_LM] = {"lumens", "lm", "its light", LW_NUMBER},
    [AT_LM_W] = {"lumens_per_w", "lm/W", "its efficacy", LW_NUMBER},
    [GAIN] = {"gain_over_rated_pct", "%", "more light for each watt than at the rated current, same junction",
              LW_NUMBER},
    [SOURCE] = {"from", "", "where the numbers come from", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_led_type *type = lw_led_type_at((size_t)in[TYPE].number);
    const lw_led *led = &type->led;
    const double current_a = in[CURRENT].given ? in[CURRENT].number : 0.5 * led->rated_a;
    lw_led_point at = {0}, rated = {0};
    if (!lw_in_range(err, "current_a", current_a, 0.001 * led->rated_a, 3.0 * led->rated_a, "A"))
        return false;
    lw_led_at(led, current_a, in[JUNCTION].number, &at);
    lw_led_at(led, led->rated_a, in[JUNCTION].number, &rated);
    out[RATED] = lw_value_number(led->rated_a);
    out[VF] = lw_value_number(led->rated_vf_v);
    out[VF_LOW] = lw_value_number(type->vf_low_v);
    out[VF_HIGH] = lw_value_number(type->vf_high_v);
    out[LUMENS] = lw_value_number(led->rated_lm);
    out[SLOPE] = lw_value_number(led->slope_ohm);
    out[AT] = lw_value_number(current_a);
    out[AT_VF] = lw_value_number(at.vf_v);
    out[AT_LM] = lw_value_number(at.lumens);
    out[AT_LM_W] = lw_value_number(at.lumens_per_w);
    out[GAIN] = lw_value_number(100.0 * (at.lumens_per_w / rated.lumens_per_w - 1.0));
    out[SOURCE] = lw_value_text(type->source);
    return true;
}

const lw_figure lw_fig_led_type = {
    .name = "led_type",
    .room = "light",
    .summary = "Data of a white LED by its type, and what it does at half of its rated current.",
    .source = "data sheets and common ranges, named for each type in the answer",
    .limits = "LEDs from dead lamps or without papers give 60 to 80 % of the print (common practice): measure two "
              "readings (led_readings).",
    .caution = "Do not look into bare LEDs: use low current or paper in front.",
    .example = "type=2835_05w",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
