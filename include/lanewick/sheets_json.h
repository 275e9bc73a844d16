/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lists of printed sheets as JSON: what lies in a folder, what a plan can be asked for.
 */
#ifndef LANEWICK_SHEETS_JSON_H
#define LANEWICK_SHEETS_JSON_H

#include "lanewick/error.h"
#include "lanewick/sheets_written.h"

#include <stddef.h>

typedef struct lw_sheet_file {
    char name[120];    /* of the file, or of the sheet where there is no file: "pack-1-path" */
    const char *title; /* in the person's language */
    const char *group; /* bench, market, mast, handover, labels */
    const char *lamp;  /* the kind of lamp, "" for sheets of the whole plan */
    size_t pages;
} lw_sheet_file;

/* {"files": [{"file", "title", "for", "pages"}], "removed": [names]}; free() it; NULL when memory is out. */
LW_MUST_CHECK char *lw_sheet_files_to_json(const lw_sheet_file *files, size_t count, const lw_written *removed);

typedef struct lw_sheets_said {
    const char *code; /* of the plan, as printed on each sheet */
    const char *language;
    const char *const *languages; /* code and name by turns: "en", "English", "fr", ... */
    size_t language_count;
    const lw_sheet_file *files;
    size_t count;
} lw_sheets_said;

/* {"plan": code, "language", "languages": [{"code", "name"}], "sheets": [{"name", "title", "for", "lamp", "pages"}]};
 * free() it; NULL when memory is out. */
LW_MUST_CHECK char *lw_sheets_to_json(const lw_sheets_said *said);

#endif
