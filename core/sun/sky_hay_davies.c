/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Even sky with a bright part around the sun: Hay & Davies (1980), Proc. First Canadian Solar Radiation Data
 * Workshop, 59. The share of the bright part is the beam's share of what arrives above the air.
 */
#include "lanewick/hot.h"
#include "sky.h"

LW_HOT void lw_sky_hay_davies(const lw_plane_hour *restrict hour, size_t n, const double *restrict ghi_w_m2,
                              const double *restrict dhi_w_m2, const double *restrict dni_w_m2,
                              double *restrict plane_w_m2, double *restrict absorbed_w_m2)
{
    for (size_t i = 0; i < n; i++) {
        const double bright_share = dni_w_m2[i] * hour->inverse_normal;
        const double bright = dhi_w_m2[i] * bright_share * hour->circumsolar;
        const double dome = dhi_w_m2[i] * (1.0 - bright_share) * hour->sky;
        lw_sky_put(hour, ghi_w_m2[i], dni_w_m2[i], bright, dome, &plane_w_m2[i], &absorbed_w_m2[i]);
    }
}
