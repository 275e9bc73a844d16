/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure led_readings: an unknown LED's voltage at a current from two multimeter readings.
 */
#include "lanewick/figure.h"
#include "lanewick/led.h"

enum { MA, V, WANTED, METER };
static const lw_input inputs[] = {
    [MA] = {"reading_ma", "mA", "two currents", LW_NUMBERS, 0.05, 5000, NULL, NULL, 2, 2},
    [V] = {"reading_v", "V", "the voltage over one LED at each of them", LW_NUMBERS, 0.5, 60, NULL, NULL, 2, 2},
    [WANTED] = {"wanted_ma", "mA", "current at which it will burn", LW_NUMBER, 0.1, 5000, NULL, NULL, 0, 0},
    [METER] = {"meter_pct", "%", "uncertainty of the voltage readings", LW_NUMBER, 0, 10, NULL, "0.5", 0, 0},
};

enum { VF, LOW, HIGH, SLOPE, DICE, FAR };
static const lw_output outputs[] = {
    [VF] = {"vf_v", "V", "its voltage at the wanted current, cold", LW_NUMBER},
    [LOW] = {"vf_low_v", "V", "at least", LW_NUMBER},
    [HIGH] = {"vf_high_v", "V", "at most", LW_NUMBER},
    [SLOPE] = {"slope_ohm", "ohm",
               "rise of the voltage with the current there (slope_ohm of led_point, led_slope_ohm of led_string)",
               LW_NUMBER},
    [DICE] = {"dice", "", "dice in series inside it, by its voltage", LW_INTEGER},
    [FAR] = {"far", "", "the wanted current lies more than three times away from the readings: read again nearer",
             LW_FLAG},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const lw_led_reading readings[2] = {{1e-3 * in[MA].list[0], in[V].list[0]}, {1e-3 * in[MA].list[1], in[V].list[1]}};
    lw_led_meter m;
    if (!lw_led_from_readings(readings, 1e-3 * in[WANTED].number, in[METER].number / 100.0, &m, err))
        return false;
    out[VF] = lw_value_number(m.vf_v);
    out[LOW] = lw_value_number(m.vf_low_v);
    out[HIGH] = lw_value_number(m.vf_high_v);
    out[SLOPE] = lw_value_number(m.slope_ohm);
    out[DICE] = lw_value_integer(m.dice);
    out[FAR] = lw_value_flag(m.far);
    return true;
}

const lw_figure lw_fig_led_readings = {
    .name = "led_readings",
    .room = "light",
    .summary = "Voltage of an unknown LED at a wanted current from two multimeter readings.",
    .source =
        "diode law with series resistance (Shockley 1949), n Vt 0.05 V a die, 0.03 to 0.09 (white LEDs, from memory)",
    .limits =
        "Cold LED, readings a few seconds long; a warm one needs 2 to 4 mV a kelvin less for each die (data sheets).",
    .caution = "Do not look into bare LEDs: use low current or paper in front.",
    .example = "reading_ma=5,30 reading_v=2.71,2.86 wanted_ma=60",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
