/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sun of every hour of a year, computed once for all weather years of a place.
 */
#include "lanewick/extraterrestrial.h"
#include "sun_clock.h"

#include <math.h>

bool lw_sun_year(double lat_deg, double lon_deg, double utc_offset_h, lw_sun_method method, lw_sun_hour hours[LW_HOURS],
                 lw_error *err)
{
    if (!lw_sun_place_check(lat_deg, lon_deg, utc_offset_h, err))
        return false;
    const double sin_lat = sin(lat_deg * lw_radian_per_degree), cos_lat = cos(lat_deg * lw_radian_per_degree);
    for (int i = 0; i < LW_HOURS; i++) {
        const lw_sun_moment sun = lw_sun_moment_at(method, lon_deg, utc_offset_h, i);
        const double level = sin_lat * sun.sin_dec, swing = cos_lat * sun.cos_dec;
        double from[2], to[2], sum = 0.0;
        const int pieces = lw_hour_overlap(sun.hour_angle, lw_half_arc(sin_lat, cos_lat, &sun, 0.0), from, to);
        for (int k = 0; k < pieces; k++) /* Duffie & Beckman eq. 1.10.4, over the part of the hour with sun */
            sum += level * (to[k] - from[k]) + swing * (sin(to[k]) - sin(from[k]));
        const double normal = lw_solar_constant_w_m2 * sun.closeness;
        hours[i] = (lw_sun_hour){
            .up = level + swing * cos(sun.hour_angle),
            .east = -sun.cos_dec * sin(sun.hour_angle),
            .north = cos_lat * sun.sin_dec - sin_lat * sun.cos_dec * cos(sun.hour_angle),
            .normal_w_m2 = normal,
            .horizontal_w_m2 = fmax(normal * sum * 12.0 / lw_pi, 0.0),
        };
    }
    return true;
}
