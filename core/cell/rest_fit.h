/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The line of the leak under the relaxation.
 */
#ifndef LANEWICK_REST_FIT_H
#define LANEWICK_REST_FIT_H

#include "lanewick/cell_test.h"

typedef struct lw_rest_line {
    double from_d, at_start_v; /* where the line begins */
    double k_v_d, k_sd_v_d;    /* fall per day */
    double relaxation_v, relaxation_d;
    size_t used;
} lw_rest_line;

/* digit_sd_v: standard uncertainty of one reading against the next with the same meter. */
lw_rest_line lw_rest_fit(const double *days_d, const double *volts_v, size_t n, double digit_sd_v);

#endif
