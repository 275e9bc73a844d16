/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Money as whole minor units (cents, or whole units where the currency has none), so that sums are exact.
 */
#ifndef LANEWICK_MONEY_H
#define LANEWICK_MONEY_H

#include <stddef.h>
#include <stdint.h>

typedef struct lw_currency {
    char text[12]; /* as people there write it: "K", "Rs", "USD" */
    int decimals;  /* 0..3 */
} lw_currency;

/* The most that one price may be, so that no sum of a plan can overflow [minor units]. */
static const int64_t lw_price_max_minor = 10000000000;

/* What one whole unit of one money costs in another, as told by a person on a day. */
typedef struct lw_rate {
    lw_currency of, in;
    int64_t minor; /* of `in`, 1 or more */
    char date[12];
} lw_rate;

/* Amount in the other money, rounded up to its smallest unit; rate may tell either direction. Moneys of the same text
 * need none: only the decimals differ. -1: the rate is of other moneys, or more than lw_price_max_minor comes out. */
int64_t lw_money_changed(int64_t minor, const lw_currency *from, const lw_currency *to, const lw_rate *rate);

/* "K 12 500" or "USD 12.50": thousands set apart by a space, the currency's decimals. Returns out. */
char *lw_money_text(const lw_currency *currency, int64_t minor, char *out, size_t size);
/* The same with spaces at which no line is broken (U+00A0). */
char *lw_money_joined(const lw_currency *currency, int64_t minor, char *out, size_t size);
/* The same without the currency, for tables that name it in their head. */
char *lw_money_digits(const lw_currency *currency, int64_t minor, char *out, size_t size);
/* An amount of whole units that is no sum of prices, such as a mean, as the nearest whole number of minor units; it is
 * finite and below lw_price_max_minor. */
int64_t lw_money_nearest(const lw_currency *currency, double units);

/* The amount in whole currency units, for JSON: exact to 15 digits. */
double lw_money_number(const lw_currency *currency, int64_t minor);

#endif
