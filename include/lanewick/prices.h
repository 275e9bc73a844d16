/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Price lists: as a table, and as a part of a brief.
 */
#ifndef LANEWICK_PRICES_H
#define LANEWICK_PRICES_H

#include "lanewick/arena.h"
#include "lanewick/csv.h"
#include "lanewick/price.h"

/* The line of a list that tells the wage of one hour. */
extern const char lw_price_wage_name[]; /* "hour at the bench" */

/* Columns: name (needed), price, date, shop, consumables, bench_min, loss_pct, at_hand, sold_by, spares_a_year, tool
 * (yes, no). Empty fields and columns that are not there leave what is known; other columns are an error. */
typedef struct lw_prices_table {
    lw_csv csv;
    int column[11];
} lw_prices_table;
LW_MUST_CHECK bool lw_prices_open(const char *bytes, size_t length, lw_arena *arena, lw_prices_table *out,
                                  lw_error *err);
/* The name of a row; errors: none, too long. */
LW_MUST_CHECK bool lw_prices_name(const lw_prices_table *table, size_t row, char name[LW_PRICE_NAME], lw_error *err);
/* The row over what is known; *priced: it tells a price or consumables. Errors name line and column. */
LW_MUST_CHECK bool lw_prices_row(const lw_prices_table *table, size_t row, int decimals, lw_price *price, bool *priced,
                                 lw_error *err);

typedef struct lw_price_list {
    lw_currency currency;
    lw_price *price;
    size_t count;
} lw_price_list;

/* The brief with the lines of the list that it can use: parts of its shelf, tools, the wage. Lines and wage of the
 * brief's own stay. LW_WRONG_INPUT: another currency. free(*out). */
LW_MUST_CHECK bool lw_brief_with_prices(const char *brief, size_t length, const lw_price_list *list, char **out,
                                        lw_error *err);

/* {"currency", "decimals", "prices": [as in a brief]}; free() it. */
LW_MUST_CHECK char *lw_price_list_to_json(const lw_price_list *list);

#endif
