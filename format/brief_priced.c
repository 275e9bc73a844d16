/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A price list as part of a brief: see lanewick/prices.h.
 */
#include "lanewick/prices.h"

#include "json_help.h"
#include "price_json.h"

#include <stdio.h>
#include <string.h>
#include <strings.h>

static json_t *line_of(const lw_currency *currency, const lw_price *price)
{
    json_t *out = json_pack("{s:o}", "name", lw_json_text(price->name));
    if (price->priced)
        json_object_set_new(out, "price", lw_price_amount(currency, price->price_minor));
    if (price->date[0])
        json_object_set_new(out, "date", lw_json_text(price->date));
    if (price->shop[0])
        json_object_set_new(out, "shop", lw_json_text(price->shop));
    if (price->told_as[0])
        json_object_set_new(out, "told_as", lw_json_text(price->told_as));
    if (price->consumables_minor)
        json_object_set_new(out, "consumables", lw_price_amount(currency, price->consumables_minor));
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

lw_currency lw_brief_money(const json_t *shelf)
{
    lw_currency out = {"units", 2};
    const json_t *own = json_object_get(shelf, "currency");
    const char *text = json_string_value(json_object_get(own, "text"));
    const json_t *decimals = json_object_get(own, "decimals");
    if (text)
        (void)snprintf(out.text, sizeof out.text, "%s", text);
    if (json_is_integer(decimals) && json_integer_value(decimals) >= 0 && json_integer_value(decimals) <= 3)
        out.decimals = (int)json_integer_value(decimals);
    return out;
}

/* The line "1 USD" with a price in the other money. */
static bool rate_line(const lw_price_list *list, const lw_currency *of, const lw_currency *in, lw_rate *out)
{
    char name[sizeof of->text + 2];
    (void)snprintf(name, sizeof name, "1 %s", of->text);
    for (size_t i = 0; i < list->count; i++) {
        const lw_price_line *line = &list->line[i];
        if (strcasecmp(line->price.name, name) != 0 || strcmp(line->currency.text, in->text) != 0)
            continue;
        *out = (lw_rate){.of = *of, .in = line->currency, .minor = line->price.price_minor};
        (void)snprintf(out->date, sizeof out->date, "%s", line->price.date);
        return true;
    }
    return false;
}

static bool change_money(const lw_price_list *list, const lw_price_line *line, const lw_currency *to, lw_price *price,
                         lw_error *err)
{
    lw_rate rate = {0};
    const lw_currency *from = &line->currency;
    char was[48], at[48];
    const bool same = strcmp(from->text, to->text) == 0;
    if (!same && !rate_line(list, from, to, &rate) && !rate_line(list, to, from, &rate))
        return lw_fail(err, LW_WRONG_INPUT, "shelf.currency",
                       "The price of \"%s\" is told in %s, the brief counts in %s. Tell it in %s too, or the rate: "
                       "lanewick shelf set \"1 %s\" price=... --currency %s.",
                       price->name, from->text, to->text, to->text, from->text, to->text);
    price->price_minor = lw_money_changed(price->price_minor, from, to, &rate);
    price->consumables_minor = lw_money_changed(price->consumables_minor, from, to, &rate);
    if (price->price_minor < 0 || price->consumables_minor < 0)
        return lw_fail(err, LW_WRONG_INPUT, "shelf.currency",
                       "The price of \"%s\" cannot be changed into %s: the rate is 0, or it would be more than 10 000 "
                       "000 000 smallest units.",
                       price->name, to->text);
    if (!same)
        (void)snprintf(price->told_as, sizeof price->told_as, "%s; 1 %s = %s, %s",
                       lw_money_text(from, line->price.price_minor, was, sizeof was), rate.of.text,
                       lw_money_text(&rate.in, rate.minor, at, sizeof at), rate.date);
    return true;
}

/* The price of a part in the money of the brief: told in it, or changed by a rate. */
static bool price_in(const lw_price_list *list, size_t from, const lw_currency *money, lw_price *out,
                     lw_priced_brief *how, lw_error *err)
{
    const size_t lines = lw_price_lines_of_part(list, from);
    const lw_price_line *line = &list->line[from];
    for (size_t i = from; i < from + lines; i++)
        if (strcmp(list->line[i].currency.text, money->text) == 0)
            line = &list->line[i];
    *out = line->price;
    if (!line->currency.text[0])
        return true;
    how->changed += strcmp(line->currency.text, money->text) != 0;
    return change_money(list, line, money, out, err);
}

static void put_line(json_t *prices, const lw_currency *money, const lw_price *price, bool replace)
{
    for (size_t i = 0; i < json_array_size(prices); i++)
        if (same_name(json_array_get(prices, i), price->name)) {
            if (replace)
                json_array_set_new(prices, i, line_of(money, price));
            return;
        }
    if (json_array_size(prices) < LW_SHELF_PRICES)
        json_array_append_new(prices, line_of(money, price));
}

/* One part of the list, where the brief can use it. */
static bool add_part(json_t *shelf, json_t *prices, const lw_price_list *list, size_t from, lw_priced_brief *how,
                     lw_error *err)
{
    const lw_price *known = &list->line[from].price;
    const lw_currency money = lw_brief_money(shelf);
    const bool wage = strcasecmp(known->name, lw_price_wage_name) == 0;
    const bool own = wage ? json_object_get(shelf, "wage_per_hour") != NULL : listed(prices, known->name);
    const bool fits = wage || known->tool ? known->priced : on_the_shelf(shelf, known->name);
    lw_price price;
    if (!fits || (own && !how->replace))
        return true;
    if (!price_in(list, from, &money, &price, how, err))
        return false;
    if (wage)
        json_object_set_new(shelf, "wage_per_hour", lw_price_amount(&money, price.price_minor));
    else
        put_line(prices, &money, &price, how->replace);
    how->used++;
    return true;
}

static bool add_lines(json_t *shelf, const lw_price_list *list, lw_priced_brief *how, lw_error *err)
{
    json_t *prices = json_object_get(shelf, "prices");
    bool done = true;
    if (!json_is_array(prices)) {
        prices = json_array();
        json_object_set_new(shelf, "prices", prices);
    }
    for (size_t i = 0; done && i < list->count; i += lw_price_lines_of_part(list, i))
        done = add_part(shelf, prices, list, i, how, err);
    return done;
}

bool lw_brief_with_prices(const char *brief, size_t length, const lw_price_list *list, lw_priced_brief *how, char **out,
                          lw_error *err)
{
    *out = NULL;
    how->used = how->changed = 0;
    json_t *json = lw_json_parse(brief, length, err);
    if (!json)
        return false;
    json_t *shelf = json_object_get(json, "shelf");
    bool done = json_is_object(json) || lw_fail(err, LW_WRONG_INPUT, "", "A brief must be a JSON object.");
    if (done && json_is_object(shelf) && list->count > 0) /* else the brief's reader says what is wrong */
        done = add_lines(shelf, list, how, err);
    if (done) {
        *out = json_dumps(json, JSON_COMPACT | JSON_REAL_PRECISION(LW_MONEY_DIGITS));
        done = *out || lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the brief.");
    }
    json_decref(json);
    return done;
}

char *lw_priced_brief_to_json(const char *brief, const lw_priced_brief *how)
{
    json_t *json = json_loads(brief, 0, NULL);
    json_t *out = json ? json_pack("{s:I,s:I,s:o}", "used", (json_int_t)how->used, "changed", (json_int_t)how->changed,
                                   "brief", json)
                       : NULL;
    char *text = out ? json_dumps(out, JSON_COMPACT | JSON_REAL_PRECISION(LW_MONEY_DIGITS)) : NULL;
    json_decref(out);
    return text;
}
