/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The register of sheets: one line each in sheet/register.c, one file each.
 */
#ifndef LANEWICK_SHEETS_H
#define LANEWICK_SHEETS_H

#include "lanewick/bill.h"
#include "lanewick/labels.h"
#include "lanewick/lamp_build.h"
#include "lanewick/plan.h"
#include "lanewick/plan_code.h"
#include "lanewick/sheet.h"

/* What a sheet is drawn from. A refused plan has no sheets. */
typedef struct lw_sheet_input {
    const lw_plan *plan;
    const lw_plan_kind *kind;   /* NULL for sheets of the whole plan */
    const lw_lamp_build *build; /* of that kind of lamp; NULL likewise */
    const lw_bill *bill;
    const lw_price_move *move;
    size_t move_count;
    const lw_label_grid *grid; /* of the labels; NULL: as lw_label_grid_for chooses */
} lw_sheet_input;

typedef struct lw_sheet_kind {
    const char *name;                            /* "pack": part of the file's name */
    const char *group;                           /* bench, market, mast, handover, labels */
    const char *title;                           /* English */
    bool each_kind;                              /* one for each kind of lamp; else one for the plan */
    bool bare;                                   /* no header and footer: labels */
    bool (*wanted)(const lw_sheet_input *input); /* NULL: always; else whether there is something to print */
    lw_sheet_draw *draw;                         /* payload: lw_sheet_input */
} lw_sheet_kind;

extern const lw_sheet_kind *const lw_sheet_kinds[];
extern const size_t lw_sheet_kind_count;

#endif
