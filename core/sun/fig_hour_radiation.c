/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure hour_radiation: radiation of a stretch of solar time above the air, and its share of the day.
 */
#include "lanewick/extraterrestrial.h"
#include "lanewick/figure.h"
#include "lanewick/units.h"

#include <math.h>

enum { LAT_DEG, DAY_OF_YEAR, FROM_H, TO_H };
static const lw_input inputs[] = {
    [LAT_DEG] = {"lat_deg", "degree", "latitude, north positive", LW_NUMBER, -90, 90, NULL, NULL, 0, 0},
    [DAY_OF_YEAR] = {"day_of_year", "", "day of the year from 1", LW_INTEGER, 1, 366, NULL, NULL, 0, 0},
    [FROM_H] = {"from_h", "h", "solar time at which the stretch begins", LW_NUMBER, 0, 24, NULL, NULL, 0, 0},
    [TO_H] = {"to_h", "h", "solar time at which it ends, later than from_h", LW_NUMBER, 0, 24, NULL, NULL, 0, 0},
};

enum { I0_KWH_M2, MEAN_DAY_SHARE, DIFFUSE_SHARE_OF_DAY, SUNSET_ANGLE_DEG };
static const lw_output outputs[] = {
    [I0_KWH_M2] = {"i0_kwh_m2", "kWh/m2", "extraterrestrial radiation on a horizontal plane within it", LW_NUMBER},
    [MEAN_DAY_SHARE] = {"mean_day_share", "",
                        "share of the monthly mean day of global radiation in an hour at its middle", LW_NUMBER},
    [DIFFUSE_SHARE_OF_DAY] = {"diffuse_share_of_day", "", "the same of diffuse radiation", LW_NUMBER},
    [SUNSET_ANGLE_DEG] = {"sunset_angle_deg", "degree", "hour angle of sunset", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double from_h = in[FROM_H].number, to_h = in[TO_H].number, day = in[DAY_OF_YEAR].number;
    if (to_h <= from_h)
        return lw_fail(err, LW_WRONG_INPUT, "to_h", "to_h is %g h; it must be later than from_h, which is %g h.", to_h,
                       from_h);
    const double dec_deg = lw_cooper_declination_deg(day), lat = in[LAT_DEG].number * lw_radian_per_degree;
    const double sunset = lw_sunset_angle_deg(in[LAT_DEG].number, dec_deg) * lw_radian_per_degree;
    const double first = fmin(fmax((from_h - 12.0) * lw_pi / 12.0, -sunset), sunset);
    const double last = fmin(fmax((to_h - 12.0) * lw_pi / 12.0, -sunset), sunset);
    const double level = sin(lat) * sin(dec_deg * lw_radian_per_degree);
    const double swing = cos(lat) * cos(dec_deg * lw_radian_per_degree);
    const double normal_kw = 1e-3 * lw_solar_constant_w_m2 * lw_distance_factor(day);
    const double middle = (0.5 * (from_h + to_h) - 12.0) * lw_pi / 12.0;
    const double day_part = sin(sunset) - sunset * cos(sunset);
    const double shape = fmax(cos(middle) - cos(sunset), 0.0) * lw_pi / 24.0;
    const double diffuse = day_part > 0.0 && fabs(middle) < sunset ? shape / day_part : 0.0;
    const double a = 0.409 + 0.5016 * sin(sunset - lw_pi / 3.0), b = 0.6609 - 0.4767 * sin(sunset - lw_pi / 3.0);
    out[I0_KWH_M2] = lw_value_number(
        fmax(12.0 / lw_pi * normal_kw * (swing * (sin(last) - sin(first)) + level * (last - first)), 0.0));
    out[MEAN_DAY_SHARE] = lw_value_number((a + b * cos(middle)) * diffuse);
    out[DIFFUSE_SHARE_OF_DAY] = lw_value_number(diffuse);
    out[SUNSET_ANGLE_DEG] = lw_value_number(sunset * lw_degree_per_radian);
    return true;
}

const lw_figure lw_fig_hour_radiation = {
    .name = "hour_radiation",
    .room = "sun",
    .summary = "Extraterrestrial radiation of a stretch of the day and the share of a mean day that an hour holds.",
    .source = "Duffie & Beckman, Solar Engineering of Thermal Processes, eq. 1.10.4; shares: Collares-Pereira & Rabl "
              "(1979), Liu & Jordan (1960), eqs. 2.13.1, 2.13.2, 2.13.4",
    .limits = "The shares hold for monthly mean days, not for a single day.",
    .example = "lat_deg=-11.62 day_of_year=195 from_h=9 to_h=10",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
