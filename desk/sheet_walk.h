/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One sheet of a plan after the other, by kind of sheet and kind of lamp.
 */
#ifndef LANEWICK_SHEET_WALK_H
#define LANEWICK_SHEET_WALK_H

#include "lanewick/sheets.h"

typedef struct lw_sheet_item {
    const lw_sheet_kind *sheet;
    lw_sheet_input input;
    const char *lamp;             /* the kind of lamp, or the name of the plan */
    char kind_name[LW_NAME + 16]; /* "path (2)" where several are built of that kind; "" for sheets of the plan */
    char stem[100];               /* "pack-1-path" */
    const char *plan_code;        /* in the header */
} lw_sheet_item;

/* false ends the walk. */
typedef bool lw_sheet_visit(void *payload, const lw_sheet_item *item);

/* All sheets of a group that have something to print, in the order of the register; grid: name of the label grid,
 * "auto" for what fits best. LW_REFUSED: the plan is refused. LW_WRONG_INPUT: no such group or grid. */
LW_MUST_CHECK bool lw_sheet_walk(const lw_plan *plan, const char *group, const char *grid, lw_sheet_visit *visit,
                                 void *payload, lw_error *err);

/* The head of the item's pages. */
lw_sheet_head lw_sheet_item_head(const lw_sheet_item *item, const lw_words *words, const char *date);

#endif
