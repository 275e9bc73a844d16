/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The laws of single parts: current and derivative at a voltage.
 */
#ifndef LANEWICK_DEVICE_H
#define LANEWICK_DEVICE_H

#include "lanewick/netlist.h"

/* I_s (exp(v / slope) - 1), straight beyond 10 kA so that nothing overflows. */
double lw_junction_current(double volts, double slope_v, double saturation_a, double *conductance);
/* Where the junction's curve bends most (Nagel 1975). */
double lw_junction_knee(double slope_v, double saturation_a);
/* The next junction voltage: no more than a logarithmic step where the exponential is steep (Nagel 1975). */
double lw_junction_limit(double wanted_v, double last_v, double slope_v, double saturation_a);

typedef struct lw_transistor_point {
    double collector_a, base_a;
    double collector_per_be, collector_per_bc, base_per_be, base_per_bc;
} lw_transistor_point;
/* As an NPN, Ebers and Moll with the Early voltage; reverse gain 1. */
void lw_transistor_at(const lw_element *element, double be_v, double bc_v, double thermal_v, lw_transistor_point *out);

/* Between off_ohm and value, half way at threshold_v, within about 0.2 V; derivative by the control voltage. */
double lw_controlled_conductance(const lw_element *element, double control_v, double *slope);
/* Part of the supply at a comparator's output, 0 to 1, and its derivative by the input difference. */
double lw_comparator_share(const lw_element *element, double difference_v, double *slope);
/* value x tanh(2 v / threshold), nothing backwards. */
double lw_sink_current(const lw_element *element, double volts, double *slope);

#endif
