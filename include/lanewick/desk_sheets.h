/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wishes about paper: the sheets of a plan, as files or one by one.
 */
#ifndef LANEWICK_DESK_SHEETS_H
#define LANEWICK_DESK_SHEETS_H

#include "lanewick/plan.h"
#include "lanewick/sheets.h"
#include "lanewick/sheets_json.h"
#include "lanewick/sheets_written.h"

typedef struct lw_sheets_request {
    const lw_plan *plan;
    const lw_words *words;
    const char *group;  /* bench, market, mast, handover, labels, all */
    const char *grid;   /* of labels: a name of lanewick/labels.h, or auto */
    const char *prefix; /* of every file's name, such as "fr-" when several languages are printed; "" for none */
    const char *date;   /* printed on every sheet: 2026-11-25 */
    lw_paper paper;     /* SVG and PNG: one file a page */
} lw_sheets_request;

enum { LW_SHEETS_MOST = 1000 };

/* Writes the sheets into the folder, each whole or not at all, and adds them to files[], which has room for
 * LW_SHEETS_MOST and holds *count already. A refused plan gets none: LW_REFUSED. */
LW_MUST_CHECK bool lw_desk_sheets(const lw_sheets_request *request, const char *folder, lw_sheet_file *files,
                                  size_t *count, lw_error *err);

/* When all files of a run lie in their folder: notes them in the list beside them (lanewick/sheets_written.h), and
 * removes those that an earlier run wrote there of another plan, as long as nobody changed them; they come in *removed.
 * count 0: nothing was printed; then a list is written only where one was. */
LW_MUST_CHECK bool lw_desk_sheets_tidy(const lw_plan *plan, const char *folder, const lw_sheet_file *files,
                                       size_t count, lw_written *removed, lw_error *err);

/* Today's date on this machine's clock, as sheets carry it. */
void lw_desk_today(char out[16]);

/* What is asked for by people who read in a browser; texts as they came. */
typedef struct lw_sheet_ask {
    const lw_plan *plan;
    const char *language; /* code */
    const char *group;    /* as above */
    const char *name;     /* of one sheet of the list, or "all": those of the group in one PDF */
    const char *grid;     /* of labels, as above */
    const char *paper;    /* pdf, svg, png */
    size_t page;          /* from 1; of SVG and PNG */
    bool prints;          /* the PDF asks the viewer for its printing dialogue when it is opened */
} lw_sheet_ask;

/* The list of a group with page counts as JSON (lanewick/sheets_json.h). free(*json). */
LW_MUST_CHECK bool lw_desk_sheet_list(const lw_sheet_ask *ask, char **json, lw_error *err);

typedef struct lw_sheet_bytes {
    unsigned char *bytes; /* free() */
    size_t length;
    const char *type; /* media type */
    char file[120];   /* name for keeping it */
} lw_sheet_bytes;

/* One sheet, or all of a group. An error in field "name": the plan has no such sheet. */
LW_MUST_CHECK bool lw_desk_sheet_bytes(const lw_sheet_ask *ask, lw_sheet_bytes *out, lw_error *err);

#endif
