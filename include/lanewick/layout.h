/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Where masts go on a straight lane so that a class is met: for each number of masts the height, side and tilt that
 * need the fewest lumens.
 *
 * The light of a layout is linear in the lumens of its heads, so one evaluation with 1 lm tells how many are needed:
 * the largest of wanted average over average, wanted minimum over minimum (and wanted face light over face light). A
 * uniformity does not depend on the lumens: a layout that misses it is left out.
 */
#ifndef LANEWICK_LAYOUT_H
#define LANEWICK_LAYOUT_H

#include "lanewick/lane.h"

enum { LW_LAYOUT_CHOICES = 16, LW_LAYOUT_MAX_MASTS = 120 };

typedef enum lw_side { LW_SIDE_ONE, LW_SIDE_STAGGERED, LW_SIDE_MIDDLE } lw_side;

typedef struct lw_layout_wish {
    double length_m, width_m;                                      /* 1..2000, 0.5..50 */
    double offset_m;                                               /* masts stand so far outside the edge, 0..10 */
    double average_lx, minimum_lx, uniformity, semicylindrical_lx; /* maintained; 0: not asked for */
    double maintenance;
    lw_beam beam; /* of 1 lm: peak for one lumen, or a table and the lumens it holds */
    double table_lumens;
    double heights_m[LW_LAYOUT_CHOICES], tilts_deg[LW_LAYOUT_CHOICES];
    size_t height_count, tilt_count;
    bool sides[3]; /* lw_side: may it be used */
    size_t fewest_masts, most_masts;
    double most_lumens; /* of one head; 0: no limit */
} lw_layout_wish;

typedef struct lw_layout {
    size_t masts;
    lw_side side;
    double height_m, tilt_deg, spacing_m;
    double lumens_each; /* of a new head, so that the wish holds at the stated maintenance */
    lw_field_sum light; /* maintained, with those lumens */
} lw_layout;

/* Places the lamps of a layout: spacing length/masts, the first half a spacing from the end. lamps has room for masts.
 */
void lw_layout_lamps(const lw_layout_wish *wish, const lw_layout *layout, lw_lamp *lamps);

/* The best layout for each number of masts from fewest to most that can meet the wish, in rising number of masts;
 * count may be 0. out has room for most - fewest + 1. Errors: ranges, no choice of height, tilt or side. */
LW_MUST_CHECK bool lw_layout_search(const lw_layout_wish *wish, lw_arena *arena, lw_layout *out, size_t *count,
                                    lw_error *err);

#endif
