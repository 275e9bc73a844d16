/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sun at the middle of an hour of the year, by either method; shared by the sun year and the dark shares.
 */
#ifndef LANEWICK_SUN_CLOCK_H
#define LANEWICK_SUN_CLOCK_H

#include "lanewick/sun.h"

typedef struct lw_sun_moment {
    double sin_dec, cos_dec;
    double hour_angle; /* [rad], -pi..pi */
    double closeness;  /* (mean distance / distance)^2 */
} lw_sun_moment;

/* hour 0..8759; longitude in any turn. */
lw_sun_moment lw_sun_moment_at(lw_sun_method method, double lon_deg, double utc_offset_h, int hour);

/* Half of the arc [rad] in which the sun stands above an altitude, 0..pi. */
double lw_half_arc(double sin_lat, double cos_lat, const lw_sun_moment *sun, double sin_altitude);

LW_MUST_CHECK bool lw_sun_place_check(double lat_deg, double lon_deg, double utc_offset_h, lw_error *err);

/* The hour is 15 degrees wide around its middle. Its overlap with the arc -half_arc..half_arc (and the same a turn
 * away) in pieces [from, to]; returns how many (0..2). */
int lw_hour_overlap(double hour_angle, double half_arc, double from[2], double to[2]);

#endif
