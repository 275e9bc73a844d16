/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Even sky with a bright part around the sun: Hay & Davies (1980), Proc. First Canadian Solar Radiation Data
 * Workshop, 59. The share of the bright part is the beam's share of what arrives above the air.
 */
#include "lanewick/hot.h"
#include "sky.h"

LW_HOT void lw_sky_hay_davies(const lw_plane_hour *hour, size_t n, const double *dhi_w_m2, const double *dni_w_m2,
                              double *plane_w_m2, double *absorbed_w_m2)
{
    for (size_t i = 0; i < n; i++) {
        const double bright_share = dni_w_m2[i] * hour->inverse_normal;
        const double bright = dhi_w_m2[i] * bright_share * hour->circumsolar;
        const double dome = dhi_w_m2[i] * (1.0 - bright_share) * hour->sky;
        plane_w_m2[i] += dome + bright;
        absorbed_w_m2[i] += dome * hour->sky_glass + bright * hour->beam_glass;
    }
}
