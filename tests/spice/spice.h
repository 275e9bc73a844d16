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

#endif
