/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the documents that hold prices share.
 */
#ifndef LANEWICK_PRICE_JSON_H
#define LANEWICK_PRICE_JSON_H

#include "lanewick/money.h"

#include <jansson.h>

/* An amount as a JSON number that reads back exactly. */
json_t *lw_price_amount(const lw_currency *currency, int64_t minor);
/* The money of a brief's shelf, as its reader takes it. */
lw_currency lw_brief_money(const json_t *shelf);

#endif
