/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bamboo by the allowable-stress form of ISO 22156:2021: f_k CR CDF CT / FS with CR 0.9 (one culm), CDF 0.75 (outdoors,
 * short load), FS 2.0 in bending (from memory); f_k 34.6 MPa, the lower of two published characteristic values
 * (Bambusa blumeana, Salzer et al. 2018; Guadua 46, Trujillo 2007). CT falls above 38 degC: taken as 1 % per kelvin
 * (common practice). Compared with the stress without load factor. Under weight for years half of the stiffness is left
 * (ISO 22156 lowers it for permanent load by about that, from memory, low confidence).
 */
#include "materials.h"

#include <math.h>

static bool strength(const lw_mast_conditions *c, lw_mast_strength *out, lw_error *err)
{
    if (c->age_years > 10.0)
        return lw_fail(err, LW_REFUSED, "age_years",
                       "age_years is %g; bamboo outdoors is not planned beyond ten years.", c->age_years);
    const double hot = 1.0 - fmin(0.5, 0.01 * fmax(0.0, c->wall_c - 38.0));
    const double weathered = 1.0 - fmin(0.5, 0.05 * c->age_years);
    *out = (lw_mast_strength){.allowed_mpa = 34.6 * 0.9 * 0.75 / 2.0 * hot * weathered,
                              .load_factor = 1.0,
                              .standing_mpa = 34.6 * 0.9 * 0.55 / 2.0 * hot * weathered,
                              .stiffness_mpa = 8600.0,
                              .density_kg_m3 = 700.0,
                              .creep_share = 0.5 * weathered,
                              .thickness_limit = 20.0};
    return true;
}

const lw_mast_material lw_mast_bamboo = {
    .name = "bamboo",
    .source = "ISO 22156:2021 form (from memory), bending 34.6 MPa (Salzer et al. 2018), stiffness 8.6 GPa (5 % value)",
    .caution =
        "It splits at bolts: lash it or fill the bolted internode. Keep it out of the soil, in a steel or concrete "
        "shoe.",
    .strength = strength,
};
