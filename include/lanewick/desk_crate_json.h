/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Crates and cells of a store as JSON, for readers that come and go: each call opens the store and closes it.
 */
#ifndef LANEWICK_DESK_CRATE_JSON_H
#define LANEWICK_DESK_CRATE_JSON_H

#include "lanewick/error.h"

enum { LW_CELLS_PAGE = 500 }; /* most cells of one answer */

/* {"crates": [{"code", "name", "origin", "received", "note"}]}; free(*json). */
LW_MUST_CHECK bool lw_desk_crates_json(const char *store, char **json, lw_error *err);

typedef struct lw_cells_ask {
    const char *crate;   /* code; NULL: of all crates */
    const char *search;  /* beginning of code or marking; NULL: all */
    const char *verdict; /* NULL: all */
    const char *after;   /* code of the last cell of the page before; NULL: from the first */
    int limit;           /* 1..LW_CELLS_PAGE */
} lw_cells_ask;

/* {"cells": [...], "after": the code to ask on with, null at the end}; a search gives one page only. LW_WRONG_INPUT: no
 * such store or crate. free(*json). */
LW_MUST_CHECK bool lw_desk_cells_json(const char *store, const lw_cells_ask *ask, char **json, lw_error *err);

/* One cell as in the lists; LW_WRONG_INPUT: no such store or cell. free(*json). */
LW_MUST_CHECK bool lw_desk_cell_json(const char *store, const char *code, char **json, lw_error *err);

/* {"tests": [readings and results of each, oldest first], "after": the id to ask on with, null at the end};
 * free(*json).
 */
LW_MUST_CHECK bool lw_desk_tests_json(const char *store, const char *cell, const char *after, int limit, char **json,
                                      lw_error *err);

/* {"tools": [meters, resistors, chargers]}; free(*json). */
LW_MUST_CHECK bool lw_desk_tools_json(const char *store, char **json, lw_error *err);

/* {"runs": [discharges under way, with their readings in the order of time]}; LW_WRONG_INPUT: no such store.
 * free(*json). */
LW_MUST_CHECK bool lw_desk_runs_json(const char *store, char **json, lw_error *err);

typedef struct lw_packs_ask {
    const char *plan;  /* code of the plan whose packs these are; NULL: of all */
    const char *after; /* id of the last pack of the page before; NULL: from the first */
    int limit;         /* 1..LW_CELLS_PAGE */
} lw_packs_ask;
/* {"packs": [each with its cells group by group], "after": the id to ask on with, null at the end}; LW_WRONG_INPUT: no
 * such store or plan. free(*json). */
LW_MUST_CHECK bool lw_desk_packs_json(const char *store, const lw_packs_ask *ask, char **json, lw_error *err);

/* Takes a pack apart (lw_desk_free): {"pack", "cells": how many are free again}. who: for the journal. LW_WRONG_INPUT:
 * no such pack, or apart already. free(*json). */
LW_MUST_CHECK bool lw_desk_apart_json(const char *store, const char *who, const char *pack, char **json, lw_error *err);

/* Reserves the cells that a plan's document names (lw_desk_use_plan): {"plan": code, "packs": [codes], "cells": count};
 * who: for the journal. free(*json). */
LW_MUST_CHECK bool lw_desk_use_plan_json(const char *store, const char *who, const char *plan, char **json,
                                         lw_error *err);

#endif
