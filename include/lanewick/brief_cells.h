/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cells that stand one by one in a brief, under shelf.cells[].cells; and writing there what a crate holds.
 * docs/brief.md.
 */
#ifndef LANEWICK_BRIEF_CELLS_H
#define LANEWICK_BRIEF_CELLS_H

#include "lanewick/brief.h"
#include "lanewick/cell_csv.h"

/* Bytes of arena that the cells of one entry of the shelf need. */
size_t lw_brief_cells_memory(size_t cells);
/* The cells of entry `kind` of the shelf, from a brief that lw_brief_from_json() takes. */
LW_MUST_CHECK bool lw_brief_cells(const char *text, size_t length, size_t kind, lw_arena *arena, lw_cell_list *out,
                                  lw_error *err);

/* What a crate has for a plan: the cells that it may use now, and how many it may not. */
typedef struct lw_crate_stock {
    const lw_lot_cell *cells;
    size_t n;
    double health;             /* mean capacity as a share of that when new; NAN: not on record */
    int left[LW_LEFT_REASONS]; /* cells that are not in the list, see lw_left_reason */
} lw_crate_stock;
typedef bool lw_crate_asked(void *payload, const char *crate, const char *voltage_class, lw_crate_stock *out,
                            lw_error *err);

/* *out: the brief with the cells of every crate that it names (and whose cells it does not hold already) written under
 * shelf.cells[].cells, so that its plan can be repeated without the store; free() it. NULL: it names none. */
LW_MUST_CHECK bool lw_brief_fill_crates(const char *text, size_t length, lw_crate_asked *asked, void *payload,
                                        char **out, lw_error *err);

/* Files that a brief names, read by the caller: the usable cells of a list (n = 0: it stays named), and the whole path
 * of a file ("": it stays as it is). */
typedef struct lw_brief_files {
    lw_crate_asked *cells;
    void (*path)(void *payload, const char *file, char *out, size_t size);
    void *payload;
} lw_brief_files;
/* *out: the brief with the cells beside their cells_file, and whole paths in the place of the weather_file and
 * intensity_file beside the brief; free() it. NULL: there is nothing to write. */
LW_MUST_CHECK bool lw_brief_fill_files(const char *text, size_t length, const lw_brief_files *files, char **out,
                                       lw_error *err);

#endif
