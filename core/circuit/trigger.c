/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The trigger of two transistors: see lanewick/trigger.h.
 *
 * It goes on where the falling base lets Q1 out of saturation so far that Q2 has just gain enough to go on by itself
 * (its steepness times R1 is 1, so it carries the thermal voltage over R1). It goes off where Q1 has taken so much of
 * the current of R1 that Q2 leaves saturation.
 */
#include "lanewick/trigger.h"

#include "lanewick/units.h"

#include <math.h>

enum { VALUES = 320, TRIED = 28 };
static const double label_a = 1e-4, label_c = 25.0, volts_per_k = -0.002; /* data sheets of common parts */
static const double saturated_v = 0.05;
static const double least_branch = 5.0; /* so many times the base current: else the gain decides the light */
static const double gate_ohm = 470e3;   /* gate to minus */

static double thermal_v(double celsius)
{
    return lw_boltzmann_j_k * (celsius + lw_zero_celsius_k) / lw_electron_charge_c;
}

/* Base to emitter at a current. */
static double vbe_at(const lw_trigger *t, double amps)
{
    return t->vbe_v + volts_per_k * (t->celsius - label_c) + thermal_v(t->celsius) * log(fmax(amps, 1e-9) / label_a);
}

/* Base voltage and base current of Q1 at one level. */
typedef struct level {
    double base_v, base_a;
} level;

static level level_on(const lw_trigger *t)
{
    const double share = (1.0 + 1.0 / t->gain) / t->r1_ohm;
    const double second_v = vbe_at(t, thermal_v(t->celsius) / t->r1_ohm);
    const double emitter_v = (t->supply_v - second_v) * share / (1.0 / t->r2_ohm + share);
    const double amps = (t->supply_v - second_v - emitter_v) / t->r1_ohm;
    return (level){emitter_v + t->first_v + vbe_at(t, amps), amps / t->gain};
}

static level level_off(const lw_trigger *t, double *emitter_v)
{
    const double third_v = vbe_at(t, t->supply_v / gate_ohm);
    double second_v = vbe_at(t, 2e-5), first_a = 0.0;
    for (int i = 0; i < 4; i++) {
        const double pull = (t->supply_v - second_v) / t->r1_ohm + (t->supply_v - third_v - saturated_v) / t->r3_ohm;
        *emitter_v = (pull + first_a / t->gain) / (1.0 / t->r2_ohm + 1.0 / t->r1_ohm + 1.0 / t->r3_ohm);
        const double third_a = (t->supply_v - third_v - saturated_v - *emitter_v) / t->r3_ohm;
        const double drive_a = (t->supply_v - second_v - *emitter_v) / t->r1_ohm;
        second_v = vbe_at(t, third_a + drive_a);
        first_a = drive_a - third_a / t->gain;
    }
    return (level){*emitter_v + t->first_v + vbe_at(t, first_a), first_a / t->gain};
}

static double lux_at(const lw_trigger *t, level at)
{
    const double ohm = (t->supply_v - at.base_v) / (at.base_v / t->resistor_ohm + at.base_a);
    return lw_ldr_lux(t->r10_ohm, t->gamma, ohm);
}

/* false: it sticks. */
static bool levels_of(const lw_trigger *t, level *on, level *off, double *emitter_v)
{
    *on = level_on(t);
    *off = level_off(t, emitter_v);
    return on->base_v > 0.1 && off->base_v > on->base_v && off->base_v < t->supply_v - 0.05 && off->base_a > 0.0 &&
           on->base_a > 0.0;
}

bool lw_trigger_at(const lw_trigger *t, lw_trigger_levels *out, lw_error *err)
{
    level on, off;
    double emitter_v = 0.0;
    if (!levels_of(t, &on, &off, &emitter_v))
        return lw_fail(err, LW_NOT_COMPUTABLE, "supply_v",
                       "At %.3g V this switch sticks: it would go on at %.3g V and off at %.3g V at the base of Q1. "
                       "Take a smaller R2 or R3.",
                       t->supply_v, on.base_v, off.base_v);
    *out = (lw_trigger_levels){.on_v = on.base_v,
                               .off_v = off.base_v,
                               .lux_on = lux_at(t, on),
                               .lux_off = lux_at(t, off),
                               .day_a = t->supply_v / t->resistor_ohm +
                                        fmax(0.0, t->supply_v - vbe_at(t, label_a)) / t->r2_ohm,
                               .night_a = emitter_v / t->r2_ohm + t->supply_v / gate_ohm};
    return true;
}

