/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The base of a whole mast. Buried: IBC 1807.3.2.1, Broms as second opinion. Plate: statics of the block (figure
 * plate_base), EN 1993-1-8 for the bolts, all from memory. Soil is asked with the wind without load factor.
 */
#include "mast_base.h"

#include "lanewick/units.h"

#include <math.h>

static double allowable(const lw_mast_wish *w)
{
    return w->wind.label == LW_WIND_GUST_DESIGN ? 0.6 : 1.0;
}

/* Broms: clay of 40 kPa where the soil is weaker than 20 kPa a metre, else sand of 30 degrees. */
static double overturns_at_n(const lw_mast_wish *w, double depth_m, double arm_m)
{
    double force_n = 0.0, f_m, moment_nm;
    if (depth_m <= 0.0)
        return 0.0;
    if (w->soil_pa_per_m >= 20e3)
        return lw_broms_sand_n(w->flooded ? 10e3 : 18e3, 30.0, w->collar_m, depth_m, arm_m);
    return lw_broms_clay_n(w->flooded ? 20e3 : 40e3, w->collar_m, depth_m, arm_m, &force_n, &f_m, &moment_nm, NULL)
               ? force_n
               : 0.0;
}

static bool buried(const lw_mast_wish *w, lw_mast_result *out, lw_error *err)
{
    const lw_mast_bending *b = &out->bending; /* its moment holds what the weights add, told while it does not buckle */
    const double arm_m = b->buckles >= 1.0 ? b->moment_nm / b->shear_n : out->arm_m;
    const lw_footing footing = {.force_n = allowable(w) * out->bending.shear_n,
                                .arm_m = arm_m,
                                .diameter_m = w->collar_m,
                                .soil_pa_per_m = w->soil_pa_per_m * (w->flooded ? 0.5 : 1.0),
                                .doubled = w->doubled,
                                .paved = w->paved};
    double pressure, depth = 0.0;
    if (!lw_footing_depth(&footing, &depth, &pressure, err))
        return false;
    out->depth_m = depth + w->loose_m;
    const double holds = (w->depth_m > 0.0 ? w->depth_m : out->depth_m) - w->loose_m;
    out->base_margin = fmax(0.0, overturns_at_n(w, holds, arm_m) / footing.force_n);
    return true;
}

static const double concrete_n_m3 = 22e3;  /* mixed by hand (common practice; EN 1991-1-1 has 24) */
static const double bond_mpa = 0.9;        /* plain round bar in C12/15 (ENV 1992-1-1 Table 5.3, from memory) */
static const double plate_yield_mpa = 235; /* S235 */

static void block_of(const lw_mast_wish *w, const lw_mast_result *r, double side_m, lw_mast_foot *out)
{
    const lw_plate_wish *p = &w->plate;
    const double concrete = concrete_n_m3 - (w->flooded ? 9810.0 : 0.0);
    const double weight_n =
        concrete * side_m * side_m * p->thickness_m + lw_gravity_m_s2 * r->total_kg - r->lift_n * allowable(w);
    const lw_plate block = {.width_m = side_m,
                            .thickness_m = p->thickness_m,
                            .weight_n = fmax(1.0, weight_n),
                            .force_n = allowable(w) * r->bending.shear_n,
                            .arm_m = r->bending.moment_nm / r->bending.shear_n};
    lw_plate_result held = {0};
    lw_error tips = {0};
    out->block_m = side_m;
    out->thickness_m = p->thickness_m;
    out->allowed_pa = p->bearing_pa * (w->flooded ? 0.5 : 1.0);
    out->pressure_pa = lw_plate_check(&block, &held, &tips) ? held.pressure_pa : 0.0; /* it tips */
    out->overturning = held.overturning;
}

static bool block_holds(const lw_mast_foot *foot)
{
    return foot->overturning >= 1.5 && foot->pressure_pa <= foot->allowed_pa;
}

