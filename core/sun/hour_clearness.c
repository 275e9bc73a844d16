/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * TAG coefficients of a day: Aguiar & Collares-Pereira (1992), Solar Energy 49, 167.
 */
#include "hour_clearness.h"

#include "lanewick/units.h"

#include <math.h>

lw_tag lw_tag_of_day(double day_clearness)
{
    const double k = day_clearness;
    return (lw_tag){
        .lambda = -0.19 + 1.12 * k + 0.24 * exp(-8.0 * k),
        .eta = 0.32 - 1.6 * (k - 0.5) * (k - 0.5),
        .kappa = 0.19 + k * k * (2.27 - 2.51 * k),
        .a = 0.14 * exp(-20.0 * (k - 0.35) * (k - 0.35)),
        .b = 3.0 * (k - 0.45) * (k - 0.45) + 16.0 * k * k * k * k * k,
        .phi = 0.38 + 0.06 * cos(7.4 * k - 2.5),
    };
}

double lw_tag_clear_sky(double solar_time_h)
{
    return 0.88 * cos(lw_pi * (solar_time_h - 12.0) / 30.0);
}
