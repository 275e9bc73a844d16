/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Topocentric position of the sun: Earth's path, nutation, aberration, sidereal time, parallax.
 * Source: Meeus (1998), Astronomical Algorithms, chapters 11, 12, 22, 25, 32, 40, in the order of Reda &
 * Andreas (2004), Solar Energy 76, 577. Vectors instead of angles wherever possible, so that nothing is lost
 * near the zenith and at the poles.
 */
#include "earth_terms.h"
#include "lanewick/sun.h"

#include <math.h>

static double rad(double degree)
{
    return degree * lw_radian_per_degree;
}

static double wrap(double angle, double turn)
{
    return angle - turn * floor(angle / turn);
}

static double sum_series(const lw_series *series, int powers, double t)
{
    double sum = 0.0;
    for (int power = powers - 1; power >= 0; power--) {
        double part = 0.0;
        for (size_t i = 0; i < series[power].count; i++) {
            const lw_term *term = &series[power].terms[i];
            part += term->amplitude * cos(term->phase + term->rate * t);
        }
        sum = sum * t + part;
    }
    return 1e-8 * sum;
}

/* Nutation (IAU 1980), its thirteen largest terms (Meeus table 22.A): amplitude in longitude and its rate,
 * amplitude in obliquity and its rate [0.0001 arc second, per century], multiples of D, M, M', F, Omega. */
static const struct {
    double longitude, longitude_rate, obliquity, obliquity_rate;
    signed char d, m, moon, f, node;
} nutation_terms[] = {
    {-171996, -174.2, 92025, 8.9, 0, 0, 0, 0, 1},
    {-13187, -1.6, 5736, -3.1, -2, 0, 0, 2, 2},
    {-2274, -0.2, 977, -0.5, 0, 0, 0, 2, 2},
    {2062, 0.2, -895, 0.5, 0, 0, 0, 0, 2},
    {1426, -3.4, 54, -0.1, 0, 1, 0, 0, 0},
    {712, 0.1, -7, 0, 0, 0, 1, 0, 0},
    {-517, 1.2, 224, -0.6, -2, 1, 0, 2, 2},
    {-386, -0.4, 200, 0, 0, 0, 0, 2, 1},
    {-301, 0, 129, -0.1, 0, 0, 1, 2, 2},
    {217, -0.5, -95, 0.3, -2, -1, 0, 2, 2},
    {-158, 0, 0, 0, -2, 0, 1, 0, 0},
    {129, 0.1, -70, 0, -2, 0, 0, 2, 1},
    {123, 0, -53, 0, 0, 0, -1, 2, 2},
};

/* century: Julian centuries TT from J2000; angles in degrees. */
static void nutation(double century, double *longitude_deg, double *obliquity_deg)
{
    const double t = century;
    const double d = rad(297.85036 + t * (445267.111480 - t * 0.0019142));
    const double m = rad(357.52772 + t * (35999.050340 - t * 0.0001603));
    const double moon = rad(134.96298 + t * (477198.867398 + t * 0.0086972));
    const double f = rad(93.27191 + t * (483202.017538 - t * 0.0036825));
    const double node = rad(125.04452 - t * (1934.136261 - t * 0.0020708));
    *longitude_deg = *obliquity_deg = 0.0;
    for (size_t i = 0; i < sizeof nutation_terms / sizeof nutation_terms[0]; i++) {
        const double angle = nutation_terms[i].d * d + nutation_terms[i].m * m + nutation_terms[i].moon * moon +
                             nutation_terms[i].f * f + nutation_terms[i].node * node;
        *longitude_deg += (nutation_terms[i].longitude + nutation_terms[i].longitude_rate * t) * sin(angle);
        *obliquity_deg += (nutation_terms[i].obliquity + nutation_terms[i].obliquity_rate * t) * cos(angle);
    }
    *longitude_deg /= 36000000.0;
    *obliquity_deg /= 36000000.0;
}

/* Mean obliquity of the ecliptic (Meeus eq. 22.2). */
static double mean_obliquity_deg(double century)
{
    return 23.0 + 26.0 / 60.0 + (21.448 - century * (46.8150 + century * (0.00059 - century * 0.001813))) / 3600.0;
}

