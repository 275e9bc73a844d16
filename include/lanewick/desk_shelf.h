/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The workshop's shelf and price list in its store.
 */
#ifndef LANEWICK_DESK_SHELF_H
#define LANEWICK_DESK_SHELF_H

#include "lanewick/prices.h"
#include "lanewick/store.h"

/* The lines of a table (lanewick/prices.h) into the store: parts, and prices under their day (none told: today). All or
 * nothing. currency->text "": that of the prices which are there. *count: lines. */
LW_MUST_CHECK bool lw_desk_shelf_take(lw_store *store, const char *bytes, size_t length, const lw_currency *currency,
                                      size_t *count, lw_error *err);

/* Everything with the latest price of each; free(list->price). A part without a price has priced false. */
LW_MUST_CHECK bool lw_desk_shelf_list(lw_store *store, lw_price_list *list, lw_error *err);

/* The brief with the store's prices; store NULL or no such file: *out is NULL and the brief stays as it is. free(*out).
 */
LW_MUST_CHECK bool lw_desk_brief_prices(const char *store, const char *brief, size_t length, char **out, lw_error *err);

#endif
