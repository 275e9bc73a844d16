/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The RC pair of a pulse.
 */
#ifndef LANEWICK_PULSE_FIT_H
#define LANEWICK_PULSE_FIT_H

#include "lanewick/cell_test.h"

typedef struct lw_pulse_shape {
    const lw_log *log;
    size_t first, last;    /* samples of the pulse */
    double rest_v, rest_a; /* before the step */
    double start_s;
} lw_pulse_shape;

/* Least squares of (V0 - V) / I = r0 + r1 (1 - exp(-t / tau)). False with fewer than 6 samples or 2 s, or when no
 * rising part is found. */
bool lw_pulse_fit(const lw_pulse_shape *shape, double *r0_ohm, double *r1_ohm, double *tau_s);

#endif
