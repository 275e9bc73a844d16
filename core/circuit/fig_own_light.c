/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure own_light: does the lamp see its own light.
 */
#include "lanewick/dusk.h"
#include "lanewick/figure.h"

enum { CD, DISTANCE, ANGLE, TUBE, GROUND, ALBEDO, DOWN, ON, OFF };
static const lw_input inputs[] = {
    [CD] = {"intensity_cd", "cd", "of the head towards the sensor (its photometry at that angle)", LW_NUMBER, 0, 100000,
            NULL, NULL, 0, 0},
    [DISTANCE] = {"distance_m", "m", "from the head to the sensor", LW_NUMBER, 0.02, 20, NULL, NULL, 0, 0},
    [ANGLE] = {"incidence_deg", "degree", "between the light and the sensor's axis", LW_NUMBER, 0, 180, NULL, "60", 0,
               0},
    [TUBE] = {"tube_factor", "", "part that passes a black tube or shade", LW_NUMBER, 0, 1, NULL, "1", 0, 0},
    [GROUND] = {"ground_lx", "lx", "light on the ground below", LW_NUMBER, 0, 1000, NULL, "0", 0, 0},
    [ALBEDO] = {"reflectance", "", "of the ground, when the sensor looks down", LW_NUMBER, 0, 1, NULL, "0.2", 0, 0},
    [DOWN] = {"looks_down", "", "the sensor sees the ground", LW_FLAG, 0, 0, NULL, "no", 0, 0},
    [ON] = {"lux_on", "lx", "switches on below", LW_NUMBER, 0.01, 5000, NULL, NULL, 0, 0},
    [OFF] = {"lux_off", "lx", "switches off above", LW_NUMBER, 0.01, 5000, NULL, NULL, 0, 0},
};

enum { OWN, LIMIT, STABLE, GOOD, ADVICE };
static const lw_output outputs[] = {
    [OWN] = {"own_lx", "lx", "the lamp's own light on the sensor", LW_NUMBER},
    [LIMIT] = {"limit_lx", "lx", "what the design allows, 0.3 of lux_off", LW_NUMBER},
    [STABLE] = {"stable", "", "the lamp does not switch itself off", LW_FLAG},
    [GOOD] = {"good", "", "within the design limit", LW_FLAG},
    [ADVICE] = {"advice", "", "what to do", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double on = in[ON].number, off = in[OFF].number;
    if (on >= off)
        return lw_fail(err, LW_WRONG_INPUT, "lux_on", "lux_on is %g; it must lie below lux_off, %g.", on, off);
    double own = lw_own_light_lx(in[CD].number, in[DISTANCE].number, in[ANGLE].number, in[TUBE].number);
    if (in[DOWN].number != 0.0)
        own += in[GROUND].number * in[ALBEDO].number;
    const bool stable = own < off - on, good = own <= 0.3 * off;
    out[OWN] = lw_value_number(own);
    out[LIMIT] = lw_value_number(0.3 * off);
    out[STABLE] = lw_value_flag(stable);
    out[GOOD] = lw_value_flag(good);
    out[ADVICE] = lw_value_text(good     ? "leave it as it is"
                                : stable ? "point the sensor up or away from the head, in a short black tube"
                                         : "the lamp would blink: move the sensor above the head or shade it, or make "
                                           "the circuit blind for ten minutes after switch-on");
    return true;
}

const lw_figure lw_fig_own_light = {
    .name = "own_light",
    .room = "circuit",
    .summary = "The lamp's own light on its sensor against the switching thresholds.",
    .source = "inverse-square law; stable when the own light is below lux_off less lux_on, good below 0.3 "
              "lux_off (common practice)",
    .limits = "Point source at over five times its size; leaves, walls and mist throw light back that is not "
              "counted",
    .example = "intensity_cd=60 distance_m=0.4 incidence_deg=85 lux_on=2.83 lux_off=9.86 tube_factor=0.1",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
