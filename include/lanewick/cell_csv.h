/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A list of tested cells as a table (lanewick/csv.h), columns in any order: cell_id, capacity_ah, resistance_mohm;
 * may be there: capacity_sd_ah, voltage_class, verdict, marking. Other columns are passed over and named.
 */
#ifndef LANEWICK_CELL_CSV_H
#define LANEWICK_CELL_CSV_H

#include "lanewick/csv.h"
#include "lanewick/match.h"

typedef struct lw_cell_list {
    lw_lot_cell *cells;
    size_t n;
    bool decimal_commas;
    const char *passed_over; /* names of columns that were not used, "" for none */
    const char *doubt;       /* something odd that was accepted, "" for none */
} lw_cell_list;

/* Bytes of arena needed; 0: too long. */
size_t lw_cell_csv_memory(const char *bytes, size_t length);

/* Errors besides those of the table: a needed column missing (a near name is guessed), a cell without id or
 * capacity, an id twice, values below 0, capacity and resistance in each other's column. */
LW_MUST_CHECK bool lw_cell_csv_read(const char *bytes, size_t length, lw_arena *arena, lw_cell_list *out,
                                    lw_error *err);

#endif