static void find_block(const lw_mast_wish *w, lw_mast_result *out)
{
    const double least_m = out->foot.plate_m + 0.1; /* 50 mm of concrete beside the plate */
    lw_mast_foot tried = out->foot;
    for (int tenths = (int)ceil(10.0 * fmax(0.4, least_m) - 1e-9); tenths <= 20; tenths++) {
        block_of(w, out, 0.1 * tenths, &tried);
        if (!block_holds(&tried))
            continue;
        tried.block_that_holds_m = 0.1 * tenths;
        break;
    }
    if (w->plate.block_m > 0.0)
        block_of(w, out, w->plate.block_m, &tried);
    out->foot = tried;
}

/* Elastic strip of 45 degrees from a bolt to the pipe, twice as wide as long: t^2 = 3 T/f (common practice). */
static double plate_mm(double tension_n)
{
    static const double sold_mm[] = {8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 30.0};
    const double needed = sqrt(3.0 * tension_n / plate_yield_mpa);
    for (size_t i = 0; i < sizeof sold_mm / sizeof sold_mm[0]; i++)
        if (sold_mm[i] >= needed)
            return sold_mm[i];
    return ceil(needed);
}

static bool plate(const lw_mast_wish *w, lw_mast_result *out, lw_error *err)
{
    const lw_plate_wish *p = &w->plate;
    const double pipe_m = 0.001 * w->pipe.diameter_mm, bolt_m = 0.001 * p->bolt_mm;
    const double spacing_m = p->bolt_spacing_m > 0.0 ? p->bolt_spacing_m : pipe_m + 0.12;
    if (w->material > 1)
        return lw_fail(
            err, LW_REFUSED, "base.kind",
            "A base plate is welded to its mast, which only a steel pipe bears: a weld halves aluminium, and "
            "timber, bamboo and plastic have none. Bury this one, or take steel.");
    if (sqrt(0.5) * spacing_m < 0.5 * pipe_m + 1.5 * bolt_m)
        return lw_fail(err, LW_WRONG_INPUT, "base.bolt_spacing_m",
                       "base.bolt_spacing_m is %g m; the nuts would meet the pipe of %g mm. At least %.3f m.",
                       spacing_m, w->pipe.diameter_mm, sqrt(2.0) * (0.5 * pipe_m + 1.5 * bolt_m));
    lw_bolt bolt;
    if (!lw_bolt_of(p->bolt_mm, p->grade, &bolt, err))
        return false;
    lw_mast_foot *foot = &out->foot;
    const double factor = w->wind.label == LW_WIND_GUST_DESIGN ? 1.0 : 1.5;
    foot->spacing_m = spacing_m;
    foot->plate_m = spacing_m + 4.0 * bolt_m;
    foot->bolt_n = lw_plate_bolt_n(out->bending.moment_nm, spacing_m) + 0.25 * out->lift_n;
    foot->bolt_use = lw_bolt_use(&bolt, factor * foot->bolt_n, factor * 0.25 * out->bending.shear_n);
    foot->plate_mm = plate_mm(factor * foot->bolt_n);
    if (p->on_rock)
        return true;
    foot->anchor_m = fmax(20.0 * bolt_m, factor * foot->bolt_n / (lw_pi * bolt_m * bond_mpa * 1e6));
    if (p->block_m > 0.0 && p->block_m < foot->plate_m + 0.1)
        return lw_fail(err, LW_WRONG_INPUT, "base.block_m",
                       "base.block_m is %g m; the steel plate of %.3f m needs 50 mm of concrete on every side.",
                       p->block_m, foot->plate_m);
    find_block(w, out);
    out->depth_m = foot->thickness_m;
    return true;
}

bool lw_mast_base(const lw_mast_wish *wish, lw_mast_result *out, lw_error *err)
{
    return wish->base == LW_BASE_PLATE ? plate(wish, out, err) : buried(wish, out, err);
}
