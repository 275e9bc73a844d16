/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A switching circuit with the values of its parts, from the resistors at hand: dusk switch by photoresistor and
 * comparator, by photoresistor and transistors or by the panel's volts; counter timer, oscillator for the lower level.
 * docs/models/dusk-switch.md.
 */
#ifndef LANEWICK_SWITCH_VALUES_H
#define LANEWICK_SWITCH_VALUES_H

#include "lanewick/dusk.h"
#include "lanewick/eseries.h"
#include "lanewick/switching.h"

/* What the shelf has for it. */
typedef struct lw_switch_parts {
    lw_resistors resistors;
    double r10_low_ohm, r10_high_ohm, gamma_low, gamma_high; /* photoresistor */
    double supply_a, offset_v;                               /* comparator: own current; input offset, either sign */
    double headroom_v; /* its inputs work up to so much below the supply; 0: up to the supply */
    double vbe_low_v, vbe_high_v, gain_low, gain_high; /* small transistors, see lanewick/trigger.h */
    double shunt_low_ohm, shunt_high_ohm;              /* a panel's own leak in the dark */
    double leak_a;                                     /* of its blocking diode, at most */
} lw_switch_parts;
/* A common 10 to 20 kohm photoresistor, E12 of 5 %, a bipolar comparator. */
lw_switch_parts lw_switch_parts_default(void);

typedef struct lw_switch_wish {
    lw_switch_kind kind;
    double wanted_lx;                 /* goes on below */
    double empty_v, middle_v, full_v; /* of the pack */
    double step_h, level;             /* full light for so long, then this level; used by the timed kinds */
    lw_switch_sensor sensor;
    double panel_isc_a, panel_vmp_v, panel_w; /* all panels together; used by the panel as sensor */
    int panels;
} lw_switch_wish;

/* By the sensor, resistor_ohm (Rb): photoresistor to minus, or bleeder across the panel; R1, R2 and R3: the
 * comparator's reference, or the trigger's three (lanewick/trigger.h). */
typedef struct lw_switch_values {
    lw_switch_sensor sensor;
    double resistor_ohm, r1_ohm, r2_ohm, r3_ohm;
    double low, high;         /* levels of the sensor's volts as parts of the supply, at the middle voltage */
    double delay_uf, delay_s; /* capacitor at the sensor; twice the light of switch-off must last so long */
    double panel_isc_a;       /* of the panels together when they are the sensor */
    int panels;
    double lux_on, lux_off;                                         /* middle of every band */
    double timer_ohm, timer_uf, timer_h, timer_low_h, timer_high_h; /* worst case; 0: none */
    int timer_stages;
    double dim_on_ohm, dim_off_ohm, dim_nf, dim_hz, level, level_low, level_high; /* 0: none */
    double standby_a; /* mean of day and night at the middle voltage */
} lw_switch_values;

/* LW_NOT_COMPUTABLE: the resistors at hand, or the comparator at the empty pack, cannot do it; says what would. */
LW_MUST_CHECK bool lw_switch_values_for(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out,
                                        lw_error *err);
/* The bands of such a switch at a supply, for lw_dusk_tolerance() and lw_dusk_draws(): the resistors' tolerance and
 * 0.8 % for 40 K of warmth (200 ppm/K); the photoresistor's band 10 % wider either way, since cadmium sulphide changes
 * by about 0.5 % a kelvin at 10 lx, 20 K either side of the 25 degC of its label (curves of data sheets, from memory);
 * the comparator's offset as a part of the supply, so that the empty pack spreads most. */
lw_dusk_parts lw_switch_bands(const lw_switch_parts *parts, const lw_switch_values *values, double supply_v);
/* The spread of any sensor at a supply: as lw_dusk_tolerance() and lw_dusk_draws(). Transistors and panel from 5 to 45
 * degC; the panel's current within 10 %. */
LW_MUST_CHECK bool lw_switch_tolerance(const lw_switch_parts *parts, const lw_switch_values *values, double supply_v,
                                       size_t samples, lw_arena *arena, lw_dusk_spread *on, lw_dusk_spread *off,
                                       lw_error *err);
LW_MUST_CHECK bool lw_switch_draws(const lw_switch_parts *parts, const lw_switch_values *values, double supply_v,
                                   size_t samples, double *lux_on, double *lux_off, lw_error *err);

/* Counter with oscillator: hours until output `stages` rises, 2^(stages-1) periods of factor R C. */
double lw_timer_h(double ohm, double farad, int stages, double factor);
/* Resistor that charges a capacitor from one third to two thirds of the supply in that time: t = ln 2 R C. */
double lw_dimmer_ohm(double seconds, double farad);

#endif
