/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure day_profile: the long-term mean share of a day's radiation that falls in one hour.
 */
#include "lanewick/extraterrestrial.h"
#include "lanewick/figure.h"
#include "lanewick/units.h"

#include <math.h>

enum { LAT_DEG, DAY_OF_YEAR, SOLAR_TIME_H };
static const lw_input inputs[] = {
    [LAT_DEG] = {"lat_deg", "degree", "latitude, north positive", LW_NUMBER, -66, 66, NULL, NULL, 0, 0},
    [DAY_OF_YEAR] = {"day_of_year", "", "1 January is 1", LW_NUMBER, 1, 366, NULL, NULL, 0, 0},
    [SOLAR_TIME_H] = {"solar_time_h", "h", "true solar time at the middle of the hour", LW_NUMBER, 0, 24, NULL, NULL, 0,
                      0},
};

enum { SUNSET_ANGLE_DEG, GLOBAL_SHARE, DIFFUSE_SHARE };
static const lw_output outputs[] = {
    [SUNSET_ANGLE_DEG] = {"sunset_angle_deg", "degree", "hour angle of sunset", LW_NUMBER},
    [GLOBAL_SHARE] = {"global_share", "", "of the day's global radiation in this hour (rt)", LW_NUMBER},
    [DIFFUSE_SHARE] = {"diffuse_share", "", "of the day's diffuse radiation in this hour (rd)", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double lat = in[LAT_DEG].number * lw_radian_per_degree;
    const double dec = lw_cooper_declination_deg(in[DAY_OF_YEAR].number) * lw_radian_per_degree;
    const double cos_sunset = -tan(lat) * tan(dec);
    if (fabs(cos_sunset) >= 1.0)
        return lw_fail(err, LW_NOT_COMPUTABLE, "lat_deg", "at latitude %g the sun does not both rise and set that day",
                       in[LAT_DEG].number);
    const double sunset = acos(cos_sunset), hour = (in[SOLAR_TIME_H].number - 12.0) * lw_pi / 12.0;
    const double a = 0.409 + 0.5016 * sin(sunset - lw_pi / 3.0), b = 0.6609 - 0.4767 * sin(sunset - lw_pi / 3.0);
    const double up = cos(hour) > cos_sunset ? cos(hour) - cos_sunset : 0.0;
    const double rd = lw_pi / 24.0 * up / (sin(sunset) - sunset * cos_sunset);
    out[SUNSET_ANGLE_DEG] = lw_value_number(sunset * lw_degree_per_radian);
    out[GLOBAL_SHARE] = lw_value_number(rd * (a + b * cos(hour)));
    out[DIFFUSE_SHARE] = lw_value_number(rd);
    return true;
}

const lw_figure lw_fig_day_profile = {
    .name = "day_profile",
    .room = "sun",
    .summary = "Mean share of a day's global and diffuse radiation that falls in one hour.",
    .source = "Collares-Pereira & Rabl (1979), Solar Energy 22, 155 (rt); Liu & Jordan (1960), Solar Energy 4, 1 (rd); "
              "Duffie & Beckman, Solar Engineering of Thermal Processes, eqs. 2.13.1, 2.13.2, 2.13.4",
    .limits = "A mean over many days. Summed over whole hours rt gives 0.990 to 0.994, not 1.",
    .example = "lat_deg=-11.62 day_of_year=195 solar_time_h=9.5",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
