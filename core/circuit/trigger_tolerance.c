/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Spread of the transistor switch: see lanewick/trigger.h. The transistors come from one bag and sit at one
 * temperature, so their volts move together; Q1 differs a little.
 */
#include "lanewick/trigger.h"

#include "spread.h"

enum { R10, GAMMA, RB, R1, R2, R3, VBE, FIRST, GAIN, CELSIUS, PARTS };

static bool switching(const void *fixed, const double *x, double *on, double *off)
{
    lw_trigger t = *(const lw_trigger *)fixed;
    t.r10_ohm = x[R10];
    t.gamma = x[GAMMA];
    t.resistor_ohm = x[RB];
    t.r1_ohm = x[R1];
    t.r2_ohm = x[R2];
    t.r3_ohm = x[R3];
    t.vbe_v = x[VBE];
    t.first_v = x[FIRST];
    t.gain = x[GAIN];
    t.celsius = x[CELSIUS];
    lw_trigger_levels levels;
    if (!lw_trigger_at(&t, &levels, NULL))
        return false;
    *on = levels.lux_on;
    *off = levels.lux_off;
    return true;
}

static lw_spread_law law_of(const lw_trigger_parts *p)
{
    const lw_trigger *m = &p->middle;
    const double few = 1.0 - p->tolerance, many = 1.0 + p->tolerance;
    return (lw_spread_law){
        .parts = PARTS,
        .low = {p->r10_low_ohm, p->gamma_low, m->resistor_ohm * few, m->r1_ohm * few, m->r2_ohm * few, m->r3_ohm * few,
                p->vbe_low_v, -p->mismatch_v, p->gain_low, p->celsius_low},
        .high = {p->r10_high_ohm, p->gamma_high, m->resistor_ohm * many, m->r1_ohm * many, m->r2_ohm * many,
                 m->r3_ohm * many, p->vbe_high_v, p->mismatch_v, p->gain_high, p->celsius_high},
        .geometric = 1u << R10 | 1u << GAIN,
        .switching = switching,
        .fixed = m};
}

bool lw_trigger_draws(const lw_trigger_parts *parts, size_t samples, uint64_t seed, double *lux_on, double *lux_off,
                      lw_error *err)
{
    const lw_spread_law law = law_of(parts);
    return lw_spread_draws(&law, samples, seed, lux_on, lux_off, err);
}

bool lw_trigger_tolerance(const lw_trigger_parts *parts, size_t samples, uint64_t seed, lw_arena *arena,
                          lw_dusk_spread *on, lw_dusk_spread *off, lw_error *err)
{
    const lw_spread_law law = law_of(parts);
    return lw_spread_of(&law, samples, seed, arena, on, off, err);
}
