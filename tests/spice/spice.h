/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The same netlist in a general circuit solver (ngspice as a shared library).
 */
#ifndef LANEWICK_SPICE_H
#define LANEWICK_SPICE_H

#include "lanewick/netlist.h"

#include <stdbool.h>

/* Node voltages of the operating point, v[0 .. nodes]; start as for lw_netlist_solve. False when it finds none. */
bool spice_solve(const lw_netlist *net, const double *start, double *v);

/* One resistance swept in even steps of the logarithm of its ohms, each step from the one before, so that a circuit of
 * two states stays in its own until it must leave it. */
typedef struct spice_ramp {
    const lw_netlist *net;
    size_t swept; /* the resistance's element */
    int watched;  /* a node, and the level that it crosses when the state turns over */
    double level_v;
    double from, to; /* natural logarithm of the ohms */
    double celsius;  /* junctions are given at 25 degC and follow the solver's own laws of warmth */
} spice_ramp;
/* Where the watched node turned over. False: it did not. */
bool spice_sweep(const spice_ramp *ramp, double *at);

#endif
