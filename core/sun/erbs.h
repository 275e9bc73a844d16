/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hourly diffuse share of Erbs, Klein & Duffie (1982), Solar Energy 28, 293, by its three pieces, so that an inner
 * loop can choose between them without a branch.
 */
#ifndef LANEWICK_ERBS_H
#define LANEWICK_ERBS_H

static const double lw_erbs_dull_edge = 0.22, lw_erbs_clear_edge = 0.80, lw_erbs_clear = 0.165;

static inline double lw_erbs_dull(double k)
{
    return 1.0 - 0.09 * k;
}

static inline double lw_erbs_curve(double k)
{
    return 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
}

#endif
