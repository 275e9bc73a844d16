/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A small direct-current circuit solver: modified nodal analysis (Ho, Ruehli & Brennan 1975, IEEE Trans. CAS 22, 504)
 * with Newton's method, junction steps limited as in Nagel (1975, ERL-M520), and pseudo-transient continuation when
 * that fails.
 *
 *     lw_netlist net;
 *     if (lw_netlist_begin(&net, 16, &arena, &err)) {
 *         const int plus = lw_netlist_node(&net), led = lw_netlist_node(&net);
 *         lw_netlist_add(&net, (lw_element){.kind = LW_VOLTAGE, .a = plus, .b = 0, .value = 12.0});
 *         lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = plus, .b = led, .value = 470.0});
 *         lw_netlist_add(&net, (lw_element){.kind = LW_DIODE, .a = led, .b = 0, .value = 1e-19, .ideality = 2.6});
 *     }
 */
#ifndef LANEWICK_NETLIST_H
#define LANEWICK_NETLIST_H

#include "lanewick/arena.h"
#include "lanewick/error.h"

#include <stddef.h>

typedef enum lw_element_kind {
    LW_RESISTANCE, /* value: ohm, > 0 */
    LW_VOLTAGE,    /* value: volt of a over b */
    LW_CURRENT,    /* value: ampere that flows through it from a to b */
    LW_DIODE,      /* anode a; value: saturation current; ideality (times the number in series) */
    LW_TRANSISTOR, /* collector a, emitter b, base c; value: saturation current; gain, early_v; NPN unless pnp */
    LW_CONTROLLED, /* resistance from a to b: value ohm while c is above threshold_v, off_ohm below */
    LW_COMPARATOR, /* drives a to the voltage of b (supply) while c is above d, else to ground; value: gain 1/V */
    LW_SINK,       /* current from a to b that stays at value once the voltage passes threshold_v */
    LW_CHARGER     /* from a (input) to b (output), both over ground; see lw_charger_element */
} lw_element_kind;

/* What a charger element does: output current the smallest of value, (full_v - output) / regulation_ohm and
 * (input - start_v) / input_ohm, where a linear charger (efficiency 0) starts at the output's voltage plus start_v and
 * passes its current through; a step-down one takes output power over efficiency from its input and ends besides at
 * (input - output - dropout_v) / input_ohm. */
typedef struct lw_charger_element {
    double full_v, regulation_ohm, start_v, input_ohm, efficiency, dropout_v;
} lw_charger_element;

typedef struct lw_element {
    lw_element_kind kind;
    int a, b, c, d; /* nodes; 0 is ground */
    double value;
    double ideality, gain, early_v, threshold_v, off_ohm;
    bool pnp;
    lw_charger_element charger;
    const char *name; /* may be NULL */
} lw_element;

typedef struct lw_netlist {
    lw_element *elements;
    size_t count, room;
    int nodes; /* besides ground, numbered from 1 */
    double celsius;
} lw_netlist;

/* An empty netlist with room for that many elements, at 27 degC. */
LW_MUST_CHECK bool lw_netlist_begin(lw_netlist *net, size_t room, lw_arena *arena, lw_error *err);
int lw_netlist_node(lw_netlist *net);
/* Number of the element; SIZE_MAX when the netlist is full (the solver then fails). */
size_t lw_netlist_add(lw_netlist *net, lw_element element);

typedef struct lw_solution {
    double *node_v;    /* [nodes + 1], ground first */
    double *element_a; /* [count] from a to b; transistor: collector current; comparator: into its output;
                          charger: output current */
    int iterations;
} lw_solution;

/* start: node voltages to begin with ([nodes + 1]) or NULL; a circuit with two states ends in the one it begins near.
 * LW_NOT_COMPUTABLE when no operating point is found, naming a floating node when there is one. */
LW_MUST_CHECK bool lw_netlist_solve(const lw_netlist *net, const double *start, lw_arena *arena, lw_solution *out,
                                    lw_error *err);

/* Output current of a charger element at these voltages over ground, and its two derivatives. */
double lw_charger_current(const lw_element *element, double input_v, double output_v, double *per_input,
                          double *per_output);

#endif
