/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A trial of a wired charger as a table (lanewick/csv.h): columns panel_v, panel_a, pack_v, pack_a, a reading a row.
 */
#ifndef LANEWICK_TRIAL_CSV_H
#define LANEWICK_TRIAL_CSV_H

#include "lanewick/csv.h"

enum { LW_TRIAL_READINGS = 2000 };

typedef struct lw_trial_log {
    size_t readings; /* at least 3 */
    double *panel_v, *panel_a, *pack_v, *pack_a;
} lw_trial_log;

size_t lw_trial_csv_memory(const char *bytes, size_t length);
/* Errors besides those of the table: a column or a number that lacks, a number out of range, under 3 or too many rows.
 */
LW_MUST_CHECK bool lw_trial_csv_read(const char *bytes, size_t length, lw_arena *arena, lw_trial_log *out,
                                     lw_error *err);

#endif
