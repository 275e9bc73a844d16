/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Which cells of a list a pack may hold.
 */
#ifndef LANEWICK_USABLE_H
#define LANEWICK_USABLE_H

#include "lanewick/match.h"

typedef struct lw_unusable {
    int scrap, unsure, other_class;
} lw_unusable;

/* Whether a pack of this class may hold the cell; what may not is counted. */
bool lw_cell_usable(const lw_lot_cell *cell, const char *class, lw_unusable *out);
/* For qsort: by capacity, then by id. */
int lw_stronger_first(const void *a, const void *b);

#endif
