/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Price lists: as a table, and as a part of a brief.
 */
#ifndef LANEWICK_PRICES_H
#define LANEWICK_PRICES_H

#include "lanewick/arena.h"
#include "lanewick/csv.h"
#include "lanewick/plan.h"
#include "lanewick/price.h"

/* The line of a list that tells the wage of one hour. */
extern const char lw_price_wage_name[]; /* "hour at the bench" */

/* Columns: name (needed), price, date, shop, consumables, bench_min, loss_pct, at_hand, sold_by, spares_a_year, tool
 * (yes, no). Empty fields and columns that are not there leave what is known; other columns are an error. */
typedef struct lw_prices_table {
    lw_csv csv;
    int column[11];
    bool spoken; /* said in words, not read from a file: errors name no line */
} lw_prices_table;
/* The error of a row, with its line where the table is a file. Returns false. */
bool lw_prices_wrong(const lw_prices_table *table, size_t row, const lw_error *inner, lw_error *err);
LW_MUST_CHECK bool lw_prices_open(const char *bytes, size_t length, lw_arena *arena, lw_prices_table *out,
                                  lw_error *err);
/* The name of a row; errors: none, too long. */
LW_MUST_CHECK bool lw_prices_name(const lw_prices_table *table, size_t row, char name[LW_PRICE_NAME], lw_error *err);
/* The row over what is known; *priced: it tells a price or consumables. Errors name line and column. */
LW_MUST_CHECK bool lw_prices_row(const lw_prices_table *table, size_t row, int decimals, lw_price *price, bool *priced,
                                 lw_error *err);

/* What the store knows of one part: the latest price in each money that it was told in. Lines of a part stand together,
 * the first of them tells the rest (at hand, losses ...). */
typedef struct lw_price_line {
    lw_price price;
    lw_currency currency; /* text "": no price is known */
} lw_price_line;

typedef struct lw_price_list {
    lw_price_line *line;
    size_t count;
} lw_price_list;

typedef struct lw_priced_brief {
    bool replace;         /* lines and wage of the brief's own give way to those of the list, else they stay */
    size_t used, changed; /* out: lines of the list that the brief took; those of them told in another money */
} lw_priced_brief;

/* The brief with the lines of the list that it can use, in the money of the brief: parts of its shelf, tools, the wage.
 * A price in another money is taken where there is none in the brief's and a line named "1 USD" tells the rate, in
 * either direction. LW_WRONG_INPUT: such a price without a rate. free(*out). */
LW_MUST_CHECK bool lw_brief_with_prices(const char *brief, size_t length, const lw_price_list *list,
                                        lw_priced_brief *how, char **out, lw_error *err);

/* {"used", "changed", "brief"}; free() it. */
LW_MUST_CHECK char *lw_priced_brief_to_json(const char *brief, const lw_priced_brief *how);

/* {"parts": [{"name", "tool", "at_hand", ..., "mark", "prices": [{"currency", "decimals", "price", ...}]}]}; free() it.
 * The mark changes with whatever is known of the part. */
LW_MUST_CHECK char *lw_price_list_to_json(const lw_price_list *list);
/* One part as in that list; count: its lines. */
LW_MUST_CHECK char *lw_price_part_to_json(const lw_price_line *line, size_t count);

enum { LW_PRICE_MARK = 17 };
void lw_price_mark(const lw_price_line *line, size_t count, char mark[LW_PRICE_MARK]);
/* A change of one part as it comes from somebody who has seen it: {"name", "mark": as it was told, "" for a new part,
 * "remove": true, or "currency", "decimals" and "set": {keys of a price list: texts, numbers, true or false}}. */
typedef struct lw_shelf_change {
    char name[LW_PRICE_NAME], mark[LW_PRICE_MARK];
    lw_currency currency; /* text "": that of the store */
    char *table;          /* the keys and values as a table of one line; NULL: the part is removed. free() */
} lw_shelf_change;
LW_MUST_CHECK bool lw_shelf_change_read(const char *text, size_t length, lw_shelf_change *out, lw_error *err);

/* How many lines from here on are of one part. */
size_t lw_price_lines_of_part(const lw_price_list *list, size_t from);

typedef struct lw_moved_price {
    char name[LW_PRICE_NAME];
    int64_t from_minor, to_minor; /* of one piece as bought, or of an hour */
} lw_moved_price;
/* The brief with one price moved: change is "20 W panel=36000" or "20 W panel=+50%", also of a tool or the wage.
 * free(*out).
 */
LW_MUST_CHECK bool lw_brief_move_price(const char *brief, size_t length, const char *change, lw_moved_price *moved,
                                       char **out, lw_error *err);
/* What a moved price makes of a plan; all lamps at the moved price. free() it. */
LW_MUST_CHECK char *lw_plan_if_to_json(const lw_plan *then, const lw_moved_price *moved, int64_t stays_minor,
                                       int64_t anew_minor, bool changes);

#endif
