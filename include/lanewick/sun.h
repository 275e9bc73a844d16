/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where the sun stands, when it sets and rises, and the geometry of every hour of a year.
 * Latitude -90..90, north positive; longitude -180..360, east positive; azimuth from north, clockwise.
 * Methods and measured errors: docs/models/sun-position.md, docs/models/night.md.
 *
 *     double utc_days;
 *     lw_error err = {0};
 *     lw_observer here = {.lat_deg = -11.62, .lon_deg = 34.27, .elev_m = 480.0};
 *     if (lw_utc_parse("utc", "2026-07-14T09:00Z", &utc_days, &err))
 *         printf("%.2f degree\n", lw_sun_position_at(utc_days, lw_delta_t_s(utc_days), &here).zenith_deg);
 */
#ifndef LANEWICK_SUN_H
#define LANEWICK_SUN_H

#include "lanewick/error.h"
#include "lanewick/units.h"
#include "lanewick/utc.h"

#include <stdbool.h>

typedef struct lw_observer {
    double lat_deg, lon_deg, elev_m;
} lw_observer;

typedef struct lw_sun_position {
    double up, east, north;                      /* topocentric unit vector to the sun's centre, no refraction */
    double zenith_deg, azimuth_deg;              /* of that vector; azimuth 0 at the exact zenith */
    double declination_deg, right_ascension_deg; /* geocentric, apparent */
    double hour_angle_deg;                       /* geocentric, -180..180, positive after noon */
    double distance_au;
} lw_sun_position;

/* TT - UT1 [s] for the years 1900..2199: polynomials of Espenak & Meeus (2006). */
double lw_delta_t_s(double utc_days);

/* Earth by VSOP87 cut at 0.3 arc seconds, nutation, aberration, parallax: within 0.0005 degree of the SPA
 * (Reda & Andreas 2004) for 1950..2100. UT1 is taken as UTC. */
lw_sun_position lw_sun_position_at(double utc_days, double delta_t_s, const lw_observer *observer);

/* How much the air lifts the sun [degree] at a true altitude, by Saemundsson's formula (Meeus eq. 16.4);
 * 0 where the sun is more than 0.8333 degree below the horizon. */
double lw_refraction_deg(double altitude_deg, double pressure_hpa, double air_c);

/* True altitude of the sun's centre at sunset and sunrise (refraction 34', radius 16'), and civil twilight. */
static const double lw_sunset_altitude_deg = -0.833;
static const double lw_civil_altitude_deg = -6.0;

/* The time that the sun's centre is below altitude_deg between true noon of a date and the next true noon. */
typedef struct lw_night {
    bool sets, rises;         /* false: there is no such crossing between the two noons */
    double set_utc, rise_utc; /* [days from J2000], only where sets, rises */
    double below_h;           /* 24 between the noons of a polar night (their true distance), 0 in the polar day */
} lw_night;

/* date: the evening's date at the place, in local mean solar time. The noons are true noons. */
LW_MUST_CHECK bool lw_night_at(double lat_deg, double lon_deg, lw_date date, double altitude_deg, lw_night *out,
                               lw_error *err);

/* ---- the sun of a whole year of 365 days, hour by hour in local standard time (as in weather.h) ---- */

typedef enum lw_sun_method {
    LW_SUN_SPENCER_DAILY, /* Spencer 1971: one declination, equation of time and distance a day */
    LW_SUN_ALMANAC        /* compact formulas of the Astronomical Almanac at the middle of each hour, year 2026 */
} lw_sun_method;

typedef struct lw_sun_hour {
    double up, east, north; /* unit vector to the sun at the middle of the hour (geometric); up may be negative */
    double normal_w_m2;     /* extraterrestrial irradiance normal to the beam, 1367 W/m2 times (mean distance)^2/r^2 */
    double horizontal_w_m2; /* extraterrestrial on the horizontal, exact mean over the hour with its part in the dark */
} lw_sun_hour;

/* utc_offset_h -14..14: standard time of the hours. */
LW_MUST_CHECK bool lw_sun_year(double lat_deg, double lon_deg, double utc_offset_h, lw_sun_method method,
                               lw_sun_hour hours[LW_HOURS], lw_error *err);

/* Share of each hour in which the sun's centre is geometrically below altitude_deg. midpoints 0: the exact
 * crossing; n (up to 3600): counted over n midpoints an hour. */
LW_MUST_CHECK bool lw_dark_shares(double lat_deg, double lon_deg, double utc_offset_h, lw_sun_method method,
                                  double altitude_deg, int midpoints, double share[LW_HOURS], lw_error *err);

/* ---- clear air ---- */

/* Air mass relative to the zenith (Kasten & Young 1989), zenith 0..90 degree; the value at 90 beyond. */
double lw_air_mass(double zenith_deg);
double lw_pressure_hpa(double elev_m); /* standard atmosphere (ICAO), -500..11000 m */

typedef struct lw_clear_sky {
    double ghi_w_m2, dhi_w_m2, dni_w_m2;
} lw_clear_sky;

/* Cloudless irradiance (Ineichen & Perez 2002) from the zenith, the irradiance above the air normal to the
 * beam, height and Linke turbidity (2 very clear, 3 usual, 5 hazy or humid). */
lw_clear_sky lw_clear_sky_at(double zenith_deg, double normal_w_m2, double elev_m, double linke_turbidity);

#endif
