/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Even sky: Liu & Jordan (1963), Solar Energy 7, 53.
 */
#include "lanewick/hot.h"
#include "sky.h"

LW_HOT void lw_sky_isotropic(const lw_plane_hour *hour, size_t n, const double *dhi_w_m2, const double *dni_w_m2,
                             double *plane_w_m2, double *absorbed_w_m2)
{
    (void)dni_w_m2;
    for (size_t i = 0; i < n; i++) {
        const double dome = dhi_w_m2[i] * hour->sky;
        plane_w_m2[i] += dome;
        absorbed_w_m2[i] += dome * hour->sky_glass;
    }
}
