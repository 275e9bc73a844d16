/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inner pieces of the one-diode curve, shared by the files of the panel.
 */
#ifndef LANEWICK_CORE_POWER_DIODE_H
#define LANEWICK_CORE_POWER_DIODE_H

#include "lanewick/panel.h"

/* Current and its slope [A/V] at the voltage u = V + I Rs over the diode. */
double lw_diode_junction_a(const lw_diode *d, double u);
double lw_diode_slope_s(const lw_diode *d, double u);

/* I0 at a cell temperature as a share of I0 at 25 degC (De Soto eqs. 18, 19). */
double lw_saturation_share(double cell_c);

/* n = 1.2 (or less where that is too soft) without shunt through Isc, Voc and one point of the curve, at the
 * given kT/q times cells. shunt_ohm may be INFINITY. */
bool lw_diode_through_point(double voc_v, double isc_a, double point_v, double point_a, double ideality_v,
                            double shunt_ohm, lw_diode *out);

#endif
