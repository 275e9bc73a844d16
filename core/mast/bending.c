/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bending of a mast held in the ground: moment at the ground, stress against strength, sway at the top.
 */
#include "lanewick/mast.h"
#include "materials.h"

#include <math.h>

/* Elastic line of a cantilever, N and m; ei in N m2. A force above the top bends it by its moment there too. */
static double sway_m(const lw_mast_load *load, double ei)
{
    const double h = load->height_m, f = load->head_force_n, z = load->head_height_m;
    double sway = load->line_n_m * pow(h, 4) / (8.0 * ei) + load->standing_nm * h * h / (2.0 * ei);
    if (z >= h)
        sway += f * pow(h, 3) / (3.0 * ei) + f * (z - h) * h * h / (2.0 * ei);
    else
        sway += f * z * z * (3.0 * h - z) / (6.0 * ei);
    return sway;
}

static double wind_nm(const lw_mast_load *load)
{
    return load->head_force_n * load->head_height_m + 0.5 * load->line_n_m * load->height_m * load->height_m;
}

/* The weights' own moments, grown: off centre, and leaning. */
static double weights_nm(const lw_mast_load *load, const lw_mast_column *column)
{
    return load->standing_nm * column->off_centre_grows + (load->lean_nm + column->pipe_lean_nm) * column->lean_grows;
}

static void reserves(const lw_mast_strength *strength, double weights_mpa, lw_mast_bending *out)
{
    static const double least_alpha =
        3.0; /* EN 1993-1-1 5.2.2(5): below it the growth is no longer told (from memory) */
    out->bends = out->factored_mpa > 0.0 ? out->allowed_mpa / out->factored_mpa : 1e6;
    if (strength->standing_mpa > 0.0 && weights_mpa > 0.0)
        out->bends = fmin(out->bends, strength->standing_mpa / weights_mpa);
    out->buckles = out->column.alpha_cr / least_alpha;
    out->reserve = fmin(out->bends, out->buckles);
}

bool lw_mast_bend(const lw_tube *tube, const lw_mast_strength *strength, const lw_mast_load *load, lw_mast_bending *out,
                  lw_error *err)
{
    lw_tube_section section = {0};
    if (!lw_tube_section_of(tube, &section, err))
        return false;
    if (tube->diameter_mm / tube->wall_mm > strength->thickness_limit)
        return lw_fail(err, LW_REFUSED, "wall_mm",
                       "A wall of %g mm on %g mm would buckle before it bends: diameter over wall is %.3g, at most %g "
                       "in this material. Take a thicker wall.",
                       tube->wall_mm, tube->diameter_mm, tube->diameter_mm / tube->wall_mm, strength->thickness_limit);
    out->column = lw_mast_column_of(&section, strength, load, 1.0);
    const double weights = weights_nm(load, &out->column), squeezed = out->column.compression_mpa;
    out->moment_nm = wind_nm(load) * out->column.gust_grows + weights;
    out->shear_n = load->head_force_n + load->line_n_m * load->height_m;
    out->stress_mpa = 1e3 * out->moment_nm / section.modulus_mm3;
    out->factored_mpa = strength->load_factor * out->stress_mpa + squeezed;
    out->allowed_mpa = strength->allowed_mpa;
    out->sway_mm = 1e3 * sway_m(load, strength->stiffness_mpa * section.inertia_mm4 * 1e-6) * out->column.gust_grows;
    reserves(strength, 1e3 * weights / section.modulus_mm3 + squeezed, out);
    out->least_modulus_mm3 = section.modulus_mm3 / fmin(out->bends, 1e6);
    return true;
}

const lw_tube lw_mast_common_tubes[] = {{42.4, 2.6}, {48.3, 3.2},  {60.3, 3.2},  {76.1, 3.2},  {88.9, 3.2},
                                        {88.9, 4.0}, {114.3, 3.6}, {139.7, 4.0}, {168.3, 4.5}, {219.1, 5.0}};
const size_t lw_mast_common_tube_count = sizeof lw_mast_common_tubes / sizeof lw_mast_common_tubes[0];

bool lw_mast_steel_that_stands(const lw_mast_load *load, double diameter_mm, lw_tube *out)
{
    const lw_tube *const tubes = lw_mast_common_tubes;
    for (size_t i = 0; i < lw_mast_common_tube_count; i++) {
        lw_mast_load scaled = *load;
        lw_mast_strength strength = {0};
        lw_mast_bending bending = {0};
        const lw_mast_conditions conditions = {20.0, 0.0, tubes[i].wall_mm};
        scaled.line_n_m *= tubes[i].diameter_mm / diameter_mm;
        if (lw_mast_steel.strength(&conditions, &strength, NULL) &&
            lw_mast_bend(&tubes[i], &strength, &scaled, &bending, NULL) && bending.reserve >= 1.0 &&
            bending.sway_mm <= 100.0 * load->height_m) {
            *out = tubes[i];
            return true;
        }
    }
    return false;
}
