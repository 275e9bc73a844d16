/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The workshop's shelf: see lanewick/desk_shelf.h.
 */
#include "lanewick/desk_shelf.h"

#include "lanewick/desk_sheets.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { MOST_LINES = 5000, MOST_BYTES = 8 << 20 };

static lw_price price_of(const lw_part_record *part)
{
    lw_price price = lw_price_blank(part->name);
    price.tool = part->tool != 0;
    price.at_hand = part->at_hand;
    price.sold_by = part->sold_by;
    price.loss_pm = part->loss_pm;
    price.spares_pm = part->spares_pm;
    price.bench_min = part->bench_min;
    return price;
}

typedef struct latest {
    lw_price *price;
    lw_price_record record; /* of the price that counts now */
    bool found;
} latest;

/* The latest day counts; of two shops on one day the one that was written later. */
static bool later(void *payload, const void *record)
{
    latest *l = payload;
    const lw_price_record *one = record;
    if (!l->found || strcmp(one->at, l->record.at) >= 0)
        l->record = *one;
    l->found = true;
    return true;
}

static bool find_price(lw_store *store, const char *name, lw_price *price, latest *l, lw_error *err)
{
    *l = (latest){.price = price};
    if (!lw_store_each(store, LW_PRICE_NOTES, "thing", name, later, l, err))
        return false;
    if (l->found) {
        price->priced = true;
        price->price_minor = l->record.minor;
        price->consumables_minor = l->record.consumables_minor;
        (void)snprintf(price->date, sizeof price->date, "%s", l->record.at);
        (void)snprintf(price->shop, sizeof price->shop, "%s", l->record.shop);
    }
    return true;
}

static bool keep_part(lw_store *store, lw_part_record *part, const lw_price *price, lw_error *err)
{
    part->tool = price->tool;
    part->at_hand = price->at_hand;
    part->sold_by = price->sold_by;
    part->loss_pm = price->loss_pm;
    part->spares_pm = price->spares_pm;
    part->bench_min = price->bench_min;
    return lw_store_put(store, LW_PARTS, part, err);
}

/* A price of the same day and shop is corrected, another one stands beside it. */
static bool keep_price(lw_store *store, const latest *l, const lw_price *price, const lw_currency *currency,
                       const char *today, lw_error *err)
{
    lw_price_record record = {
        .minor = price->price_minor, .consumables_minor = price->consumables_minor, .decimals = currency->decimals};
    (void)snprintf(record.thing, sizeof record.thing, "%s", price->name);
    (void)snprintf(record.currency, sizeof record.currency, "%s", currency->text);
    (void)snprintf(record.at, sizeof record.at, "%.10s", price->date[0] ? price->date : today);
    (void)snprintf(record.shop, sizeof record.shop, "%s", price->shop);
    if (l->found && strcmp(l->record.at, record.at) == 0 && strcmp(l->record.shop, record.shop) == 0)
        memcpy(record.id, l->record.id, sizeof record.id);
    return lw_store_put(store, LW_PRICE_NOTES, &record, err);
}

static bool take_row(lw_store *store, const lw_prices_table *table, size_t row, const lw_currency *currency,
                     const char *today, lw_error *err)
{
    char name[LW_PRICE_NAME];
    lw_part_record part = {.sold_by = 1, .spares_pm = -1};
    lw_part_record known;
    latest l;
    bool found = false, priced = false;
    if (!lw_prices_name(table, row, name, err) || !lw_store_get(store, LW_PARTS, "name", name, &known, &found, err))
        return false;
    if (found)
        part = known;
    else
        (void)snprintf(part.name, sizeof part.name, "%s", name);
    lw_price price = price_of(&part);
    if (!find_price(store, part.name, &price, &l, err))
        return false;
    price.date[0] = '\0'; /* a new price is of its own day */
    if (!lw_prices_row(table, row, currency->decimals, &price, &priced, err) || !keep_part(store, &part, &price, err))
        return false;
    if (priced && !price.priced)
        return lw_fail(err, LW_WRONG_INPUT, "price", "Line %d: consumables without a price; tell both.",
                       table->csv.line[row]);
    return !priced || keep_price(store, &l, &price, currency, today, err);
}

