/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Even sky: Liu & Jordan (1963), Solar Energy 7, 53.
 */
#include "lanewick/hot.h"
#include "sky.h"

LW_HOT void lw_sky_isotropic(const lw_plane_hour *restrict hour, size_t n, const double *restrict ghi_w_m2,
                             const double *restrict dhi_w_m2, const double *restrict dni_w_m2,
                             double *restrict plane_w_m2, double *restrict absorbed_w_m2)
{
    for (size_t i = 0; i < n; i++) {
        const double dome = dhi_w_m2[i] * hour->sky;
        lw_sky_put(hour, ghi_w_m2[i], dni_w_m2[i], 0.0, dome, &plane_w_m2[i], &absorbed_w_m2[i]);
    }
}
