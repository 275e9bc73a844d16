/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Label grids on A4 that are common in the trade, named by labels across and down: "3x8". Lengths in mm.
 */
#ifndef LANEWICK_LABELS_H
#define LANEWICK_LABELS_H

#include <stdbool.h>
#include <stddef.h>

typedef struct lw_label_grid {
    const char *name;
    int across, down;
    double width_mm, height_mm;    /* of a label */
    double left_mm, top_mm;        /* of the first one */
    double pitch_x_mm, pitch_y_mm; /* from one to the next */
    bool cut_lines;                /* labels touch: plain paper is cut along printed lines */
    bool tells_itself;             /* no rim for plan, date and bar: the last place of each page holds them */
} lw_label_grid;

extern const lw_label_grid lw_label_grids[];
extern const size_t lw_label_grid_count;

/* Places for labels on one page. */
size_t lw_label_places(const lw_label_grid *grid);

/* NULL: there is none of that name. */
const lw_label_grid *lw_label_grid_find(const char *name);

/* For plain paper when nothing is asked for: 3x8, or the denser 4x10 where the last page of 3x8 would hold fewer than a
 * quarter of its labels and 4x10 takes fewer pages without such a last page. */
const lw_label_grid *lw_label_grid_for(size_t labels);

#endif
