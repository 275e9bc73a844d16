/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Elements of a netlist as rows and columns of the linear system of one Newton step.
 */
#ifndef LANEWICK_STAMP_H
#define LANEWICK_STAMP_H

#include "lanewick/netlist.h"

typedef struct lw_system_step {
    const lw_netlist *net;
    int size;         /* nodes and branch currents */
    double *matrix;   /* [size][size] */
    double *right;    /* [size] */
    const double *v;  /* node voltages of the last step, ground first */
    double *junction; /* [2 per element] voltages of the junctions in the last step, limited */
    bool limited;     /* a junction was held back in this step */
    double thermal_v;
} lw_system_step;

/* Branch currents (voltage sources, comparators) take the places after the nodes, in order of the elements. */
bool lw_element_has_branch(const lw_element *element);

/* The junctions' first voltages: those of the start, at most the knee. */
void lw_stamp_begin(lw_system_step *step);

/* Adds element i; branch is the place of its branch current (counted in the system) or -1. */
void lw_stamp(lw_system_step *step, size_t i, int branch);

/* Current of element i at the node voltages v, as in lw_solution; branch_a is its branch current. */
double lw_element_current(const lw_netlist *net, size_t i, const double *v, double branch_a, double thermal_v);

#endif
