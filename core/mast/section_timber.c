/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Timber pole: characteristic bending strengths 16, 24, 30 MPa of EN 338, kmod 0.70 (outdoors, short load) over
 * gamma_M 1.3 (EN 1995-1-1, from memory); permanent load kmod 0.50. Untreated wood in the ground loses half its
 * strength in a few years (common practice): 10 % a year, at most half. Under weight for years stiffness is that of the
 * 5 % value, 0.67 of the mean (EN 338), over 1 + k_def = 3 outdoors (EN 1995-1-1 Table 3.2, class 3, from memory).
 */
#include "materials.h"

#include <math.h>

static bool timber(double bending_mpa, double stiffness_mpa, double density, const lw_mast_conditions *c,
                   lw_mast_strength *out)
{
    const double rotten = 1.0 - fmin(0.5, 0.1 * c->age_years);
    *out = (lw_mast_strength){.allowed_mpa = bending_mpa * 0.70 / 1.3 * rotten,
                              .load_factor = 1.5,
                              .standing_mpa = bending_mpa * 0.50 / 1.3 * rotten,
                              .stiffness_mpa = stiffness_mpa,
                              .density_kg_m3 = density,
                              .creep_share = 0.67 / 3.0 * rotten,
                              .thickness_limit = 30.0};
    return true;
}

static bool c16(const lw_mast_conditions *c, lw_mast_strength *out, lw_error *err)
{
    (void)err;
    return timber(16.0, 8000.0, 370.0, c, out);
}

static bool c24(const lw_mast_conditions *c, lw_mast_strength *out, lw_error *err)
{
    (void)err;
    return timber(24.0, 11000.0, 420.0, c, out);
}

static bool c30(const lw_mast_conditions *c, lw_mast_strength *out, lw_error *err)
{
    (void)err;
    return timber(30.0, 12000.0, 460.0, c, out);
}

#define SOURCE "EN 338 (read), kmod 0.70 and gamma_M 1.3 of EN 1995-1-1 (from memory)"
#define CAUTION \
    "Treat the foot or stand it in a steel shoe; look for rot at the ground every year. Unknown wood is C16."

const lw_mast_material lw_mast_timber = {
    .name = "timber", .source = "C16: " SOURCE, .caution = CAUTION, .strength = c16};
const lw_mast_material lw_mast_timber_c24 = {
    .name = "timber_c24", .source = "C24: " SOURCE, .caution = CAUTION, .strength = c24};
const lw_mast_material lw_mast_timber_c30 = {
    .name = "timber_c30", .source = "C30: " SOURCE, .caution = CAUTION, .strength = c30};
