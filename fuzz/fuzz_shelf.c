/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: changes of the shelf, into a store in memory, and a brief that takes its prices. What is taken in can be
 * told again; anything else says why.
 */
#include "lanewick/desk_shelf.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void price_brief(lw_store *store, const char *text, size_t size)
{
    lw_error err = {0};
    lw_price_list list = {0};
    lw_priced_brief how = {.replace = true};
    char *out = NULL;
    if (!lw_desk_shelf_list(store, NULL, &list, &err))
        abort();
    char *told = lw_price_list_to_json(&list);
    if (!told || (!lw_brief_with_prices(text, size, &list, &how, &out, &err) && !err.message[0]))
        abort();
    free(told);
    free(out);
    free(list.line);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static lw_store *store;
    lw_error err = {0};
    lw_shelf_change change;
    lw_shelf_reply reply;
    const char *text = (const char *)data;
    if (!store && !lw_store_open(&(lw_store_options){.path = ":memory:", .who = "fuzz", .create = true}, &store, &err))
        abort();
    if (!lw_shelf_change_read(text, size, &change, &err)) {
        if (!err.message[0])
            abort();
    } else if (!lw_desk_shelf_change(store, &change, &reply, &err)) {
        if (err.family != LW_WRONG_INPUT)
            abort();
    } else {
        if (reply.outcome == LW_SHELF_TAKEN && change.table && !reply.part)
            abort();
        free(reply.part);
    }
    free(change.table);
    price_brief(store, text, size);
    return 0;
}
