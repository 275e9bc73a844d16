/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Irradiance on a tilted plane, through its glass, and the temperature of the cells behind it.
 * Equations, sources, limits: docs/models/plane-irradiance.md.
 *
 * Prepare once for a plane and a sun year; then every hour is cheap arithmetic for any number of weather years
 * ("lanes") that share the sun.
 */
#ifndef LANEWICK_PLANE_H
#define LANEWICK_PLANE_H

#include "lanewick/error.h"
#include "lanewick/sun.h"

#include <stddef.h>

typedef enum lw_sky { LW_SKY_ISOTROPIC, LW_SKY_HAY_DAVIES, LW_SKY_PEREZ } lw_sky;

enum { LW_SKYLINE = 36 };

typedef struct lw_plane {
    double tilt_deg;   /* 0 flat .. 90 upright */
    double facing_deg; /* from north, clockwise, -180..360 */
    double albedo;     /* of the ground, 0..1 */
    lw_sky sky;
    double glass_b0;                /* ASHRAE incidence modifier, 0..0.3, usually 0.05; 0: no glass */
    double faiman_u0;               /* [W/m2K], 5..60 */
    double faiman_u1;               /* [W s/m3K], 0..20 */
    double wind_factor;             /* wind at the panel / wind at 10 m, 0..1.5 */
    double horizon_deg[LW_SKYLINE]; /* height of the skyline every 10 degrees from north; 0..89; hides the beam */
} lw_plane;

/* Tilt max(10, |lat|) up to 60 facing the equator, albedo 0.2, Hay-Davies, glass 0.05, Faiman 25 and 6.84,
 * wind_factor 1, open skyline. */
lw_plane lw_plane_default(double lat_deg);
LW_MUST_CHECK bool lw_plane_check(const lw_plane *plane, lw_error *err);

/* What does not depend on the weather. Shares of glass loss are folded in. */
typedef struct lw_plane_hour {
    double beam;        /* cosine of incidence; 0 while the sun is below the horizon, behind the plane or the skyline */
    double beam_glass;  /* share of beam and circumsolar light that passes the glass */
    double circumsolar; /* beam / max(cos Z, cos 85) */
    double inverse_normal; /* 1 / extraterrestrial normal irradiance [m2/W] */
    double zenith_term;    /* 1.041 Z^3, Z in radians (Perez) */
    double zenith_rad, air_mass;
    double sky, sky_glass;       /* share of an even sky that the plane sees, and what passes the glass */
    double horizon;              /* sin tilt, lowered by the skyline (Perez) */
    double ground, ground_glass; /* albedo times the share of ground seen */
    bool up;                     /* the sun's centre is above the horizon at mid-hour */
} lw_plane_hour;

void lw_plane_prepare(const lw_plane *plane, const lw_sun_hour hours[LW_HOURS], lw_plane_hour prepared[LW_HOURS]);
/* The same for one hour. */
void lw_plane_prepare_hour(const lw_plane *plane, const lw_sun_hour *hour, lw_plane_hour *prepared);

/* One hour, n lanes. plane_w_m2: before the glass (it warms the cells); absorbed_w_m2: what passes the glass. The two
 * outputs overlap nothing else. */
void lw_plane_lanes(const lw_plane *plane, const lw_plane_hour *hour, size_t n, const double *restrict ghi_w_m2,
                    const double *restrict dhi_w_m2, const double *restrict dni_w_m2, double *restrict plane_w_m2,
                    double *restrict absorbed_w_m2);

/* Faiman (2008), adopted by IEC 61853-2: air + irradiance before the glass / (u0 + u1 wind). */
static inline double lw_cell_temperature_c(const lw_plane *plane, double air_c, double plane_w_m2, double wind_10m_m_s)
{
    return air_c + plane_w_m2 / (plane->faiman_u0 + plane->faiman_u1 * plane->wind_factor * wind_10m_m_s);
}

/* ASHRAE incidence modifier 1 - b0 (1/cos th - 1), between 0 and 1; 0 at 90 degrees and beyond. */
double lw_glass_factor(double b0, double cos_incidence);
/* Angles at which even sky and ground light may be thought to arrive (Brandemuehl & Beckman 1980). */
double lw_sky_angle_deg(double tilt_deg);
double lw_ground_angle_deg(double tilt_deg);

/* Share of an even sky that a plane sees above a skyline; (1 + cos tilt)/2 where the skyline is 0. */
double lw_sky_view(double tilt_deg, double facing_deg, const double horizon_deg[LW_SKYLINE]);

/* Height of the skyline [degree] at an azimuth, linear between its points. */
double lw_skyline_at(const double horizon_deg[LW_SKYLINE], double azimuth_deg);

#endif
