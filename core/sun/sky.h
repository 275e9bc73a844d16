/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One sky model a file: each adds the light of the sky on the plane, for n lanes of one hour.
 */
#ifndef LANEWICK_SKY_H
#define LANEWICK_SKY_H

#include "lanewick/plane.h"

typedef void lw_sky_model(const lw_plane_hour *hour, size_t n, const double *dhi_w_m2, const double *dni_w_m2,
                          double *plane_w_m2, double *absorbed_w_m2);

lw_sky_model lw_sky_isotropic, lw_sky_hay_davies, lw_sky_perez;

#endif
