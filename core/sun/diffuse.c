/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Diffuse share of global radiation from clearness: Erbs, Klein & Duffie (1982), Solar Energy 28, 293; Boland &
 * Ridley (2008); Ridley, Boland & Lauret (2010), Renewable Energy 35, 478; Collares-Pereira & Rabl (1979), Solar
 * Energy 22, 155.
 */
#include "lanewick/diffuse.h"

#include "erbs.h"

#include <math.h>

static const double season_edge_deg = 81.4; /* sunset earlier than this: winter (Erbs) */

double lw_diffuse_erbs_hour(double k)
{
    if (k <= lw_erbs_dull_edge)
        return lw_erbs_dull(k);
    return k > lw_erbs_clear_edge ? lw_erbs_clear : lw_erbs_curve(k);
}

double lw_diffuse_erbs_day(double k, double sunset_angle_deg)
{
    if (sunset_angle_deg <= season_edge_deg)
        return k < 0.715 ? 1.0 + k * (-0.2727 + k * (2.4495 + k * (-11.9514 + k * 9.3879))) : 0.143;
    /* the published curve passes 1 below a clearness of 0.12, by 0.008 at most; a share cannot */
    return k < 0.722 ? fmin(1.0, 1.0 + k * (0.2832 + k * (-2.5557 + k * 0.8448))) : 0.175;
}

double lw_diffuse_erbs_month(double clearness, double sunset_angle_deg)
{
    const double k = fmin(fmax(clearness, 0.3), 0.8);
    if (sunset_angle_deg <= season_edge_deg)
        return 1.391 + k * (-3.560 + k * (4.189 - k * 2.137));
    return 1.311 + k * (-3.022 + k * (3.427 - k * 1.821));
}

double lw_diffuse_boland(double k)
{
    return 1.0 / (1.0 + exp(-5.0033 + 8.6025 * k));
}

double lw_diffuse_brl(double k, double solar_time_h, double altitude_deg, double day_clearness, double persistence)
{
    return 1.0 / (1.0 + exp(-5.38 + 6.63 * k + 0.006 * solar_time_h - 0.007 * altitude_deg + 1.75 * day_clearness +
                            1.31 * persistence));
}

double lw_diffuse_collares_day(double k)
{
    if (k <= 0.17)
        return 0.99;
    if (k > 0.8)
        return 0.243;
    return 1.188 + k * (-2.272 + k * (9.473 + k * (-21.856 + k * 14.648)));
}
