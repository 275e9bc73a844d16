/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Monthly clearness from the sunshine share: Angstrom-Prescott with the coefficients of FAO-56 eq. 35 (Allen,
 * Pereira, Raes & Smith 1998: a 0.25, b 0.50), which holds in the tropics, plus a correction that grows
 * between 22 and 37 degrees of latitude, where the plain formula is too optimistic. The constants are a
 * ridge regression over 1,441 stations: data/climate/fit/fit_clearness.py prints them. Thinner air counts from
 * 1,500 m in the tropics (few data there, judgement) and from the sea elsewhere. Poleward of 50 degrees, where
 * the stations end, half of the correction fades out again (judgement).
 */
#include "climate_inner.h"

#include <math.h>

double lw_noon_height(double lat_deg, int month)
{
    /* Declination in the middle of each month, degrees. */
    static const double dec[12] = {-20.8, -12.7, -1.9, 9.8, 18.9, 23.0, 21.2, 13.7, 2.9, -8.7, -18.4, -23.0};
    return cos((lat_deg - dec[month]) * LW_RAD);
}

static double clamp(double x, double low, double high)
{
    return x < low ? low : (x > high ? high : x);
}

double lw_clearness_by_sunshine(double lat_deg, int month, const lw_climate_normals *n)
{
    const double sun = n->sun[month], range = n->range_k[month] / 10.0;
    const double mu = clamp(lw_noon_height(lat_deg, month), 0.25, 1.0);
    const double lat = fabs(lat_deg), height = n->elev_m / 1000.0;
    const double ramp = clamp((lat - 22.0) / 15.0, 0.0, 1.0) * (1.0 - 0.5 * clamp((lat - 50.0) / 10.0, 0.0, 1.0));
    const double tropics = 0.25 + 0.50 * sun + 0.0222 * (range - 1.0) + 0.0151 * clamp(height - 1.5, 0.0, 3.0);
    const double outside = 0.25 + 0.50 * sun + 0.0222 * (range - 1.0) + 0.0418 - 0.1683 * sun -
                           0.0240 * log1p(n->rain_mm[month] / 30.0) + 0.0151 * clamp(height, 0.0, 3.0) +
                           0.0148 * range + 0.0013 * mu + 0.0519 * sun * mu + (lat_deg < 0.0 ? 0.0458 : 0.0);
    return clamp((1.0 - ramp) * tropics + ramp * outside, 0.12, 0.82);
}

double lw_clearness_old_set_offset(double lat_deg, int month)
{
    return -0.0156 - 0.1546 * clamp((0.75 - lw_noon_height(lat_deg, month)) / 0.4, 0.0, 1.0);
}
