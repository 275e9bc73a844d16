/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure sun_angles: handbook angles between sun, horizon and a tilted plane, from solar time.
 */
#include "lanewick/extraterrestrial.h"
#include "lanewick/figure.h"
#include "lanewick/units.h"

#include <math.h>

enum { LAT_DEG, DAY_OF_YEAR, SOLAR_TIME_H, TILT_DEG, FACING_DEG };
static const lw_input inputs[] = {
    [LAT_DEG] = {"lat_deg", "degree", "latitude, north positive", LW_NUMBER, -90, 90, NULL, NULL, 0, 0},
    [DAY_OF_YEAR] = {"day_of_year", "", "day of the year from 1", LW_INTEGER, 1, 366, NULL, NULL, 0, 0},
    [SOLAR_TIME_H] = {"solar_time_h", "h", "true solar time, 12 when the sun is in the meridian", LW_NUMBER, 0, 24,
                      NULL, NULL, 0, 0},
    [TILT_DEG] = {"tilt_deg", "degree", "of the plane, 0 flat", LW_NUMBER, 0, 90, NULL, "0", 0, 0},
    [FACING_DEG] = {"facing_deg", "degree", "of the plane, from north, clockwise", LW_NUMBER, -180, 360, NULL, "180", 0,
                    0},
};

enum { DECLINATION_DEG, ZENITH_DEG, AZIMUTH_DEG, INCIDENCE_DEG, BEAM_RATIO };
static const lw_output outputs[] = {
    [DECLINATION_DEG] = {"declination_deg", "degree", "of the sun (Cooper)", LW_NUMBER},
    [ZENITH_DEG] = {"zenith_deg", "degree", "of the sun", LW_NUMBER},
    [AZIMUTH_DEG] = {"azimuth_deg", "degree", "of the sun, from north, clockwise", LW_NUMBER},
    [INCIDENCE_DEG] = {"incidence_deg", "degree", "between the sun and the normal of the plane", LW_NUMBER},
    [BEAM_RATIO] =
        {"beam_ratio", "",
         "beam on the plane over beam on the horizontal (Rb), cosine of the zenith not below that of 85 degrees",
         LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    const double dec_deg = lw_cooper_declination_deg(in[DAY_OF_YEAR].number), dec = dec_deg * lw_radian_per_degree;
    const double lat = in[LAT_DEG].number * lw_radian_per_degree,
                 hour = (in[SOLAR_TIME_H].number - 12.0) * lw_pi / 12.0;
    const double tilt = in[TILT_DEG].number * lw_radian_per_degree,
                 facing = in[FACING_DEG].number * lw_radian_per_degree;
    const double up = sin(lat) * sin(dec) + cos(lat) * cos(dec) * cos(hour);
    const double north = cos(lat) * sin(dec) - sin(lat) * cos(dec) * cos(hour), east = -cos(dec) * sin(hour);
    const double azimuth_deg = atan2(east, north) * lw_degree_per_radian;
    const double incidence = up * cos(tilt) + (north * cos(facing) + east * sin(facing)) * sin(tilt);
    const double lowest = cos(85.0 * lw_radian_per_degree);
    out[DECLINATION_DEG] = lw_value_number(dec_deg);
    out[ZENITH_DEG] = lw_value_number(acos(fmin(fmax(up, -1.0), 1.0)) * lw_degree_per_radian);
    out[AZIMUTH_DEG] = lw_value_number(azimuth_deg < 0.0 ? azimuth_deg + 360.0 : azimuth_deg);
    out[INCIDENCE_DEG] = lw_value_number(acos(fmin(fmax(incidence, -1.0), 1.0)) * lw_degree_per_radian);
    out[BEAM_RATIO] = lw_value_number(up > 0.0 ? fmax(incidence, 0.0) / fmax(up, lowest) : 0.0);
    return true;
}

const lw_figure lw_fig_sun_angles = {
    .name = "sun_angles",
    .room = "sun",
    .summary = "Angles of the sun and its incidence on a tilted plane by the handbook formulas.",
    .source = "Duffie & Beckman, Solar Engineering of Thermal Processes, eqs. 1.6.1a, 1.6.2, 1.6.5, 1.8.1",
    .limits = "Good to some tenths of a degree; sun_position is exact.",
    .example = "lat_deg=-11.62 day_of_year=195 solar_time_h=9.5 tilt_deg=15 facing_deg=0",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
