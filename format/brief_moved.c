/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A brief with one price moved: see lanewick/prices.h.
 */
#include "lanewick/prices.h"

#include "json_help.h"
#include "price_json.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

/* The object of a list with this name, NULL: none. */
static json_t *of_list(const json_t *list, const char *name)
{
    for (size_t i = 0; i < json_array_size(list); i++) {
        json_t *entry = json_array_get(list, i);
        const char *other = json_string_value(json_object_get(entry, "name"));
        if (other && strcasecmp(other, name) == 0)
            return entry;
    }
    return NULL;
}

/* Where the price of the thing stands: its line of the price list before the part itself. */
static json_t *place_of(json_t *shelf, const char *name, const char **key)
{
    static const char *const lists[] = {"panels", "cells", "chargers", "boards", "drivers", "parts", "masts"};
    *key = "price";
    json_t *found = of_list(json_object_get(shelf, "prices"), name);
    if (json_object_get(found, *key))
        return found;
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        found = of_list(json_object_get(shelf, lists[i]), name);
        if (json_object_get(found, *key))
            return found;
    }
    *key = "wage_per_hour";
    return strcasecmp(name, lw_price_wage_name) == 0 && json_object_get(shelf, *key) ? shelf : NULL;
}

/* "+50%", "-20 %"; false: no such share. */
static bool share_of(const char *text, double *factor)
{
    char *end = NULL;
    const double percent = strtod(text, &end);
    end += strspn(end, " ");
    if ((text[0] != '+' && text[0] != '-') || strcmp(end, "%") != 0 || !(percent >= -100.0 && percent <= 10000.0))
        return false;
    *factor = 1.0 + percent / 100.0;
    return true;
}

static bool move_to(const lw_currency *money, const char *change, lw_moved_price *moved, lw_error *err)
{
    double factor = 1.0;
    if (!share_of(change, &factor))
        return lw_price_read("if", change, money->decimals, &moved->to_minor, err);
    const double to = ceil((double)moved->from_minor * factor - 1e-6);
    moved->to_minor = (int64_t)to;
    return to <= (double)lw_price_max_minor ||
           lw_fail(err, LW_WRONG_INPUT, "if", "No piece may cost more than 10 000 000 000 smallest units.");
}

static bool move_it(json_t *shelf, lw_moved_price *moved, const char *change, lw_error *err)
{
    const char *key;
    const lw_currency money = lw_brief_money(shelf);
    json_t *place = place_of(shelf, moved->name, &key);
    if (!place)
        return lw_fail(err, LW_WRONG_INPUT, "if",
                       "The brief tells no price of \"%s\"; give the name of a part with a price, a tool, or \"%s\".",
                       moved->name, lw_price_wage_name);
    moved->from_minor = llround(json_number_value(json_object_get(place, key)) * pow(10.0, money.decimals));
    if (!move_to(&money, change, moved, err))
        return false;
    json_object_set_new(place, key, lw_price_amount(&money, moved->to_minor));
    return true;
}

bool lw_brief_move_price(const char *brief, size_t length, const char *change, lw_moved_price *moved, char **out,
                         lw_error *err)
{
    *out = NULL;
    const char *equals = strrchr(change, '=');
    const size_t letters = equals ? (size_t)(equals - change) : 0;
    if (letters == 0 || letters >= sizeof moved->name)
        return lw_fail(err, LW_WRONG_INPUT, "if",
                       "\"%.60s\" is no name and price, as in \"20 W panel=36000\" or \"20 W panel=+50%%\".", change);
    *moved = (lw_moved_price){.from_minor = 0};
    memcpy(moved->name, change, letters);
    json_t *json = lw_json_parse(brief, length, err);
    bool done = json && move_it(json_object_get(json, "shelf"), moved, equals + 1, err);
    if (done) {
        *out = json_dumps(json, JSON_COMPACT | JSON_REAL_PRECISION(LW_MONEY_DIGITS));
        done = *out || lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the brief.");
    }
    json_decref(json);
    return done;
}
