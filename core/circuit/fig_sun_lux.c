/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure sun_lux: daylight from the height of the sun, or the height of the sun from daylight.
 */
#include "lanewick/dusk.h"
#include "lanewick/figure.h"

enum { ALTITUDE, LUX, SKY };
static const lw_input inputs[] = {
    [ALTITUDE] = {"altitude_deg", "degree", "geometric height of the sun's centre (or give lux)", LW_NUMBER, -13, 90,
                  NULL, "", 0, 0},
    [LUX] = {"lux", "lx", "illuminance on the open horizontal (or give altitude_deg)", LW_NUMBER, 0.002, 130000, NULL,
             "", 0, 0},
    [SKY] = {"sky_divisor", "", "1 clear sky, 2 thin cloud, 3 average cloud, 10 dark cloud", LW_NUMBER, 1, 20, NULL,
             "1", 0, 0},
};

enum { OUT_LUX, OUT_ALTITUDE };
static const lw_output outputs[] = {
    [OUT_LUX] = {"lux", "lx", "illuminance on the open horizontal, without the moon", LW_NUMBER},
    [OUT_ALTITUDE] = {"altitude_deg", "degree", "geometric height of the sun's centre", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[ALTITUDE].given == in[LUX].given)
        return lw_fail(err, LW_WRONG_INPUT, "altitude_deg", "Give either altitude_deg or lux, one of the two.");
    double altitude = in[ALTITUDE].number, lux = in[LUX].number;
    if (in[ALTITUDE].given)
        lux = lw_sun_lux(altitude, in[SKY].number);
    else if (!lw_sun_altitude_for_lux(lux, in[SKY].number, &altitude, err))
        return false;
    out[OUT_LUX] = lw_value_number(lux);
    out[OUT_ALTITUDE] = lw_value_number(altitude);
    return true;
}

const lw_figure lw_fig_sun_lux = {
    .name = "sun_lux",
    .room = "circuit",
    .summary = "Daylight on open ground for a height of the sun, or the other way round.",
    .source = "Janiczek & DeYoung (1987), US Naval Observatory Circular 171",
    .limits =
        "Clear sky over open ground, no moon; the model steps by 40 % at -0.83 degree, nature does not; a wall or "
        "a tree beside the sensor takes more than cloud",
    .example = "altitude_deg=-6",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
