/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A price list as part of a brief: see lanewick/prices.h.
 */
#include "lanewick/prices.h"

#include "json_help.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

/* An amount as a JSON number that reads back exactly: fifteen digits hold every amount that is accepted. */
static json_t *amount(const lw_currency *currency, int64_t minor)
{
    return currency->decimals == 0 ? json_integer((json_int_t)minor) : json_real(lw_money_number(currency, minor));
}

static json_t *line_of(const lw_currency *currency, const lw_price *price)
{
    json_t *out = json_pack("{s:o}", "name", lw_json_text(price->name));
    if (price->priced)
        json_object_set_new(out, "price", amount(currency, price->price_minor));
    if (price->date[0])
        json_object_set_new(out, "date", lw_json_text(price->date));
    if (price->shop[0])
        json_object_set_new(out, "shop", lw_json_text(price->shop));
    if (price->consumables_minor)
        json_object_set_new(out, "consumables", amount(currency, price->consumables_minor));
    if (price->bench_min)
        json_object_set_new(out, "bench_min", json_integer(price->bench_min));
    if (price->loss_pm)
        json_object_set_new(out, "loss_pct", json_real(price->loss_pm / 10.0));
    if (price->at_hand)
        json_object_set_new(out, "at_hand", json_integer(price->at_hand));
    if (price->sold_by > 1)
        json_object_set_new(out, "sold_by", json_integer(price->sold_by));
    if (price->spares_pm >= 0)
        json_object_set_new(out, "spares_a_year", json_real(price->spares_pm / 1000.0));
    if (price->tool)
        json_object_set_new(out, "tool", json_true());
    return out;
}

static bool same_name(const json_t *entry, const char *name)
{
    const char *other = json_string_value(json_object_get(entry, "name"));
    return other && strcasecmp(other, name) == 0;
}

static bool listed(const json_t *list, const char *name)
{
    for (size_t i = 0; i < json_array_size(list); i++)
        if (same_name(json_array_get(list, i), name))
            return true;
    return false;
}

/* Whether a part of the shelf, or what every mast takes, has this name. */
static bool on_the_shelf(const json_t *shelf, const char *name)
{
    static const char *const lists[] = {"panels", "cells", "chargers", "boards", "drivers", "parts", "masts"};
    static const char *const always[] = {"cement, bag of 50 kg", "bolts, clamps and lock nuts for a mast, set",
                                         "dusk switch made by hand, its parts"};
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++)
        if (listed(json_object_get(shelf, lists[i]), name))
            return true;
    for (size_t i = 0; i < sizeof always / sizeof always[0]; i++)
        if (strcasecmp(always[i], name) == 0)
            return true;
    return false;
}

static bool same_currency(const json_t *shelf, const lw_currency *currency, lw_error *err)
{
    const json_t *own = json_object_get(shelf, "currency");
    const char *text = json_string_value(json_object_get(own, "text"));
    const json_t *decimals = json_object_get(own, "decimals");
    const int wanted = json_is_integer(decimals) ? (int)json_integer_value(decimals) : 2;
    if (text && strcmp(text, currency->text) == 0 && wanted == currency->decimals)
        return true;
    return lw_fail(err, LW_WRONG_INPUT, "shelf.currency",
                   "The price list is in %s with %d decimals, shelf.currency of the brief is another; prices are not "
                   "changed from one money to another.",
                   currency->text, currency->decimals);
}

static void add_lines(json_t *shelf, const lw_price_list *list)
{
    json_t *prices = json_object_get(shelf, "prices");
    if (!json_is_array(prices)) {
        prices = json_array();
        json_object_set_new(shelf, "prices", prices);
    }
    for (size_t i = 0; i < list->count && json_array_size(prices) < LW_SHELF_PRICES; i++) {
        const lw_price *price = &list->price[i];
        if (strcasecmp(price->name, lw_price_wage_name) == 0) {
            if (price->priced && !json_object_get(shelf, "wage_per_hour"))
                json_object_set_new(shelf, "wage_per_hour", amount(&list->currency, price->price_minor));
        } else if (!listed(prices, price->name) && (price->tool ? price->priced : on_the_shelf(shelf, price->name))) {
            json_array_append_new(prices, line_of(&list->currency, price));
        }
    }
}

bool lw_brief_with_prices(const char *brief, size_t length, const lw_price_list *list, char **out, lw_error *err)
{
    *out = NULL;
    json_t *json = lw_json_parse(brief, length, err);
    if (!json)
        return false;
    json_t *shelf = json_object_get(json, "shelf");
    bool done = true;
    if (json_is_object(shelf) && list->count > 0) { /* else the brief's reader says what is wrong */
        done = same_currency(shelf, &list->currency, err);
        if (done)
            add_lines(shelf, list);
    }
    if (done) {
        *out = json_dumps(json, JSON_COMPACT | JSON_REAL_PRECISION(15));
        done = *out || lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the brief.");
    }
    json_decref(json);
    return done;
}

char *lw_price_list_to_json(const lw_price_list *list)
{
    json_t *lines = json_array();
    for (size_t i = 0; i < list->count; i++)
        json_array_append_new(lines, line_of(&list->currency, &list->price[i]));
    json_t *out = json_pack("{s:s,s:i,s:o}", "currency", list->currency.text, "decimals", list->currency.decimals,
                            "prices", lines);
    char *text = out ? json_dumps(out, JSON_COMPACT | JSON_REAL_PRECISION(15)) : NULL;
    json_decref(out);
    return text;
}
