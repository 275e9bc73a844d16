/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A logged discharge, charge or pulse of one cell as a table (lanewick/csv.h): time, volts and amperes in any columns.
 */
#ifndef LANEWICK_LOG_CSV_H
#define LANEWICK_LOG_CSV_H

#include "lanewick/cell_test.h"
#include "lanewick/csv.h"

enum { LW_LOG_FILTERS = 4 };

typedef struct lw_log_columns {
    const char *time, *volts, *amps; /* NULL: found by the usual names (time_s, voltage_v, current_a and the like) */
    const char *where[LW_LOG_FILTERS], *is[LW_LOG_FILTERS]; /* only rows whose column where holds is; NULL: no more */
    bool charge_positive;                                   /* the log counts charging as positive; turned round */
} lw_log_columns;

size_t lw_log_csv_memory(const char *bytes, size_t length);

/* Errors besides those of the table: a column that is not there, a row without a number, no row left. */
LW_MUST_CHECK bool lw_log_csv_read(const char *bytes, size_t length, const lw_log_columns *columns, lw_arena *arena,
                                   lw_log *out, lw_error *err);

/* What one log tells; a pulse only where at_s is above 0. */
typedef struct lw_log_answer {
    size_t samples;
    lw_log_charge charge;
    bool pulsed;
    lw_pulse pulse;
} lw_log_answer;
LW_MUST_CHECK char *lw_log_answer_json(const lw_log_answer *answer); /* free() it */

#endif
