/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One sky model a file: each tells the even and the bright part of the sky for n lanes of one hour; beam and
 * ground are the same for all and added here, so that a lane is passed once.
 */
#ifndef LANEWICK_SKY_H
#define LANEWICK_SKY_H

#include "lanewick/plane.h"

typedef void lw_sky_model(const lw_plane_hour *restrict hour, size_t n, const double *restrict ghi_w_m2,
                          const double *restrict dhi_w_m2, const double *restrict dni_w_m2, double *restrict plane_w_m2,
                          double *restrict absorbed_w_m2);

lw_sky_model lw_sky_isotropic, lw_sky_hay_davies, lw_sky_perez;

/* bright: the sky's light from around the sun; dome: the rest of the sky's light on the plane. */
static inline void lw_sky_put(const lw_plane_hour *hour, double ghi, double dni, double bright, double dome,
                              double *plane_w_m2, double *absorbed_w_m2)
{
    const double from_sun = dni * hour->beam + bright, ground = ghi * hour->ground;
    *plane_w_m2 = from_sun + ground + dome;
    *absorbed_w_m2 = from_sun * hour->beam_glass + ground * hour->ground_glass + dome * hour->sky_glass;
}

#endif
