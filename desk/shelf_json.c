/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The shelf for those who come and go: see lanewick/desk_shelf.h.
 */
#include "lanewick/desk_shelf.h"

#include "visits.h"

#include <stdlib.h>
#include <sys/stat.h>

bool lw_desk_shelf_json(const char *path, char **json, lw_error *err)
{
    struct stat there;
    lw_store *store = NULL;
    lw_price_list list = {0};
    bool done = true;
    if (stat(path, &there) == 0) {
        const lw_store_options options = {.path = path, .cache_kb = LW_STORE_VISIT_KB};
        done = lw_visit_begin(&options, &store, err) && lw_desk_shelf_list(store, NULL, &list, err);
        lw_visit_end(store, path);
    }
    *json = done ? lw_price_list_to_json(&list) : NULL;
    free(list.line);
    return *json || (done && lw_fail(err, LW_STORAGE, "", "There is not enough memory for the shelf."));
}

bool lw_desk_shelf_change_json(const char *path, const char *who, const char *text, size_t length,
                               lw_shelf_reply *reply, lw_error *err)
{
    lw_store *store = NULL;
    lw_shelf_change change;
    *reply = (lw_shelf_reply){.part = NULL};
    if (!lw_shelf_change_read(text, length, &change, err))
        return false;
    const lw_store_options options = {.path = path, .who = who, .create = true, .cache_kb = LW_STORE_VISIT_KB};
    const bool done = lw_visit_begin(&options, &store, err) && lw_desk_shelf_change(store, &change, reply, err);
    lw_visit_end(store, path);
    free(change.table);
    return done;
}
