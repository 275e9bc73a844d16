/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sky with a bright part around the sun and a bright or dull band at the horizon: Perez, Ineichen, Seals,
 * Michalsky & Stewart (1990), Solar Energy 44, 271, coefficients for all sites.
 */
#include "lanewick/hot.h"
#include "sky.h"

static const double bin_edge[7] = {1.065, 1.230, 1.500, 1.950, 2.800, 4.500, 6.200};
static const double f1_constant[8] = {-0.0083117, 0.1299457, 0.3296958, 0.5682053,
                                      0.8730280,  1.1326077, 1.0601591, 0.6777470};
static const double f1_brightness[8] = {0.5877285,  0.6825954,  0.4868735,  0.1874525,
                                        -0.3920403, -1.2367284, -1.5999137, -0.3272588};
static const double f1_zenith[8] = {-0.0620636, -0.1513752, -0.2210958, -0.2951290,
                                    -0.3616149, -0.4118494, -0.3589221, -0.2504286};
static const double f2_constant[8] = {-0.0596012, -0.0189325, 0.0554140, 0.1088631,
                                      0.2255647,  0.2877813,  0.2642124, 0.1561313};
static const double f2_brightness[8] = {0.0721249,  0.0659650,  -0.0639588, -0.1519229,
                                        -0.4620442, -0.8230357, -1.1272340, -1.3765031};
static const double f2_zenith[8] = {-0.0220216, -0.0288748, -0.0260542, -0.0139754,
                                    0.0012448,  0.0558651,  0.1310694,  0.2506212};

/* fmin and fmax without their rules for NaN, which cost calls. */
static inline double between(double x, double low, double high)
{
    const double raised = x > low ? x : low;
    return raised < high ? raised : high;
}

static int clearness_bin(double clearness)
{
    int bin = 0;
    for (int k = 0; k < 7; k++)
        bin += clearness >= bin_edge[k];
    return bin;
}

LW_HOT void lw_sky_perez(const lw_plane_hour *restrict hour, size_t n, const double *restrict ghi_w_m2,
                         const double *restrict dhi_w_m2, const double *restrict dni_w_m2, double *restrict plane_w_m2,
                         double *restrict absorbed_w_m2)
{
    if (!hour->up) { /* twilight: the zenith angle is outside the model */
        lw_sky_isotropic(hour, n, ghi_w_m2, dhi_w_m2, dni_w_m2, plane_w_m2, absorbed_w_m2);
        return;
    }
    const double z = hour->zenith_rad, term = hour->zenith_term;
    for (size_t i = 0; i < n; i++) {
        const double dhi = dhi_w_m2[i];
        const double clearness = (1.0 + dni_w_m2[i] / between(dhi, 1e-9, 1e9) + term) / (1.0 + term);
        const double brightness = hour->air_mass * dhi * hour->inverse_normal;
        const int bin = clearness_bin(clearness);
        const double f1_raw = f1_constant[bin] + f1_brightness[bin] * brightness + f1_zenith[bin] * z;
        const double f1 = between(f1_raw, 0.0, 1.0);
        const double f2 = f2_constant[bin] + f2_brightness[bin] * brightness + f2_zenith[bin] * z;
        const double bright = dhi * f1 * hour->circumsolar;
        const double dome = dhi * between((1.0 - f1) * hour->sky + f2 * hour->horizon, 0.0, 2.0);
        lw_sky_put(hour, ghi_w_m2[i], dni_w_m2[i], bright, dome, &plane_w_m2[i], &absorbed_w_m2[i]);
    }
}
