/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The workshop's shelf as it stands: see lanewick/desk_shelf.h. What changes it: shelf_take.c.
 */
#include "shelf_inside.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

lw_price lw_shelf_price_of(const lw_part_record *part)
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

void lw_shelf_note_price(lw_price *price, const lw_price_record *record)
{
    price->priced = true;
    price->price_minor = record->minor;
    price->consumables_minor = record->consumables_minor;
    (void)snprintf(price->date, sizeof price->date, "%s", record->at);
    (void)snprintf(price->shop, sizeof price->shop, "%s", record->shop);
}

typedef struct gathering {
    lw_price_list *list;
    size_t room, first; /* first line of the part whose prices are read */
    bool full;          /* memory is out */
} gathering;

static lw_price_line *new_line(gathering *g)
{
    if (g->list->count == g->room) {
        const size_t room = 2 * g->room + 32;
        lw_price_line *line = realloc(g->list->line, room * sizeof *line);
        if (!line) {
            g->full = true;
            return NULL;
        }
        g->list->line = line;
        g->room = room;
    }
    return &g->list->line[g->list->count++];
}

static bool gather_part(void *payload, const void *record)
{
    gathering *g = payload;
    lw_price_line *line = new_line(g);
    if (line)
        *line = (lw_price_line){.price = lw_shelf_price_of(record)};
    return line != NULL;
}

/* The latest day counts; of two shops on one day the one that was written later. */
static bool gather_price(void *payload, const void *record)
{
    gathering *g = payload;
    const lw_price_record *one = record;
    lw_price_line *found = NULL;
    for (size_t i = g->first; i < g->list->count && !found; i++) {
        lw_price_line *line = &g->list->line[i];
        if (!line->currency.text[0] || strcmp(line->currency.text, one->currency) == 0)
            found = line;
    }
    if (!found) {
        lw_price_line *line = new_line(g);
        if (!line)
            return false;
        *line = (lw_price_line){.price = g->list->line[g->first].price};
        line->price.date[0] = '\0';
        found = line;
    }
    if (found->currency.text[0] && strcmp(one->at, found->price.date) < 0)
        return true;
    (void)snprintf(found->currency.text, sizeof found->currency.text, "%s", one->currency);
    found->currency.decimals = one->decimals;
    lw_shelf_note_price(&found->price, one);
    return true;
}

static bool gather_prices(lw_store *store, gathering *g, const lw_price_line *parts, size_t count, lw_error *err)
{
    for (size_t i = 0; i < count; i++) {
        lw_price_line *line = new_line(g);
        if (!line)
            return true; /* told by g->full */
        *line = parts[i];
        g->first = g->list->count - 1;
        if (!lw_store_each(store, LW_PRICE_NOTES, "thing", parts[i].price.name, gather_price, g, err))
            return false;
    }
    return true;
}

bool lw_desk_shelf_list(lw_store *store, const char *name, lw_price_list *list, lw_error *err)
{
    lw_price_list parts = {0};
    gathering of_parts = {.list = &parts}, of_prices = {.list = list};
    *list = (lw_price_list){0};
    const bool done = lw_store_each(store, LW_PARTS, name ? "name" : NULL, name, gather_part, &of_parts, err) &&
                      gather_prices(store, &of_prices, parts.line, parts.count, err);
    free(parts.line);
    if (done && !of_parts.full && !of_prices.full)
        return true;
    free(list->line);
    *list = (lw_price_list){0};
    return done ? lw_fail(err, LW_STORAGE, "", "There is not enough memory for the shelf.") : false;
}

bool lw_desk_brief_prices(const char *store, const char *brief, size_t length, lw_priced_brief *how, char **out,
                          lw_error *err)
{
    struct stat there;
    lw_store *open = NULL;
    lw_price_list list = {0};
    *out = NULL;
    if (!store || stat(store, &there) != 0)
        return true;
    const lw_store_options options = {.path = store, .cache_kb = LW_STORE_VISIT_KB};
    bool done = lw_store_open(&options, &open, err) && lw_desk_shelf_list(open, NULL, &list, err);
    if (done && list.count > 0)
        done = lw_brief_with_prices(brief, length, &list, how, out, err);
    free(list.line);
    lw_store_close(open);
    return done;
}