/* Apparent geocentric right ascension, declination, distance, and the hour angle seen from a longitude. */
static lw_sun_position geocentric(double utc_days, double delta_t_s, double lon_deg)
{
    const double century = (utc_days + delta_t_s / 86400.0) / 36525.0, t = century / 10.0;
    double nutation_lon_deg, nutation_obl_deg;
    nutation(century, &nutation_lon_deg, &nutation_obl_deg);
    const double obliquity = rad(mean_obliquity_deg(century) + nutation_obl_deg);
    const double distance = sum_series(lw_earth_distance, 3, t);
    const double aberration_deg = -20.4898 / 3600.0 / distance; /* Meeus eq. 25.10 */
    /* The series stand in the dynamical ecliptic of VSOP; 0.09 arc second brings them to FK5 (eq. 25.9). */
    const double lon =
        sum_series(lw_earth_longitude, 5, t) + lw_pi + rad(nutation_lon_deg + aberration_deg - 0.09033 / 3600.0);
    const double lat = -sum_series(lw_earth_latitude, 1, t);
    const double x = cos(lat) * cos(lon);
    const double y = cos(lat) * sin(lon) * cos(obliquity) - sin(lat) * sin(obliquity);
    const double z = cos(lat) * sin(lon) * sin(obliquity) + sin(lat) * cos(obliquity);
    /* Apparent sidereal time (Meeus eq. 12.4). */
    const double century_ut = utc_days / 36525.0;
    const double sidereal_deg = 280.46061837 + 360.98564736629 * utc_days + 0.000387933 * century_ut * century_ut +
                                nutation_lon_deg * cos(obliquity);
    const double ascension_deg = wrap(atan2(y, x) * lw_degree_per_radian, 360.0);
    return (lw_sun_position){
        .right_ascension_deg = ascension_deg,
        .declination_deg = atan2(z, hypot(x, y)) * lw_degree_per_radian,
        .hour_angle_deg = wrap(sidereal_deg + lon_deg - ascension_deg + 180.0, 360.0) - 180.0,
        .distance_au = distance,
    };
}

/* From the centre of the Earth to the observer on its ellipsoid (Meeus chapter 11), in units of the sun's
 * distance: along the equator under the observer's meridian, and along the axis. */
static void observer_offset(const lw_observer *o, double distance_au, double *equator, double *axis)
{
    const double earth_radius_au = 6378140.0 / 149597870700.0, flattened = 0.99664719;
    const double u = atan2(flattened * sin(rad(o->lat_deg)), cos(rad(o->lat_deg)));
    const double height = o->elev_m / 6378140.0;
    *equator = (cos(u) + height * cos(rad(o->lat_deg))) * earth_radius_au / distance_au;
    *axis = (flattened * sin(u) + height * sin(rad(o->lat_deg))) * earth_radius_au / distance_au;
}

lw_sun_position lw_sun_position_at(double utc_days, double delta_t_s, const lw_observer *observer)
{
    lw_sun_position sun = geocentric(utc_days, delta_t_s, observer->lon_deg);
    const double dec = rad(sun.declination_deg), h = rad(sun.hour_angle_deg), lat = rad(observer->lat_deg);
    double equator, axis;
    observer_offset(observer, sun.distance_au, &equator, &axis);
    const double meridian = cos(dec) * cos(h) - equator, west = cos(dec) * sin(h), pole = sin(dec) - axis;
    const double up = meridian * cos(lat) + pole * sin(lat), north = pole * cos(lat) - meridian * sin(lat);
    const double length = sqrt(up * up + west * west + north * north);
    sun.up = up / length;
    sun.east = -west / length;
    sun.north = north / length;
    const double across = hypot(sun.east, sun.north);
    sun.zenith_deg = atan2(across, sun.up) * lw_degree_per_radian;
    sun.azimuth_deg = across > 0.0 ? wrap(atan2(sun.east, sun.north) * lw_degree_per_radian, 360.0) : 0.0;
    return sun;
}

double lw_refraction_deg(double altitude_deg, double pressure_hpa, double air_c)
{
    if (altitude_deg < -0.8333)
        return 0.0;
    const double standard = 1.02 / (60.0 * tan(rad(altitude_deg + 10.3 / (altitude_deg + 5.11))));
    return fmax(standard, 0.0) * pressure_hpa / 1010.0 * 283.0 / (lw_zero_celsius_k + air_c);
}
