/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dusk switch of photoresistor and transistors: two NPN joined at their emitters (a Schmitt trigger) and one PNP that
 * drives the gate up to the supply. Photoresistor from plus to the base of Q1, resistor from there to minus; R1 from
 * plus to the collector of Q1 and the base of Q2; R2 from both emitters to minus; R3 from the collector of Q2 to the
 * base of Q3. By day Q1 holds Q2 off. docs/models/dusk-switch.md.
 */
#ifndef LANEWICK_TRIGGER_H
#define LANEWICK_TRIGGER_H

#include "lanewick/dusk.h"
#include "lanewick/eseries.h"

typedef struct lw_trigger {
    double r10_ohm, gamma;                       /* photoresistor */
    double resistor_ohm, r1_ohm, r2_ohm, r3_ohm; /* 100 ohm .. 100 Mohm */
    double vbe_v;   /* base to emitter of Q2 and Q3 at 0.1 mA and 25 degC, 0.45..0.75; -2 mV/K */
    double first_v; /* how much more Q1 has */
    double gain;    /* collector over base current, 30..1000 */
    double celsius; /* -30..80 */
    double supply_v;
} lw_trigger;

typedef struct lw_trigger_levels {
    double on_v, off_v; /* base of Q1 when the lamp goes on and off */
    double lux_on, lux_off;
    double day_a, night_a; /* what the switch itself takes, in bright light and in the dark */
} lw_trigger_levels;

/* LW_NOT_COMPUTABLE: such a switch sticks, its levels do not lie inside the supply. */
LW_MUST_CHECK bool lw_trigger_at(const lw_trigger *trigger, lw_trigger_levels *out, lw_error *err);

/* Chooses the four resistors among those at hand for a wanted switch-on light: off at 3 to 6 times on at supply_v, and
 * still apart at empty_v. The other fields of *trigger are given. */
LW_MUST_CHECK bool lw_trigger_choose(const lw_resistors *at_hand, double wanted_lx, double empty_v, lw_trigger *trigger,
                                     lw_error *err);

/* What is known of its parts, at one supply; the resistors are those of `middle`. */
typedef struct lw_trigger_parts {
    lw_trigger middle;
    double r10_low_ohm, r10_high_ohm, gamma_low, gamma_high;
    double tolerance; /* of the four resistors, as a part of one */
    double vbe_low_v, vbe_high_v;
    double mismatch_v; /* Q1 against Q2, either way */
    double gain_low, gain_high, celsius_low, celsius_high;
} lw_trigger_parts;

/* As lw_dusk_draws() and lw_dusk_tolerance(). */
LW_MUST_CHECK bool lw_trigger_draws(const lw_trigger_parts *parts, size_t samples, uint64_t seed, double *lux_on,
                                    double *lux_off, lw_error *err);
LW_MUST_CHECK bool lw_trigger_tolerance(const lw_trigger_parts *parts, size_t samples, uint64_t seed, lw_arena *arena,
                                        lw_dusk_spread *on, lw_dusk_spread *off, lw_error *err);

#endif
