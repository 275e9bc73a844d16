/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What reserving cells and planning with them share: the cells of the store as a lot, codes for packs.
 */
#ifndef LANEWICK_CRATE_GATHER_H
#define LANEWICK_CRATE_GATHER_H

#include "lanewick/brief_cells.h"
#include "lanewick/store.h"

typedef struct lw_gathered {
    lw_lot_cell *cells; /* id is the code */
    char (*ids)[LW_ID]; /* in the store */
    size_t n;
    double health; /* mean capacity as a share of that when new, of the cells where it is on record; NAN: of none */
    int left[LW_LEFT_REASONS];
} lw_gathered;

/* Cells of a class with a known capacity that sit in no pack and are sound (with tired: or tired). crate: a code; NULL:
 * of all crates. With count_left also what is left out and why, of a crate whose cells are all looked at. */
typedef struct lw_gather_ask {
    const char *crate, *voltage_class;
    bool tired, count_left;
} lw_gather_ask;
LW_MUST_CHECK bool lw_gather_cells(lw_store *store, const lw_gather_ask *ask, lw_arena *arena, lw_gathered *out,
                                   lw_error *err);
/* Bytes of arena for the cells of a store. */
size_t lw_gather_memory(lw_store *store);

/* The next free code of the form P1, P2, ... or, for pack `number` of several, the given one counted up. */
LW_MUST_CHECK bool lw_pack_code(lw_store *store, const char *given, int number, char out[LW_CODE], lw_error *err);

#endif
