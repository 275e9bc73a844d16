/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * ASCE 7-16 chapter 26: velocity pressure of a three-second gust (26.10; constants read in lecture notes, 4.57 m as
 * least height), mean hourly wind and turbulence (26.11-7 and 26.11-16, from memory).
 */
#include "lanewick/wind.h"

#include <math.h>

static const struct {
    double alpha, gradient_m;     /* Table 26.11-1 */
    double mean_power, mean_part; /* alpha bar, b bar */
    double turbulence;            /* c */
    double least_m;               /* z min of the mean */
} exposures[] = {
    {7.0, 365.8, 1.0 / 4.0, 0.45, 0.30, 9.14},
    {9.5, 274.3, 1.0 / 6.5, 0.65, 0.20, 4.57},
    {11.5, 213.4, 1.0 / 9.0, 0.80, 0.15, 2.13},
};

bool lw_wind_asce(double gust_m_s, lw_terrain exposure, double height_m, double directionality, double topography,
                  lw_wind *out, lw_error *err)
{
    if (exposure < LW_EXPOSURE_B)
        return lw_fail(err, LW_WRONG_INPUT, "terrain",
                       "Terrain 0 to IV belongs to EN 1991-1-4 with its ten-minute mean; ASCE 7 has the exposures B, C "
                       "and D. The two must not be mixed.");
    if (!lw_in_range(err, "height_m", height_m, 0.0, 200.0, "m"))
        return false;
    const int i = (int)(exposure - LW_EXPOSURE_B);
    const double z = fmax(height_m, 4.57), mean_z = fmax(height_m, exposures[i].least_m);
    out->exposure = 2.01 * pow(z / exposures[i].gradient_m, 2.0 / exposures[i].alpha);
    out->peak_pressure_pa = 0.613 * out->exposure * topography * directionality * gust_m_s * gust_m_s;
    out->mean_m_s = exposures[i].mean_part * pow(mean_z / 10.06, exposures[i].mean_power) * gust_m_s;
    out->turbulence = exposures[i].turbulence * pow(10.06 / mean_z, 1.0 / 6.0);
    return true;
}
