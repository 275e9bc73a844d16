/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Steel tube: S235 when marked (EN 10219, EN 10210), else as water pipe S195T (EN 10255). Values from memory; the
 * slenderness limit 90 is that of class 3 sections of EN 1993-1-1 with epsilon 1.
 */
#include "materials.h"

#include <math.h>

/* Yield after rust: bare steel loses up to 0.05 mm in the first year and about 0.03 mm a year later where the air is
 * mild (ISO 9223 category C3, from memory); the loss is taken from the wall's share of strength. */
static bool steel(double yield_mpa, const lw_mast_conditions *c, lw_mast_strength *out, lw_error *err)
{
    const double lost_mm = c->age_years > 0.0 ? 0.05 + 0.03 * fmax(0.0, c->age_years - 1.0) : 0.0;
    if (lost_mm >= 0.5 * c->wall_mm)
        return lw_fail(err, LW_REFUSED, "age_years",
                       "Unpainted, a wall of %g mm would rust by %.2g mm in %g years: galvanise or paint it and look "
                       "at it every year, or take a thicker wall.",
                       c->wall_mm, lost_mm, c->age_years);
    *out = (lw_mast_strength){.allowed_mpa = yield_mpa * (1.0 - lost_mm / c->wall_mm),
                              .load_factor = 1.5,
                              .stiffness_mpa = 210e3,
                              .density_kg_m3 = 7850.0,
                              .creep_share = 1.0 - lost_mm / c->wall_mm,
                              .thickness_limit = 90.0};
    return true;
}

static bool marked(const lw_mast_conditions *c, lw_mast_strength *out, lw_error *err)
{
    return steel(235.0, c, out, err);
}

static bool unmarked(const lw_mast_conditions *c, lw_mast_strength *out, lw_error *err)
{
    return steel(195.0, c, out, err);
}

#define CAUTION \
    "Worst rust is in the 100 mm around the ground: bitumen there, or end the steel in a raised concrete cap."

const lw_mast_material lw_mast_steel = {
    .name = "steel",
    .source = "S235, fy 235 MPa, gamma_M0 1.00 (EN 10219, EN 1993-1-1, from memory)",
    .caution = CAUTION,
    .strength = marked,
};

const lw_mast_material lw_mast_steel_unmarked = {
    .name = "steel_unmarked",
    .source = "unmarked water pipe counted as S195T, fy 195 MPa (EN 10255, from memory)",
    .caution = CAUTION,
    .strength = unmarked,
};
