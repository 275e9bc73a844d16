/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The three labels of a wind speed behind one door, and the force coefficient of a round mast.
 */
#include "lanewick/wind.h"

#include <math.h>

static const double air_viscosity_m2_s = 15e-6; /* EN 1991-1-4 7.9.1 */

void lw_wind_observed(double gust_m_s, double air_kg_m3, lw_wind *out)
{
    *out = (lw_wind){.mean_m_s = gust_m_s, .peak_pressure_pa = 0.5 * air_kg_m3 * gust_m_s * gust_m_s, .exposure = 1.0};
}

bool lw_wind_at(const lw_wind_site *site, double height_m, lw_wind *out, lw_error *err)
{
    switch (site->label) {
    case LW_WIND_MEAN_10MIN:
        return lw_wind_en(site->speed_m_s, site->terrain, height_m, site->air_kg_m3, out, err);
    case LW_WIND_GUST_DESIGN:
        return lw_wind_asce(site->speed_m_s, site->terrain, height_m, site->directionality, site->topography, out, err);
    case LW_WIND_GUST_OBSERVED:
        break;
    }
    lw_wind_observed(site->speed_m_s, site->air_kg_m3, out);
    return true;
}

double lw_cylinder_reynolds(double diameter_m, double peak_pressure_pa, double air_kg_m3)
{
    return diameter_m * sqrt(2.0 * peak_pressure_pa / air_kg_m3) / air_viscosity_m2_s;
}

/* Fig. 7.28: the falling branch and the rough branch, whichever is greater, between 0.4 and 1.2. */
double lw_cylinder_force_coefficient(double reynolds, double roughness_mm, double diameter_m)
{
    const double relative = roughness_mm / 1000.0 / diameter_m;
    const double rough = 1.2 + 0.18 * log10(10.0 * relative) / (1.0 + 0.4 * log10(reynolds / 1e6));
    const double falling = 0.11 / pow(reynolds / 1e6, 1.4);
    return fmin(1.2, fmax(0.4, fmax(rough, falling)));
}

/* Fig. 7.36, solid: 0.60, 0.70, 0.92 at slenderness 1, 10, 70, straight in log slenderness. */
double lw_end_effect(double slenderness)
{
    if (slenderness <= 1.0)
        return 0.60;
    if (slenderness <= 10.0)
        return 0.60 + 0.10 * log10(slenderness);
    return 0.70 + 0.22 * log10(fmin(slenderness, 70.0) / 10.0) / log10(7.0);
}
