/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What changes the workshop's shelf: see lanewick/desk_shelf.h.
 */
#include "shelf_inside.h"

#include "lanewick/desk_sheets.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_LINES = 5000, MOST_BYTES = 8 << 20, MOST_DECIMALS = 3 };

typedef struct latest {
    const char *currency;   /* NULL: any */
    lw_price_record record; /* of the price that counts now */
    bool found;
} latest;

static bool later(void *payload, const void *record)
{
    latest *l = payload;
    const lw_price_record *one = record;
    if (l->currency && strcmp(one->currency, l->currency) != 0)
        return true;
    if (!l->found || strcmp(one->at, l->record.at) >= 0)
        l->record = *one;
    l->found = true;
    return true;
}

/* The latest price in one money. */
static bool find_price(lw_store *store, const lw_currency *currency, lw_price *price, latest *l, lw_error *err)
{
    *l = (latest){.currency = currency->text};
    if (!lw_store_each(store, LW_PRICE_NOTES, "thing", price->name, later, l, err))
        return false;
    if (l->found)
        lw_shelf_note_price(price, &l->record);
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

typedef struct same {
    lw_price_record *record;
} same;

static bool same_day_and_shop(void *payload, const void *record)
{
    lw_price_record *mine = ((same *)payload)->record;
    const lw_price_record *one = record;
    if (strcmp(one->currency, mine->currency) == 0 && strcmp(one->at, mine->at) == 0 &&
        strcmp(one->shop, mine->shop) == 0)
        memcpy(mine->id, one->id, sizeof mine->id);
    return true;
}

/* A price of the same day and shop is corrected, another one stands beside it. */
static bool keep_price(lw_store *store, const lw_price *price, const lw_currency *currency, const char *today,
                       lw_error *err)
{
    lw_price_record record = {
        .minor = price->price_minor, .consumables_minor = price->consumables_minor, .decimals = currency->decimals};
    (void)snprintf(record.thing, sizeof record.thing, "%s", price->name);
    (void)snprintf(record.currency, sizeof record.currency, "%s", currency->text);
    (void)snprintf(record.at, sizeof record.at, "%.10s", price->date[0] ? price->date : today);
    (void)snprintf(record.shop, sizeof record.shop, "%s", price->shop);
    same s = {&record};
    return lw_store_each(store, LW_PRICE_NOTES, "thing", record.thing, same_day_and_shop, &s, err) &&
           lw_store_put(store, LW_PRICE_NOTES, &record, err);
}

/* The moneys of the prices that are there. */
typedef struct moneys {
    lw_currency first;
    size_t count; /* different texts: 0, 1, 2 (or more) */
    lw_currency *given;
    bool known; /* the given one is among them, with so many decimals */
    int decimals;
} moneys;

static bool note_money(void *payload, const void *record)
{
    moneys *m = payload;
    const lw_price_record *one = record;
    if (strcmp(one->currency, m->given->text) == 0) {
        m->known = true;
        m->decimals = one->decimals;
    }
    if (m->count == 0) {
        (void)snprintf(m->first.text, sizeof m->first.text, "%s", one->currency);
        m->first.decimals = one->decimals;
        m->count = 1;
    } else if (strcmp(one->currency, m->first.text) != 0) {
        m->count = 2;
    }
    return true;
}

/* The given one, else that of the prices which are there; one money has one number of decimals (not told: -1). Text "":
 * lines without a price need none. */
static bool settle_currency(lw_store *store, const lw_currency *given, lw_currency *out, bool *several, lw_error *err)
{
    *out = *given;
    moneys m = {.given = out};
    if (!lw_store_each(store, LW_PRICE_NOTES, NULL, NULL, note_money, &m, err))
        return false;
    if (!given->text[0] && m.count == 1)
        *out = m.first;
    else if (m.known && out->decimals >= 0 && out->decimals != m.decimals)
        return lw_fail(err, LW_WRONG_INPUT, "decimals",
                       "The prices in %s of this store have %d decimals; one money has one number of decimals.",
                       out->text, m.decimals);
    else if (out->decimals < 0)
        out->decimals = m.known ? m.decimals : 2;
    *several = m.count > 1;
    return true;
}

static bool needs_currency(bool several, lw_error *err)
{
    return lw_fail(err, LW_WRONG_INPUT, "currency",
                   several ? "The prices of this store are in several moneys; tell which one is meant: --currency K."
                           : "Tell the currency of the first prices: --currency K --decimals 0.");
}

static bool take_row(lw_store *store, const lw_prices_table *table, size_t row, const lw_currency *currency,
                     bool several, const char *today, lw_error *err)
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
    lw_price price = lw_shelf_price_of(&part);
    if (!find_price(store, currency, &price, &l, err))
        return false;
    price.date[0] = '\0'; /* a new price is of its own day */
    if (!lw_prices_row(table, row, currency->text[0] ? currency->decimals : MOST_DECIMALS, &price, &priced, err) ||
        !keep_part(store, &part, &price, err))
        return false;
    if (priced && !currency->text[0])
        return needs_currency(several, err);
    lw_error inner = {0};
    if (priced && !price.priced)
        return lw_fail(&inner, LW_WRONG_INPUT, "price", "There are consumables without a price; tell both.") ||
               lw_prices_wrong(table, row, &inner, err);
    return !priced || keep_price(store, &price, currency, today, err);
}

