/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inner steps of the table reader.
 */
#ifndef LANEWICK_CSV_INSIDE_H
#define LANEWICK_CSV_INSIDE_H

#include "lanewick/csv.h"

/* UTF-8 text with line ends LF, zero-terminated beyond *made. */
char *lw_csv_to_text(const char *bytes, size_t length, lw_arena *arena, size_t *made, lw_error *err);

#endif
