/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A price list as a table: see lanewick/prices.h.
 */
#include "lanewick/prices.h"

#include "lanewick/figure.h"
#include "lanewick/utc.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { NAME, PRICE, DATE, SHOP, CONSUMABLES, BENCH, LOSS, AT_HAND, SOLD_BY, SPARES, TOOL, COLUMNS };
static const char *const names[COLUMNS] = {"name",        "price",         "date",     "shop",
                                           "consumables", "bench_min",     "loss_pct", "at_hand",
                                           "sold_by",     "spares_a_year", "tool"};
const char lw_price_wage_name[] = "hour at the bench";

bool lw_prices_open(const char *bytes, size_t length, lw_arena *arena, lw_prices_table *out, lw_error *err)
{
    out->spoken = false;
    if (!lw_csv_read(bytes, length, arena, &out->csv, err))
        return false;
    for (size_t c = 0; c < out->csv.columns; c++) {
        size_t near = 0;
        for (size_t k = 1; k < COLUMNS; k++)
            if (lw_spelling_distance(names[k], out->csv.header[c]) <
                lw_spelling_distance(names[near], out->csv.header[c]))
                near = k;
        if (strcmp(names[near], out->csv.header[c]) != 0)
            return lw_fail(err, LW_WRONG_INPUT, out->csv.header[c],
                           "The column \"%.40s\" is not known in a price list; is %s meant?", out->csv.header[c],
                           names[near]);
    }
    for (size_t k = 0; k < COLUMNS; k++)
        out->column[k] = lw_csv_column(&out->csv, names[k]);
    return out->column[NAME] >= 0 ||
           lw_fail(err, LW_WRONG_INPUT, "name", "A price list needs a column \"name\" with the names of the parts.");
}

/* The field of a row, "" when it is empty or not there. */
static const char *field(const lw_prices_table *table, size_t row, int key)
{
    return lw_csv_text(&table->csv, row, table->column[key]);
}

bool lw_prices_wrong(const lw_prices_table *table, size_t row, const lw_error *inner, lw_error *err)
{
    if (table->spoken)
        return lw_fail(err, inner->family, inner->field, "%.300s", inner->message);
    return lw_fail(err, inner->family, inner->field, "Line %d: %.300s", table->csv.line[row], inner->message);
}

static bool wrong(const lw_prices_table *table, size_t row, int key, const char *possible, lw_error *err)
{
    lw_error inner = {0};
    return lw_fail(&inner, LW_WRONG_INPUT, names[key], "%s is \"%.40s\"; it must be %s.", names[key],
                   field(table, row, key), possible) ||
           lw_prices_wrong(table, row, &inner, err);
}

static bool text(const lw_prices_table *table, size_t row, int key, char *out, size_t size, lw_error *err)
{
    lw_error inner = {0};
    const char *given = field(table, row, key);
    if (strlen(given) >= size)
        return lw_fail(&inner, LW_WRONG_INPUT, names[key], "%s is longer than %zu letters.", names[key], size - 1) ||
               lw_prices_wrong(table, row, &inner, err);
    if (given[0])
        (void)snprintf(out, size, "%s", given);
    return true;
}

bool lw_prices_name(const lw_prices_table *table, size_t row, char name[LW_PRICE_NAME], lw_error *err)
{
    lw_error inner = {0};
    name[0] = '\0';
    if (!text(table, row, NAME, name, LW_PRICE_NAME, err))
        return false;
    return name[0] || lw_fail(&inner, LW_WRONG_INPUT, "name", "The part has no name.") ||
           lw_prices_wrong(table, row, &inner, err);
}

static bool money(const lw_prices_table *table, size_t row, int key, int decimals, int64_t *minor, bool *given,
                  lw_error *err)
{
    lw_error inner = {0};
    if (!field(table, row, key)[0])
        return true;
    *given = true;
    return lw_price_read(names[key], field(table, row, key), decimals, minor, &inner) ||
           lw_prices_wrong(table, row, &inner, err);
}

/* A number with so many decimals as a whole number of its smallest parts, read like an amount of money. */
static bool count(const lw_prices_table *table, size_t row, int key, int decimals, int64_t low, int64_t high, int *out,
                  lw_error *err)
{
    char possible[80];
    int64_t value = 0;
    lw_error inner = {0};
    int64_t whole = 1;
    for (int i = 0; i < decimals; i++)
        whole *= 10;
    if (!field(table, row, key)[0])
        return true;
    (void)snprintf(possible, sizeof possible, "a number from %lld to %lld with at most %d decimals",
                   (long long)(low / whole), (long long)(high / whole), decimals);
    if (!lw_price_read(names[key], field(table, row, key), decimals, &value, &inner) || value < low || value > high)
        return wrong(table, row, key, possible, err);
    *out = (int)value;
    return true;
}

static bool is_day(const char *date)
{
    lw_date day;
    lw_error ignored = {0};
    return lw_date_parse("date", date, &day, &ignored);
}

static bool tool(const lw_prices_table *table, size_t row, bool *out, lw_error *err)
{
    const char *given = field(table, row, TOOL);
    const bool yes = strcmp(given, "yes") == 0;
    if (given[0] && !yes && strcmp(given, "no") != 0)
        return wrong(table, row, TOOL, "yes or no", err);
    *out = given[0] ? yes : *out;
    return true;
}

bool lw_prices_row(const lw_prices_table *table, size_t row, int decimals, lw_price *price, bool *priced, lw_error *err)
{
    bool extra = false;
    *priced = false;
    if (!text(table, row, SHOP, price->shop, sizeof price->shop, err) ||
        !text(table, row, DATE, price->date, sizeof price->date, err))
        return false;
    if (price->date[0] && !is_day(price->date))
        return wrong(table, row, DATE, "a day such as 2026-11-02", err);
    if (!money(table, row, PRICE, decimals, &price->price_minor, priced, err) ||
        !money(table, row, CONSUMABLES, decimals, &price->consumables_minor, &extra, err) ||
        !count(table, row, BENCH, 0, 0, LW_PRICE_BENCH, &price->bench_min, err) ||
        !count(table, row, LOSS, 1, 0, LW_PRICE_LOSS, &price->loss_pm, err) ||
        !count(table, row, AT_HAND, 0, 0, 1000000, &price->at_hand, err) ||
        !count(table, row, SOLD_BY, 0, 1, 10000, &price->sold_by, err) ||
        !count(table, row, SPARES, 3, 0, 100000, &price->spares_pm, err) || !tool(table, row, &price->tool, err))
        return false;
    price->priced = price->priced || *priced;
    *priced = *priced || extra;
    return true;
}
