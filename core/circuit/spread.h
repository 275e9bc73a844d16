/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Spread of the switching illuminance of any dusk switch: all corners (the illuminance is monotonic in every part), and
 * percentiles of draws uniform in each part's band. Percentiles never pass the worst case, as three standard deviations
 * may.
 */
#ifndef LANEWICK_SPREAD_H
#define LANEWICK_SPREAD_H

#include "lanewick/dusk.h"

enum { LW_SPREAD_PARTS = 12 };
typedef struct lw_spread_law {
    int parts;
    double low[LW_SPREAD_PARTS], high[LW_SPREAD_PARTS];
    unsigned geometric; /* bit i: the middle of part i is the geometric one */
    /* switch-on and switch-off illuminance with these parts; false: such a switch would stick */
    bool (*switching)(const void *fixed, const double *parts, double *on, double *off);
    const void *fixed;
} lw_spread_law;

/* See lw_dusk_draws() and lw_dusk_tolerance(). LW_NOT_COMPUTABLE: a corner sticks. */
LW_MUST_CHECK bool lw_spread_draws(const lw_spread_law *law, size_t samples, uint64_t seed, double *lux_on,
                                   double *lux_off, lw_error *err);
LW_MUST_CHECK bool lw_spread_of(const lw_spread_law *law, size_t samples, uint64_t seed, lw_arena *arena,
                                lw_dusk_spread *on, lw_dusk_spread *off, lw_error *err);

#endif
