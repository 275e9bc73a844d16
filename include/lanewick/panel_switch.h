/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dusk switch that uses the panel itself as its sensor: a bleeder across the panel, before the blocking diode, and a
 * comparator with a reference of R1 (to the supply), R2 (to ground), R3 (from its output). In dim light the panel is a
 * current source in proportion to the light. docs/models/dusk-switch.md.
 */
#ifndef LANEWICK_PANEL_SWITCH_H
#define LANEWICK_PANEL_SWITCH_H

#include "lanewick/dusk.h"
#include "lanewick/eseries.h"

/* From the panel to the comparator's input: noon's volts drive less than 1 mA through it (common practice). */
static const double lw_panel_input_ohm = 47e3;

typedef struct lw_panel_switch {
    double isc_a;     /* of all panels together, at 100,000 lx */
    double shunt_ohm; /* their own leak together */
    double bleeder_ohm, r1_ohm, r2_ohm, r3_ohm;
    double leak_a;   /* of the blocking diode, into the panel */
    double offset_v; /* of the comparator, with what its input current makes over lw_panel_input_ohm */
    double supply_v;
} lw_panel_switch;

/* Panel volts and light at which the lamp goes on and off. LW_NOT_COMPUTABLE: a diode's leak alone holds the lamp off.
 */
LW_MUST_CHECK bool lw_panel_switch_at(const lw_panel_switch *s, double *on_v, double *off_v, double *lux_on,
                                      double *lux_off, lw_error *err);

typedef struct lw_panel_switch_parts {
    lw_panel_switch middle;
    double isc_part;                      /* the panel's current, either way, as a part of one */
    double shunt_low_ohm, shunt_high_ohm; /* of all panels together */
    double tolerance;                     /* of the four resistors, as a part of one */
    double leak_a, offset_v;              /* leak from 0 to this; offset either way */
    double bleed_part_ohm;                /* a bleeder of so many ohm would take the panel's whole power */
} lw_panel_switch_parts;

/* Chooses bleeder, R1, R2 and R3 among those at hand so that the light scatters least; the other fields of
 * parts->middle are given. LW_NOT_COMPUTABLE names what would help. */
LW_MUST_CHECK bool lw_panel_switch_choose(const lw_resistors *at_hand, double wanted_lx, lw_panel_switch_parts *parts,
                                          lw_error *err);
/* As lw_dusk_draws() and lw_dusk_tolerance(). */
LW_MUST_CHECK bool lw_panel_switch_draws(const lw_panel_switch_parts *parts, size_t samples, uint64_t seed,
                                         double *lux_on, double *lux_off, lw_error *err);
LW_MUST_CHECK bool lw_panel_switch_tolerance(const lw_panel_switch_parts *parts, size_t samples, uint64_t seed,
                                             lw_arena *arena, lw_dusk_spread *on, lw_dusk_spread *off, lw_error *err);

#endif
