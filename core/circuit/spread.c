/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Corners and draws of a dusk switch: see spread.h.
 */
#include "spread.h"

#include "lanewick/rng.h"
#include "lanewick/stats.h"

#include <math.h>

static bool corners(const lw_spread_law *law, lw_dusk_spread *on, lw_dusk_spread *off)
{
    on->worst_low = off->worst_low = INFINITY;
    on->worst_high = off->worst_high = 0.0;
    for (unsigned corner = 0; corner < 1u << law->parts; corner++) {
        double x[LW_SPREAD_PARTS], lux_on, lux_off;
        for (int i = 0; i < law->parts; i++)
            x[i] = corner >> i & 1u ? law->high[i] : law->low[i];
        if (!law->switching(law->fixed, x, &lux_on, &lux_off))
            return false;
        on->worst_low = fmin(on->worst_low, lux_on);
        on->worst_high = fmax(on->worst_high, lux_on);
        off->worst_low = fmin(off->worst_low, lux_off);
        off->worst_high = fmax(off->worst_high, lux_off);
    }
    return true;
}

static void percentiles(double *list, size_t n, lw_dusk_spread *out)
{
    lw_sort(list, n);
    out->p0135 = lw_quantile_sorted(list, n, 0.00135);
    out->p05 = lw_quantile_sorted(list, n, 0.05);
    out->p50 = lw_quantile_sorted(list, n, 0.50);
    out->p95 = lw_quantile_sorted(list, n, 0.95);
    out->p99865 = lw_quantile_sorted(list, n, 0.99865);
}

static bool sticks(lw_error *err)
{
    return lw_fail(err, LW_NOT_COMPUTABLE, "offset_mv",
                   "With these tolerances a switching level lies beyond the supply: the switch would stick.");
}

/* The middle of each band, and all corners; false when one of them cannot switch. */
static bool prepare(const lw_spread_law *law, lw_dusk_spread *on, lw_dusk_spread *off, lw_error *err)
{
    double x[LW_SPREAD_PARTS];
    for (int i = 0; i < law->parts; i++)
        x[i] = law->geometric >> i & 1u ? sqrt(law->low[i] * law->high[i]) : 0.5 * (law->low[i] + law->high[i]);
    return (law->switching(law->fixed, x, &on->nominal, &off->nominal) && corners(law, on, off)) || sticks(err);
}

static bool draw(const lw_spread_law *law, size_t samples, uint64_t seed, double *lux_on, double *lux_off,
                 lw_error *err)
{
    lw_rng rng = lw_rng_stream(seed, 0, 0);
    for (size_t k = 0; k < samples; k++) {
        double x[LW_SPREAD_PARTS];
        for (int i = 0; i < law->parts; i++)
            x[i] = law->low[i] + (law->high[i] - law->low[i]) * lw_rng_uniform(&rng);
        if (!law->switching(law->fixed, x, &lux_on[k], &lux_off[k]))
            return sticks(err);
    }
    return true;
}

bool lw_spread_draws(const lw_spread_law *law, size_t samples, uint64_t seed, double *lux_on, double *lux_off,
                     lw_error *err)
{
    lw_dusk_spread on, off;
    if (!prepare(law, &on, &off, err))
        return false;
    return draw(law, samples, seed, lux_on, lux_off, err);
}

bool lw_spread_of(const lw_spread_law *law, size_t samples, uint64_t seed, lw_arena *arena, lw_dusk_spread *on,
                  lw_dusk_spread *off, lw_error *err)
{
    if (!prepare(law, on, off, err))
        return false;
    double *lux_on = lw_arena_take(arena, samples, sizeof *lux_on, err);
    double *lux_off = lw_arena_take(arena, samples, sizeof *lux_off, err);
    if (!lux_on || !lux_off || !draw(law, samples, seed, lux_on, lux_off, err))
        return false;
    percentiles(lux_on, samples, on);
    percentiles(lux_off, samples, off);
    return true;
}
