/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ultimate side load of a short free-headed pile: Broms (1964a, clay; 1964b, sand), as in an open textbook.
 */
#include "lanewick/footing.h"
#include "lanewick/roots.h"
#include "lanewick/units.h"

#include <math.h>

double lw_broms_sand_n(double unit_weight_n_m3, double friction_deg, double diameter_m, double depth_m, double arm_m)
{
    const double t = tan((45.0 + 0.5 * friction_deg) * lw_radian_per_degree);
    return 0.5 * unit_weight_n_m3 * diameter_m * pow(depth_m, 3) * t * t / (arm_m + depth_m);
}

typedef struct pile {
    double cu_pa, diameter_m, depth_m, arm_m;
} pile;

/* Moment needed less moment that the ground below the turning point gives, at side load h. */
static double excess_moment(double h, const void *payload)
{
    const pile *p = payload;
    const double f = h / (9.0 * p->cu_pa * p->diameter_m), g = p->depth_m - 1.5 * p->diameter_m - f;
    return h * (p->arm_m + 1.5 * p->diameter_m + 0.5 * f) - 2.25 * p->cu_pa * p->diameter_m * g * g;
}

bool lw_broms_clay_n(double cu_pa, double diameter_m, double depth_m, double arm_m, double *force_n, double *f_m,
                     double *moment_nm, lw_error *err)
{
    const pile p = {cu_pa, diameter_m, depth_m, arm_m};
    if (depth_m <= 1.5 * diameter_m)
        return lw_fail(err, LW_WRONG_INPUT, "depth_m",
                       "depth_m is %g m; in clay the first 1.5 diameters (%g m) count for nothing, so it must be more.",
                       depth_m, 1.5 * diameter_m);
    const double most = 9.0 * cu_pa * diameter_m * (depth_m - 1.5 * diameter_m);
    if (!lw_root(excess_moment, &p, 0.0, most, 1e-9 * most, force_n, err))
        return false;
    *f_m = *force_n / (9.0 * cu_pa * diameter_m);
    *moment_nm = *force_n * (arm_m + 1.5 * diameter_m + 0.5 * *f_m);
    return true;
}
