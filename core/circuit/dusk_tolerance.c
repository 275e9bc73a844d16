/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Spread of the switch of photoresistor and comparator: see lanewick/dusk.h.
 */
#include "spread.h"

enum { R10, GAMMA, RB, R1, R2, R3, OFFSET, PARTS };

/* Switch-on and switch-off illuminance with these parts; false when a level lies beyond the supply. */
static bool switching(const void *fixed, const double *x, double *on, double *off)
{
    (void)fixed;
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

static lw_spread_law law_of(const lw_dusk_parts *p)
{
    lw_spread_law law = {.parts = PARTS, .geometric = 1u << R10, .switching = switching};
    const double nominal[PARTS] = {[RB] = p->resistor_ohm, [R1] = p->r1_ohm, [R2] = p->r2_ohm, [R3] = p->r3_ohm};
    for (int i = RB; i <= R3; i++) {
        law.low[i] = nominal[i] * (1.0 - p->tolerance);
        law.high[i] = nominal[i] * (1.0 + p->tolerance);
    }
    law.low[R10] = p->r10_low_ohm;
    law.high[R10] = p->r10_high_ohm;
    law.low[GAMMA] = p->gamma_low;
    law.high[GAMMA] = p->gamma_high;
    law.low[OFFSET] = -p->offset;
    law.high[OFFSET] = p->offset;
    return law;
}

bool lw_dusk_draws(const lw_dusk_parts *parts, size_t samples, uint64_t seed, double *lux_on, double *lux_off,
                   lw_error *err)
{
    const lw_spread_law law = law_of(parts);
    return lw_spread_draws(&law, samples, seed, lux_on, lux_off, err);
}

bool lw_dusk_tolerance(const lw_dusk_parts *parts, size_t samples, uint64_t seed, lw_arena *arena, lw_dusk_spread *on,
                       lw_dusk_spread *off, lw_error *err)
{
    const lw_spread_law law = law_of(parts);
    return lw_spread_of(&law, samples, seed, arena, on, off, err);
}
