/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wishes about one cell, for every door alike.
 */
#ifndef LANEWICK_DESK_CELL_H
#define LANEWICK_DESK_CELL_H

#include "lanewick/log_csv.h"

/* From the bytes to the answer. */
LW_MUST_CHECK bool lw_desk_cell_log(const char *bytes, size_t length, const lw_log_columns *columns, double end_v,
                                    double at_s, lw_arena *arena, lw_log_answer *out, lw_error *err);

#endif
