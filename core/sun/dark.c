/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Share of each hour in which the sun is below a given altitude: the time a lamp is wanted.
 */
#include "sun_clock.h"

#include <math.h>

static double exact_share(double hour_angle, double half_arc)
{
    double from[2], to[2], lit = 0.0;
    const int pieces = lw_hour_overlap(hour_angle, half_arc, from, to);
    for (int k = 0; k < pieces; k++)
        lit += to[k] - from[k];
    return fmin(fmax(1.0 - lit * 12.0 / lw_pi, 0.0), 1.0);
}

static double counted_share(const lw_sun_moment *sun, double sin_lat, double cos_lat, double sin_altitude,
                            int midpoints)
{
    int dark = 0;
    for (int k = 0; k < midpoints; k++) {
        const double hour_angle = sun->hour_angle + ((k + 0.5) / midpoints - 0.5) * lw_pi / 12.0;
        dark += sin_lat * sun->sin_dec + cos_lat * sun->cos_dec * cos(hour_angle) < sin_altitude;
    }
    return (double)dark / midpoints;
}

bool lw_dark_shares(double lat_deg, double lon_deg, double utc_offset_h, lw_sun_method method, double altitude_deg,
                    int midpoints, double share[LW_HOURS], lw_error *err)
{
    if (!lw_sun_place_check(lat_deg, lon_deg, utc_offset_h, err) ||
        !lw_in_range(err, "altitude_deg", altitude_deg, -90.0, 90.0, "degree") ||
        !lw_in_range(err, "midpoints", midpoints, 0.0, 3600.0, ""))
        return false;
    const double sin_lat = sin(lat_deg * lw_radian_per_degree), cos_lat = cos(lat_deg * lw_radian_per_degree);
    const double sin_altitude = sin(altitude_deg * lw_radian_per_degree);
    for (int i = 0; i < LW_HOURS; i++) {
        const lw_sun_moment sun = lw_sun_moment_at(method, lon_deg, utc_offset_h, i);
        const double half_arc = lw_half_arc(sin_lat, cos_lat, &sun, sin_altitude);
        share[i] = midpoints == 0 ? exact_share(sun.hour_angle, half_arc)
                                  : counted_share(&sun, sin_lat, cos_lat, sin_altitude, midpoints);
    }
    return true;
}
