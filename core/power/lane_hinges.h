/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Broken lines in the lanes: see lw_hinges.
 */
#ifndef LANEWICK_CORE_POWER_LANE_HINGES_H
#define LANEWICK_CORE_POWER_LANE_HINGES_H

#include "lanes.h"
#include "lanewick/vector.h"

LW_INTO lw_v_hinge(const lw_hinges *h, int k, const lw_v *x, lw_v *sum)
{
    lw_v over = *x - h->at[k];
    lw_v_positive(&over);
    *sum += over * h->bend[k];
}

LW_INTO lw_v_hinges(const lw_hinges *h, const lw_v *x, lw_v *y)
{
    lw_v held = *x, a = {0.0F}, b = {0.0F}, c = {0.0F}, d = {0.0F};
    lw_v_within(&held, h->low, h->high);
    for (int k = 0; k < h->n; k += LW_HINGE_TURN) {
        lw_v_hinge(h, k, &held, &a);
        lw_v_hinge(h, k + 1, &held, &b);
        lw_v_hinge(h, k + 2, &held, &c);
        lw_v_hinge(h, k + 3, &held, &d);
    }
    *y = (a + b) + (c + d) + h->y0;
}

#endif
