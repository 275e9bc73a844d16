/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The store's price list as JSON: see lanewick/prices.h.
 */
#include "lanewick/prices.h"

#include "json_help.h"
#include "lanewick/hash.h"
#include "price_json.h"

#include <inttypes.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

json_t *lw_price_amount(const lw_currency *currency, int64_t minor)
{
    /* fifteen digits hold every amount that is accepted */
    return currency->decimals == 0 ? json_integer((json_int_t)minor) : json_real(lw_money_number(currency, minor));
}

size_t lw_price_lines_of_part(const lw_price_list *list, size_t from)
{
    size_t to = from + 1;
    while (to < list->count && strcasecmp(list->line[to].price.name, list->line[from].price.name) == 0)
        to++;
    return to - from;
}

static json_t *price_of(const lw_price_line *line)
{
    const lw_price *price = &line->price;
    return json_pack("{s:o,s:i,s:o,s:o,s:o,s:o}", "currency", lw_json_text(line->currency.text), "decimals",
                     line->currency.decimals, "price", lw_price_amount(&line->currency, price->price_minor),
                     "consumables", lw_price_amount(&line->currency, price->consumables_minor), "date",
                     lw_json_text(price->date), "shop", lw_json_text(price->shop));
}

static json_t *part_of(const lw_price_line *line, size_t count)
{
    const lw_price *price = &line->price;
    json_t *prices = json_array();
    for (size_t i = 0; i < count; i++)
        if (line[i].currency.text[0])
            json_array_append_new(prices, price_of(&line[i]));
    return json_pack("{s:o,s:b,s:i,s:i,s:i,s:o,s:o,s:o}", "name", lw_json_text(price->name), "tool", price->tool,
                     "at_hand", price->at_hand, "sold_by", price->sold_by, "bench_min", price->bench_min, "loss_pct",
                     json_real(price->loss_pm / 10.0), "spares_a_year",
                     price->spares_pm >= 0 ? json_real(price->spares_pm / 1000.0) : json_null(), "prices", prices);
}

/* Of what is known. */
static void mark_of(const json_t *part, char mark[LW_PRICE_MARK])
{
    char *text = part ? json_dumps(part, JSON_COMPACT | JSON_REAL_PRECISION(LW_MONEY_DIGITS)) : NULL;
    (void)snprintf(mark, LW_PRICE_MARK, "%016" PRIx64, lw_hash(lw_hash_begin, text, text ? strlen(text) : 0));
    free(text);
}

static json_t *marked(const lw_price_line *line, size_t count)
{
    char mark[LW_PRICE_MARK];
    json_t *part = part_of(line, count);
    mark_of(part, mark);
    json_object_set_new(part, "mark", json_string(mark));
    return part;
}

void lw_price_mark(const lw_price_line *line, size_t count, char mark[LW_PRICE_MARK])
{
    json_t *part = part_of(line, count);
    mark_of(part, mark);
    json_decref(part);
}

static char *written(json_t *json)
{
    char *text = json ? json_dumps(json, JSON_COMPACT | JSON_REAL_PRECISION(LW_MONEY_DIGITS)) : NULL;
    json_decref(json);
    return text;
}

char *lw_price_part_to_json(const lw_price_line *line, size_t count)
{
    return written(marked(line, count));
}

char *lw_price_list_to_json(const lw_price_list *list)
{
    json_t *parts = json_array();
    for (size_t i = 0, n; i < list->count; i += n) {
        n = lw_price_lines_of_part(list, i);
        json_array_append_new(parts, marked(&list->line[i], n));
    }
    return written(json_pack("{s:o}", "parts", parts));
}