/* Off over on in light, the photoresistor's slope given. */
static double apart(const lw_trigger *t, const level *on, const level *off)
{
    return pow(off->base_v * (t->supply_v - on->base_v) / (on->base_v * (t->supply_v - off->base_v)), 1.0 / t->gamma);
}

/* How far from good: off at 3.5 times on, levels around 0.4 of the supply, about 100 kohm. INFINITY: not usable. */
static double miss(const lw_trigger *t, double empty_v)
{
    level on, off;
    double emitter_v;
    lw_trigger empty = *t;
    empty.supply_v = empty_v;
    if (!levels_of(&empty, &on, &off, &emitter_v) || apart(&empty, &on, &off) < 2.0 ||
        !levels_of(t, &on, &off, &emitter_v))
        return INFINITY;
    const double ratio = apart(t, &on, &off);
    if (ratio < 3.0 || ratio > 6.0)
        return INFINITY;
    return fabs(log(ratio / 3.5)) + fabs(log(0.5 * (on.base_v + off.base_v) / (0.4 * t->supply_v))) +
           0.05 * fabs(log(t->r2_ohm / 100e3));
}

static bool choose_three(const lw_resistors *at_hand, double empty_v, lw_trigger *t, lw_error *err)
{
    double list[VALUES], best = INFINITY;
    const size_t n = lw_resistors_between(at_hand, 22e3, 1e6, list, VALUES), step = 1 + n / TRIED;
    lw_trigger here = *t;
    for (size_t i = 0; i < n; i += step)
        for (size_t k = 0; k < n; k += step)
            for (size_t m = 0; m < n; m += step) {
                here.r1_ohm = list[i];
                here.r2_ohm = list[k];
                here.r3_ohm = list[m];
                const double off_by = miss(&here, empty_v);
                if (off_by >= best)
                    continue;
                best = off_by;
                *t = here;
            }
    return isfinite(best) ||
           lw_fail(
               err, LW_NOT_COMPUTABLE, "resistors",
               "No three resistors at hand between 22 kohm and 1 Mohm make a transistor switch that works from %.3g "
               "V: add values such as 47, 100, 220 and 330 kohm, or take the comparator.",
               empty_v);
}

bool lw_trigger_choose(const lw_resistors *at_hand, double wanted_lx, double empty_v, lw_trigger *t, lw_error *err)
{
    level on, off;
    double emitter_v;
    if (!choose_three(at_hand, empty_v, t, err) || !levels_of(t, &on, &off, &emitter_v))
        return false;
    const double ldr_ohm = lw_ldr_ohm(t->r10_ohm, t->gamma, wanted_lx);
    const double branch_a = (t->supply_v - on.base_v) / ldr_ohm;
    if (branch_a < least_branch * on.base_a)
        return lw_fail(
            err, LW_NOT_COMPUTABLE, "lux_on",
            "This photoresistor cannot reach %.3g lux: at that light it has %.3g ohm and feeds only %.2g uA, the "
            "transistor's base takes %.2g uA. Take a photoresistor of less ohms, more light, or a comparator.",
            wanted_lx, ldr_ohm, 1e6 * branch_a, 1e6 * on.base_a);
    const double ideal = on.base_v / (branch_a - on.base_a);
    t->resistor_ohm = lw_resistor_near(at_hand, ideal);
    const double lux = lux_at(t, on);
    return (lux > wanted_lx / 3.0 && lux < 3.0 * wanted_lx) ||
           lw_fail(
               err, LW_NOT_COMPUTABLE, "resistors",
               "With the resistors at hand the switch would work at %.3g lx, not near the %.3g lx wanted: add about "
               "%.3g ohm.",
               lux, wanted_lx, ideal);
}
