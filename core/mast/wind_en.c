/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * EN 1991-1-4:2005 clauses 4.2 to 4.5: mean wind, turbulence and peak velocity pressure (formulas read in an open
 * implementation and two published worked calculations; Table 4.1 rows I to III from memory).
 */
#include "lanewick/wind.h"

#include <math.h>

static const struct {
    double z0_m, zmin_m;
} categories[] = {{0.003, 1.0}, {0.01, 1.0}, {0.05, 2.0}, {0.3, 5.0}, {1.0, 10.0}};

bool lw_wind_en(double basic_m_s, lw_terrain terrain, double height_m, double air_kg_m3, lw_wind *out, lw_error *err)
{
    if (terrain > LW_TERRAIN_IV)
        return lw_fail(err, LW_WRONG_INPUT, "terrain",
                       "Exposures B, C and D belong to ASCE 7 with its three-second gust; EN 1991-1-4 has the terrain "
                       "categories 0, I, II, III and IV. The two must not be mixed.");
    if (!lw_in_range(err, "height_m", height_m, 0.0, 200.0, "m"))
        return false;
    const double z0 = categories[terrain].z0_m;
    const double z = fmax(height_m, categories[terrain].zmin_m);
    const double kr = 0.19 * pow(z0 / 0.05, 0.07); /* (4.5) */
    out->mean_m_s = kr * log(z / z0) * basic_m_s;  /* (4.3), (4.4) */
    out->turbulence = 1.0 / log(z / z0);           /* (4.7) */
    const double mean_pressure = 0.5 * air_kg_m3 * out->mean_m_s * out->mean_m_s;
    out->peak_pressure_pa = (1.0 + 7.0 * out->turbulence) * mean_pressure; /* (4.8) */
    out->exposure = out->peak_pressure_pa / (0.5 * air_kg_m3 * basic_m_s * basic_m_s);
    return true;
}

double lw_wind_return_factor(double years)
{
    const double shape = 0.2;
    const double wanted = 1.0 - shape * log(-log(1.0 - 1.0 / years));
    return sqrt(wanted / (1.0 - shape * log(-log(0.98)))); /* (4.2) */
}
