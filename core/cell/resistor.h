/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inner steps of the constant-resistor discharge.
 */
#ifndef LANEWICK_RESISTOR_H
#define LANEWICK_RESISTOR_H

#include "lanewick/cell_test.h"

/* The run boiled down: what was drawn, where it stood at the end. */
typedef struct lw_run_sums {
    double loop_ohm;               /* through which the cell's voltage drives the current */
    double drawn_ah, drawn_wh;     /* whole log */
    double to_end_ah;              /* to the crossing of end_v, or whole log when not reached */
    double coarse_ah;              /* whole log from every second reading: shows the error of straight lines */
    double slope_v_ah;             /* loaded voltage against charge at the end, negative */
    double first_v, last_v;        /* across the cell */
    double last_a, mean_a, mean_v; /* at the last reading; means over the run */
    double first_after_s;          /* of the first reading after connecting */
    bool finished;
} lw_run_sums;

bool lw_run_sum(const lw_resistor_run *run, lw_run_sums *sums, lw_error *err);

/* What a run stopped early would still have given down to end_v at the small current, from the shape of the
 * class's open voltage curves. */
bool lw_run_remaining(const lw_resistor_run *run, const lw_run_sums *sums, double rate_a, double slow_ohm,
                      double *remaining_ah, double *sd_ah, lw_error *err);

#endif
