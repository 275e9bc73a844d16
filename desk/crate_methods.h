/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inside the desk: one test on its way from readings to results.
 */
#ifndef LANEWICK_CRATE_METHODS_H
#define LANEWICK_CRATE_METHODS_H

#include "lanewick/desk_crate.h"

typedef struct lw_test_work {
    lw_store *store;
    const lw_cell_test *test;
    lw_cell_record cell;
    lw_test_record record;
    lw_meter meter;
    double load_ohm, load_tolerance_pct;
    lw_result_record *results; /* [LW_TEST_RESULTS] */
    int count;
} lw_test_work;

/* A usual hand-held meter where none is named: 0.5 % of the reading and 2 digits of 1 mV (common practice). */
extern const lw_meter lw_usual_meter;

/* Runs the method's calculation of core/cell; the results are filled, without ids. */
LW_MUST_CHECK bool lw_test_compute(lw_test_work *work, lw_error *err);

#endif
