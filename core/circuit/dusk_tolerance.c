/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Spread of the switching illuminance: all corners (the illuminance is monotonic in every part), and percentiles of
 * draws uniform in each part's band. Percentiles never pass the worst case, as three standard deviations may.
 */
#include "lanewick/dusk.h"
#include "lanewick/rng.h"
#include "lanewick/stats.h"

#include <math.h>

enum { R10, GAMMA, RB, R1, R2, R3, OFFSET, PARTS };

static void fill_bands(const lw_dusk_parts *p, double low[PARTS], double high[PARTS])
{
    const double nominal[PARTS] = {[RB] = p->resistor_ohm, [R1] = p->r1_ohm, [R2] = p->r2_ohm, [R3] = p->r3_ohm};
    for (int i = RB; i <= R3; i++) {
        low[i] = nominal[i] * (1.0 - p->tolerance);
        high[i] = nominal[i] * (1.0 + p->tolerance);
    }
    low[R10] = p->r10_low_ohm;
    high[R10] = p->r10_high_ohm;
    low[GAMMA] = p->gamma_low;
    high[GAMMA] = p->gamma_high;
    low[OFFSET] = -p->offset;
    high[OFFSET] = p->offset;
}

/* Switch-on and switch-off illuminance with these parts; false when a level lies beyond the supply. */
static bool switching(const double x[PARTS], double *on, double *off)
{
    const lw_dusk_divider divider = {x[R10], x[GAMMA], x[RB], false};
    double low, high;
    lw_comparator_levels(x[R1], x[R2], x[R3], &low, &high);
    low += x[OFFSET];
    high += x[OFFSET];
    if (!(low > 0.0 && high < 1.0))
        return false;
    *on = lw_dusk_lux(&divider, low);
    *off = lw_dusk_lux(&divider, high);
    return true;
}

static bool corners(const double low[PARTS], const double high[PARTS], lw_dusk_spread *on, lw_dusk_spread *off)
{
    on->worst_low = off->worst_low = INFINITY;
    on->worst_high = off->worst_high = 0.0;
    for (unsigned corner = 0; corner < 1u << PARTS; corner++) {
        double x[PARTS], lux_on, lux_off;
        for (unsigned i = 0; i < PARTS; i++)
            x[i] = corner >> i & 1u ? high[i] : low[i];
        if (!switching(x, &lux_on, &lux_off))
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

/* The bands, and the middle of each; false when a corner cannot switch. */
static bool prepare(const lw_dusk_parts *parts, double low[PARTS], double high[PARTS], lw_dusk_spread *on,
                    lw_dusk_spread *off, lw_error *err)
{
    double x[PARTS];
    fill_bands(parts, low, high);
    for (int i = 0; i < PARTS; i++)
        x[i] = 0.5 * (low[i] + high[i]);
    x[R10] = sqrt(low[R10] * high[R10]);
    return (switching(x, &on->nominal, &off->nominal) && corners(low, high, on, off)) ||
           lw_fail(err, LW_NOT_COMPUTABLE, "offset_mv",
                   "With these tolerances a switching level lies beyond the supply: the switch would stick.");
}

static void draw(const double low[PARTS], const double high[PARTS], size_t samples, uint64_t seed, double *lux_on,
                 double *lux_off)
{
    lw_rng rng = lw_rng_stream(seed, 0, 0);
    for (size_t k = 0; k < samples; k++) {
        double x[PARTS];
        for (int i = 0; i < PARTS; i++)
            x[i] = low[i] + (high[i] - low[i]) * lw_rng_uniform(&rng);
        (void)switching(x, &lux_on[k], &lux_off[k]); /* inside the corners, so it succeeds */
    }
}

bool lw_dusk_draws(const lw_dusk_parts *parts, size_t samples, uint64_t seed, double *lux_on, double *lux_off,
                   lw_error *err)
{
    double low[PARTS], high[PARTS];
    lw_dusk_spread on, off;
    if (!prepare(parts, low, high, &on, &off, err))
        return false;
    draw(low, high, samples, seed, lux_on, lux_off);
    return true;
}

bool lw_dusk_tolerance(const lw_dusk_parts *parts, size_t samples, uint64_t seed, lw_arena *arena, lw_dusk_spread *on,
                       lw_dusk_spread *off, lw_error *err)
{
    double low[PARTS], high[PARTS];
    if (!prepare(parts, low, high, on, off, err))
        return false;
    double *lux_on = lw_arena_take(arena, samples, sizeof *lux_on, err);
    double *lux_off = lw_arena_take(arena, samples, sizeof *lux_off, err);
    if (!lux_on || !lux_off)
        return false;
    draw(low, high, samples, seed, lux_on, lux_off);
    percentiles(lux_on, samples, on);
    percentiles(lux_off, samples, off);
    return true;
}
