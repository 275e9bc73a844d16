/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Depth of a pole in the ground by IBC 1807.3.2.1 and 1807.3.2.2: see lanewick/footing.h.
 */
#include "lanewick/footing.h"
#include "lanewick/roots.h"

#include <math.h>

static const double deepest_m = 3.66; /* 12 ft, the end of the formula's pressure */

bool lw_soil_lateral_pa_per_m(lw_soil soil, double *pa_per_m, lw_error *err)
{
    static const double table[] = {62.8e3, 31.4e3, 23.56e3, 15.7e3};
    if (soil == LW_SOIL_SOFT)
        return lw_fail(err, LW_REFUSED, "soil",
                       "Mud, peat, organic soil and loose fill hold no mast: dig through to firm ground, or choose "
                       "another place; a licensed engineer decides.");
    *pa_per_m = table[soil];
    return true;
}

double lw_soil_bearing_pa(lw_soil soil)
{
    static const double table[] = {192e3, 144e3, 96e3, 72e3, 0.0};
    return table[soil];
}

double lw_footing_a_m(double force_n, double s1_pa, double diameter_m)
{
    return 2.34 * force_n / (s1_pa * diameter_m);
}

/* Pressure at the depth that the formula asks for, when the pole goes d deep. */
static double pressure_pa(const lw_footing *f, double d)
{
    const double at = f->paved ? d : d / 3.0;
    return f->soil_pa_per_m * fmin(at, deepest_m) * (f->doubled ? 2.0 : 1.0);
}

/* Depth given less depth needed. */
static double spare_depth(double d, const void *payload)
{
    const lw_footing *f = payload;
    const double s = pressure_pa(f, d);
    if (f->paved)
        return d - sqrt(4.25 * f->force_n * f->arm_m / (s * f->diameter_m)); /* Eq. 18-2 */
    const double a = lw_footing_a_m(f->force_n, s, f->diameter_m);
    return d - 0.5 * a * (1.0 + sqrt(1.0 + 4.36 * f->arm_m / a)); /* Eq. 18-1 */
}

bool lw_footing_depth(const lw_footing *footing, double *depth_m, double *pressure, lw_error *err)
{
    if (spare_depth(deepest_m, footing) < 0.0)
        return lw_fail(err, LW_REFUSED, "depth_m",
                       "This mast would have to stand deeper than %g m, where the formula ends: take a wider concrete "
                       "collar, a shorter mast or a smaller panel. A licensed engineer decides.",
                       deepest_m);
    if (!lw_root(spare_depth, footing, 1e-4, deepest_m, 1e-9, depth_m, err))
        return false;
    *pressure = pressure_pa(footing, *depth_m);
    return true;
}
