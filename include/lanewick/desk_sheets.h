/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wishes about paper: the sheets of a plan as files.
 */
#ifndef LANEWICK_DESK_SHEETS_H
#define LANEWICK_DESK_SHEETS_H

#include "lanewick/plan.h"
#include "lanewick/sheets.h"

typedef struct lw_sheets_request {
    const lw_plan *plan;
    const lw_words *words;
    const char *group;  /* bench, market, mast, handover, labels, all */
    const char *prefix; /* of every file's name, such as "fr-" when several languages are printed; "" for none */
    const char *date;   /* printed on every sheet: 2026-11-25 */
    lw_paper paper;     /* SVG and PNG: one file a page */
} lw_sheets_request;

typedef struct lw_sheet_file {
    char name[120];
    const char *title;
    size_t pages;
} lw_sheet_file;

enum { LW_SHEETS_MOST = 1000 };

/* Writes the sheets into the folder, each whole or not at all, and adds them to files[], which has room for
 * LW_SHEETS_MOST and holds *count already. A refused plan gets none: LW_REFUSED. */
LW_MUST_CHECK bool lw_desk_sheets(const lw_sheets_request *request, const char *folder, lw_sheet_file *files,
                                  size_t *count, lw_error *err);

#endif
