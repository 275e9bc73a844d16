/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The workshop's shelf and price list in its store.
 */
#ifndef LANEWICK_DESK_SHELF_H
#define LANEWICK_DESK_SHELF_H

#include "lanewick/prices.h"
#include "lanewick/store.h"

/* The lines of a table (lanewick/prices.h) into the store: parts, and prices under their day (none told: today). All or
 * nothing. currency->text "": that of the prices which are there, when they are in one. spoken: errors name no line.
 * *count: lines. */
LW_MUST_CHECK bool lw_desk_shelf_take(lw_store *store, const char *bytes, size_t length, const lw_currency *currency,
                                      bool spoken, size_t *count, lw_error *err);
/* A part and all its prices; the journal keeps them. LW_WRONG_INPUT: there is none of that name. */
LW_MUST_CHECK bool lw_desk_shelf_remove(lw_store *store, const char *name, lw_error *err);

/* Everything with the latest price of each part in each money; free(list->line). name: of one part, NULL: all. */
LW_MUST_CHECK bool lw_desk_shelf_list(lw_store *store, const char *name, lw_price_list *list, lw_error *err);

/* The brief with the store's prices; store NULL, no such file or nothing on the shelf: *out is NULL and the brief stays
 * as it is. free(*out). */
LW_MUST_CHECK bool lw_desk_brief_prices(const char *store, const char *brief, size_t length, lw_priced_brief *how,
                                        char **out, lw_error *err);

/* One part changed by somebody who has seen it as it was: two who change the same part do not undo each other. */
typedef struct lw_shelf_reply {
    enum { LW_SHELF_TAKEN, LW_SHELF_CHANGED, LW_SHELF_GONE } outcome; /* the last two: nothing is stored */
    char *part; /* as it stands now, JSON; NULL: it is not there (any more). free() */
} lw_shelf_reply;
LW_MUST_CHECK bool lw_desk_shelf_change(lw_store *store, const lw_shelf_change *change, lw_shelf_reply *reply,
                                        lw_error *err);

/* ---- short visits: each call opens the store and closes it; who: for the journal ---- */

/* {"parts": [...]} (lw_price_list_to_json), empty when there is no store yet; free(*json). */
LW_MUST_CHECK bool lw_desk_shelf_json(const char *store, char **json, lw_error *err);
/* A change (lw_shelf_change_read); the first one makes the store. */
LW_MUST_CHECK bool lw_desk_shelf_change_json(const char *store, const char *who, const char *text, size_t length,
                                             lw_shelf_reply *reply, lw_error *err);

#endif