static bool first_price(void *payload, const void *record)
{
    latest *l = payload;
    l->record = *(const lw_price_record *)record;
    l->found = true;
    return false;
}

/* The given one must be that of the prices which are there. */
static bool settle_currency(lw_store *store, const lw_currency *given, lw_currency *out, lw_error *err)
{
    latest l = {0};
    if (!lw_store_each(store, LW_PRICE_NOTES, NULL, NULL, first_price, &l, err))
        return false;
    *out = *given;
    if (l.found && !given->text[0]) {
        (void)snprintf(out->text, sizeof out->text, "%s", l.record.currency);
        out->decimals = l.record.decimals;
    }
    if (l.found && (strcmp(out->text, l.record.currency) != 0 || out->decimals != l.record.decimals))
        return lw_fail(err, LW_WRONG_INPUT, "currency",
                       "The prices of this store are in %s with %d decimals; one list has one currency.",
                       l.record.currency, l.record.decimals);
    return out->text[0] || lw_fail(err, LW_WRONG_INPUT, "currency",
                                   "Tell the currency of the first prices: --currency K --decimals 0.");
}

bool lw_desk_shelf_take(lw_store *store, const char *bytes, size_t length, const lw_currency *currency, size_t *count,
                        lw_error *err)
{
    char today[16];
    lw_prices_table table;
    lw_currency settled;
    const size_t room = lw_csv_memory(bytes, length);
    *count = 0;
    if (room == 0 || length > MOST_BYTES)
        return lw_fail(err, LW_WRONG_INPUT, "", "A price list of more than %d MB is not read.", MOST_BYTES >> 20);
    void *memory = malloc(room);
    if (!memory)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for the price list.");
    lw_arena arena = lw_arena_over(memory, room);
    lw_desk_today(today);
    bool done = lw_prices_open(bytes, length, &arena, &table, err) && settle_currency(store, currency, &settled, err);
    if (done && table.csv.rows > MOST_LINES)
        done = lw_fail(err, LW_WRONG_INPUT, "", "The list has %zu lines; %d is the most.", table.csv.rows, MOST_LINES);
    if (done && lw_store_begin(store, "shelf", err)) {
        for (size_t row = 0; done && row < table.csv.rows; row++)
            done = take_row(store, &table, row, &settled, today, err);
        if (done)
            done = lw_store_commit(store, err);
        else
            lw_store_rollback(store);
        *count = done ? table.csv.rows : 0;
    } else {
        done = false;
    }
    free(memory);
    return done;
}

typedef struct gathering {
    lw_price *price;
    size_t count, room;
} gathering;

static bool gather(void *payload, const void *record)
{
    gathering *g = payload;
    if (g->count < g->room)
        g->price[g->count++] = price_of(record);
    return true;
}

bool lw_desk_shelf_list(lw_store *store, lw_price_list *list, lw_error *err)
{
    int64_t rows = 0;
    latest l;
    *list = (lw_price_list){0};
    if (!lw_store_total(store, LW_PARTS, &rows, err))
        return false;
    gathering g = {calloc((size_t)rows + 1, sizeof *g.price), 0, (size_t)rows};
    if (!g.price)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for the shelf.");
    bool done = lw_store_each(store, LW_PARTS, NULL, NULL, gather, &g, err);
    for (size_t i = 0; done && i < g.count; i++) {
        done = find_price(store, g.price[i].name, &g.price[i], &l, err);
        if (done && l.found) {
            (void)snprintf(list->currency.text, sizeof list->currency.text, "%s", l.record.currency);
            list->currency.decimals = l.record.decimals;
        }
    }
    list->price = g.price;
    list->count = g.count;
    if (!done) {
        free(g.price);
        *list = (lw_price_list){0};
    }
    return done;
}

bool lw_desk_brief_prices(const char *store, const char *brief, size_t length, char **out, lw_error *err)
{
    struct stat there;
    lw_store *open = NULL;
    lw_price_list list = {0};
    *out = NULL;
    if (!store || stat(store, &there) != 0)
        return true;
    bool done = lw_store_open(&(lw_store_options){.path = store}, &open, err) && lw_desk_shelf_list(open, &list, err);
    if (done && list.currency.text[0])
        done = lw_brief_with_prices(brief, length, &list, out, err);
    free(list.price);
    lw_store_close(open);
    return done;
}