/* The lines of a table, inside a transaction of the caller. */
static bool take_table(lw_store *store, const char *bytes, size_t length, const lw_currency *currency, bool spoken,
                       size_t *count, lw_error *err)
{
    char today[16];
    lw_prices_table table;
    lw_currency settled;
    bool several = false;
    const size_t room = lw_csv_memory(bytes, length);
    if (room == 0 || length > MOST_BYTES)
        return lw_fail(err, LW_WRONG_INPUT, "", "A price list of more than %d MB is not read.", MOST_BYTES >> 20);
    void *memory = malloc(room);
    if (!memory)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for the price list.");
    lw_arena arena = lw_arena_over(memory, room);
    lw_desk_today(today);
    bool done =
        lw_prices_open(bytes, length, &arena, &table, err) && settle_currency(store, currency, &settled, &several, err);
    table.spoken = spoken;
    if (done && table.csv.rows > MOST_LINES)
        done = lw_fail(err, LW_WRONG_INPUT, "", "The list has %zu lines; %d is the most.", table.csv.rows, MOST_LINES);
    for (size_t row = 0; done && row < table.csv.rows; row++)
        done = take_row(store, &table, row, &settled, several, today, err);
    *count = done ? table.csv.rows : 0;
    free(memory);
    return done;
}

static bool end(lw_store *store, bool done, lw_error *err)
{
    if (done)
        return lw_store_commit(store, err);
    lw_store_rollback(store);
    return false;
}

bool lw_desk_shelf_take(lw_store *store, const char *bytes, size_t length, const lw_currency *currency, bool spoken,
                        size_t *count, lw_error *err)
{
    *count = 0;
    return lw_store_begin(store, "shelf", err) &&
           end(store, take_table(store, bytes, length, currency, spoken, count, err), err);
}

static bool drop_price(void *payload, const void *record)
{
    memcpy(payload, record, sizeof(lw_price_record));
    return false;
}

static bool remove_part(lw_store *store, const char *name, lw_error *err)
{
    lw_part_record part;
    bool found = false;
    if (!lw_store_get(store, LW_PARTS, "name", name, &part, &found, err))
        return false;
    if (!found)
        return lw_fail(err, LW_WRONG_INPUT, "name", "There is no \"%.60s\" on the shelf.", name);
    for (;;) {
        lw_price_record price = {.id = ""};
        if (!lw_store_each(store, LW_PRICE_NOTES, "thing", part.name, drop_price, &price, err))
            return false;
        if (!price.id[0])
            return lw_store_remove(store, LW_PARTS, part.id, err);
        if (!lw_store_remove(store, LW_PRICE_NOTES, price.id, err))
            return false;
    }
}

bool lw_desk_shelf_remove(lw_store *store, const char *name, lw_error *err)
{
    return lw_store_begin(store, "shelf", err) && end(store, remove_part(store, name, err), err);
}

/* What stands there now is what the one who changes it has seen. */
static bool as_seen(lw_store *store, const lw_shelf_change *change, lw_shelf_reply *reply, lw_error *err)
{
    lw_price_list list;
    char mark[LW_PRICE_MARK] = "";
    if (!lw_desk_shelf_list(store, change->name, &list, err))
        return false;
    if (list.count > 0)
        lw_price_mark(list.line, list.count, mark);
    if (strcmp(mark, change->mark) != 0) {
        reply->outcome = list.count > 0 ? LW_SHELF_CHANGED : LW_SHELF_GONE;
        reply->part = list.count > 0 ? lw_price_part_to_json(list.line, list.count) : NULL;
    }
    free(list.line);
    return true;
}

static bool tell_part(lw_store *store, const char *name, lw_shelf_reply *reply, lw_error *err)
{
    lw_price_list list;
    if (!lw_desk_shelf_list(store, name, &list, err))
        return false;
    if (list.count > 0)
        reply->part = lw_price_part_to_json(list.line, list.count);
    free(list.line);
    return reply->part != NULL || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the shelf.");
}

static bool change_it(lw_store *store, const lw_shelf_change *change, lw_shelf_reply *reply, lw_error *err)
{
    size_t count = 0;
    if (!as_seen(store, change, reply, err))
        return false;
    if (reply->outcome != LW_SHELF_TAKEN)
        return true;
    if (!change->table)
        return remove_part(store, change->name, err);
    return take_table(store, change->table, strlen(change->table), &change->currency, true, &count, err) &&
           tell_part(store, change->name, reply, err);
}

bool lw_desk_shelf_change(lw_store *store, const lw_shelf_change *change, lw_shelf_reply *reply, lw_error *err)
{
    *reply = (lw_shelf_reply){.outcome = LW_SHELF_TAKEN};
    if (!lw_store_begin(store, "shelf", err))
        return false;
    const bool done = change_it(store, change, reply, err);
    if (done && reply->outcome != LW_SHELF_TAKEN) {
        lw_store_rollback(store);
        return true;
    }
    if (end(store, done, err))
        return true;
    free(reply->part);
    reply->part = NULL;
    return false;
}
