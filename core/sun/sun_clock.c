/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sun at the middle of each clock hour of a year of 365 days. Two methods: Spencer (1971), Search 2, 172, one
 * value a day; and the low-precision formulas of the Astronomical Almanac, within 0.01 degree, in the form of
 * Michalsky (1988), Solar Energy 40, 227, for the days of 2026, a year in the middle of the leap cycle.
 */
#include "sun_clock.h"

#include <math.h>

static double rad(double degree)
{
    return degree * lw_radian_per_degree;
}

static double wrap_half(double angle)
{
    return angle - 2.0 * lw_pi * floor((angle + lw_pi) / (2.0 * lw_pi));
}

static lw_sun_moment spencer(double lon_deg, double utc_offset_h, int hour)
{
    const int day = hour / 24;
    const double b = 2.0 * lw_pi * day / 365.0;
    const double dec = 0.006918 - 0.399912 * cos(b) + 0.070257 * sin(b) - 0.006758 * cos(2.0 * b) +
                       0.000907 * sin(2.0 * b) - 0.002697 * cos(3.0 * b) + 0.00148 * sin(3.0 * b);
    const double eot_min =
        229.18 * (0.000075 + 0.001868 * cos(b) - 0.032077 * sin(b) - 0.014615 * cos(2.0 * b) - 0.040849 * sin(2.0 * b));
    const double solar_h = hour % 24 + 0.5 + (4.0 * (lon_deg - 15.0 * utc_offset_h) + eot_min) / 60.0;
    return (lw_sun_moment){
        .sin_dec = sin(dec),
        .cos_dec = cos(dec),
        .hour_angle = wrap_half(rad(15.0 * (solar_h - 12.0))),
        .closeness = 1.00011 + 0.034221 * cos(b) + 0.00128 * sin(b) + 0.000719 * cos(2.0 * b) + 0.000077 * sin(2.0 * b),
    };
}

static lw_sun_moment almanac(double lon_deg, double utc_offset_h, int hour)
{
    static const double first_midnight = 9496.5; /* 2026-01-01 00:00 in days from J2000 */
    const double n = first_midnight + (hour + 0.5 - utc_offset_h) / 24.0;
    const double g = rad(357.528 + 0.9856003 * n);
    const double lon = rad(280.460 + 0.9856474 * n + 1.915 * sin(g) + 0.020 * sin(2.0 * g));
    const double obliquity = rad(23.439 - 0.0000004 * n);
    const double ascension = atan2(cos(obliquity) * sin(lon), cos(lon));
    const double sidereal_h = fmod(18.697374558 + 24.06570982441908 * n, 24.0);
    const double distance = 1.00014 - 0.01671 * cos(g) - 0.00014 * cos(2.0 * g);
    const double sin_dec = sin(obliquity) * sin(lon);
    return (lw_sun_moment){
        .sin_dec = sin_dec,
        .cos_dec = sqrt(1.0 - sin_dec * sin_dec),
        .hour_angle = wrap_half(rad(15.0 * sidereal_h + lon_deg) - ascension),
        .closeness = 1.0 / (distance * distance),
    };
}

lw_sun_moment lw_sun_moment_at(lw_sun_method method, double lon_deg, double utc_offset_h, int hour)
{
    return method == LW_SUN_ALMANAC ? almanac(lon_deg, utc_offset_h, hour) : spencer(lon_deg, utc_offset_h, hour);
}

double lw_half_arc(double sin_lat, double cos_lat, const lw_sun_moment *sun, double sin_altitude)
{
    const double a = sin_lat * sun->sin_dec - sin_altitude, b = cos_lat * sun->cos_dec;
    if (a >= b)
        return lw_pi;
    return a <= -b ? 0.0 : acos(-a / b);
}

int lw_hour_overlap(double hour_angle, double half_arc, double from[2], double to[2])
{
    const double half_hour = lw_pi / 24.0;
    int count = 0;
    for (int turn = -1; turn <= 1 && count < 2; turn++) {
        const double low = fmax(hour_angle - half_hour, 2.0 * lw_pi * turn - half_arc);
        const double high = fmin(hour_angle + half_hour, 2.0 * lw_pi * turn + half_arc);
        if (high <= low)
            continue;
        from[count] = low;
        to[count++] = high;
    }
    return count;
}

bool lw_sun_place_check(double lat_deg, double lon_deg, double utc_offset_h, lw_error *err)
{
    return lw_in_range(err, "lat_deg", lat_deg, -90.0, 90.0, "degree") &&
           lw_in_range(err, "lon_deg", lon_deg, -180.0, 360.0, "degree") &&
           lw_in_range(err, "utc_offset_h", utc_offset_h, -14.0, 14.0, "h");
}
