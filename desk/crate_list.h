/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inside the desk: a list of JSON texts growing in memory.
 */
#ifndef LANEWICK_CRATE_LIST_H
#define LANEWICK_CRATE_LIST_H

#include "lanewick/store.h"

#include <stdio.h>

typedef struct lw_json_list {
    FILE *out;
    size_t size;
    int count, limit;
    bool full; /* memory is out */
    char last[LW_ID];
} lw_json_list;

/* Opens the store and begins the text. */
LW_MUST_CHECK bool lw_json_list_begin(const char *path, lw_store **store, lw_json_list *list, char **json,
                                      lw_error *err);
void lw_json_list_add(lw_json_list *list, char *text); /* which it frees */
/* done: what went before; false takes the text away. */
LW_MUST_CHECK bool lw_json_list_end(lw_json_list *list, bool done, char **json, lw_error *err);

/* {"name": [every record of the table, as add writes it]}. add gets the list as its payload. */
LW_MUST_CHECK bool lw_json_list_table(const char *path, const char *name, lw_table table, lw_visit *add, char **json,
                                      lw_error *err);

#endif
