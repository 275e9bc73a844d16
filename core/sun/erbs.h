/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Hourly diffuse share of Erbs, Klein & Duffie (1982), Solar Energy 28, 293, for inner loops: no call, no branch.
 */
#ifndef LANEWICK_ERBS_H
#define LANEWICK_ERBS_H

static inline double lw_erbs_hour(double k)
{
    const double curve = 0.9511 + k * (-0.1604 + k * (4.388 + k * (-16.638 + k * 12.336)));
    const double dull = 1.0 - 0.09 * k;
    const double upper = k > 0.80 ? 0.165 : curve;
    return k <= 0.22 ? dull : upper;
}

#endif
