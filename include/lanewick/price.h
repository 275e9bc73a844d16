/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a piece really costs: the price as bought or picked up, what makes it fit for use, and those that are lost on
 * the way. All in whole smallest units of the currency (lanewick/money.h), so that sums are exact.
 */
#ifndef LANEWICK_PRICE_H
#define LANEWICK_PRICE_H

#include "lanewick/error.h"
#include "lanewick/money.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum {
    LW_SHELF_PRICES = 64, /* of one shelf */
    LW_PRICE_NAME = 64,   /* as LW_NAME */
    LW_PRICE_BENCH = 600, /* most minutes at the bench for one piece */
    LW_PRICE_LOSS = 900   /* most per mille that may be lost */
};

typedef struct lw_price {
    char name[LW_PRICE_NAME];    /* of the part on the shelf, or of a tool */
    char shop[LW_PRICE_NAME];    /* "": not told */
    char date[12];               /* of the price: 2026-11-02; "": not told */
    char told_as[LW_PRICE_NAME]; /* of a price in another money: "USD 12.50, at K 2 700"; "": in the shelf's own */
    bool priced;                 /* false: the price is the shelf's own */
    bool tool;                   /* bought once, in no lamp */
    int64_t price_minor;         /* of one piece as bought */
    int64_t consumables_minor;   /* used up for each piece: tabs, sleeves, electricity of the test */
    int bench_min;               /* minutes at the bench for each piece, also for those that are lost */
    int loss_pm;                 /* per mille: found unfit, spoilt in the making, cut off */
    int at_hand;                 /* pieces that are there and paid; none of them looked at yet */
    int sold_by;                 /* pieces of one purchase, 1 or more */
    int spares_pm;               /* spare pieces for each lamp and year, per mille; -1: not told */
} lw_price;

/* A piece with nothing told but its name. */
lw_price lw_price_blank(const char *name);
/* One good piece in a lamp: (price + consumables + bench time x wage) / (1 - loss), rounded up. Prices and wage up to
 * lw_price_max_minor. */
int64_t lw_price_true_minor(const lw_price *price, int64_t wage_minor_per_hour);
/* Pieces to bring together so that `good` remain: good / (1 - loss), rounded up. */
int64_t lw_price_pieces(const lw_price *price, int64_t good);
/* The same name, capitals or not; NULL: none. */
const lw_price *lw_price_find(const lw_price *list, size_t count, const char *name);

/* "12.50", "1 250", "12,5" exactly in smallest units; field names it in errors. */
LW_MUST_CHECK bool lw_price_read(const char *field, const char *text, int decimals, int64_t *minor, lw_error *err);

#endif
