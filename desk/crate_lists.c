/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Crates and cells as JSON: see lanewick/desk_crate_json.h.
 */
#include "lanewick/desk_crate_json.h"

#include "crate_list.h"
#include "visits.h"

#include "lanewick/desk_crate.h"
#include "lanewick/records_json.h"

#include <stdio.h>
#include <stdlib.h>

void lw_json_list_add(lw_json_list *l, char *text)
{
    l->full = l->full || !text || fprintf(l->out, "%s%s", l->count ? "," : "", text) < 0;
    l->count++;
    free(text);
}

static bool add_crate(void *payload, const void *record)
{
    lw_json_list *l = payload;
    lw_json_list_add(l, lw_crate_to_json(record));
    return !l->full;
}

/* One more than the limit is asked for: it tells that there is a next page. */
static bool add_cell(void *payload, const void *record)
{
    lw_json_list *l = payload;
    const lw_cell_view *view = record;
    if (l->count == l->limit) {
        l->count++;
        return false;
    }
    lw_json_list_add(l, lw_cell_to_json(&view->cell, &view->standing, view->crate, view->pack));
    (void)snprintf(l->last, sizeof l->last, "%s", view->cell.code);
    return !l->full;
}

bool lw_json_list_end(lw_json_list *l, bool done, char **json, lw_error *err)
{
    const bool closed = fclose(l->out) == 0;
    if (done && closed && !l->full)
        return true;
    free(*json);
    *json = NULL;
    return done ? lw_fail(err, LW_STORAGE, "", "Memory is out.") : false;
}

bool lw_json_list_begin(const char *path, lw_store **store, lw_json_list *l, char **json, lw_error *err)
{
    *json = NULL;
    if (!lw_visit_begin(&(lw_store_options){.path = path, .cache_kb = LW_STORE_VISIT_KB}, store, err))
        return false;
    l->out = open_memstream(json, &l->size);
    if (l->out)
        return true;
    lw_visit_end(*store, path);
    return lw_fail(err, LW_STORAGE, "", "Memory is out.");
}

bool lw_json_list_table(const char *path, const char *name, lw_table table, lw_visit *add, char **json, lw_error *err)
{
    lw_store *store;
    lw_json_list l = {0};
    if (!lw_json_list_begin(path, &store, &l, json, err))
        return false;
    (void)fprintf(l.out, "{\"%s\":[", name);
    const bool done = lw_store_each(store, table, NULL, NULL, add, &l, err);
    (void)fputs("]}", l.out);
    lw_visit_end(store, path);
    return lw_json_list_end(&l, done, json, err);
}

bool lw_desk_crates_json(const char *path, char **json, lw_error *err)
{
    return lw_json_list_table(path, "crates", LW_CRATES, add_crate, json, err);
}

bool lw_desk_cells_json(const char *path, const lw_cells_ask *ask, char **json, lw_error *err)
{
    lw_store *store;
    lw_crate_record crate;
    lw_json_list l = {.limit = ask->limit};
    if (ask->search && ask->after)
        return lw_fail(err, LW_WRONG_INPUT, "after", "A search gives one page; type more of the beginning instead.");
    if (!lw_in_range(err, "limit", ask->limit, 1.0, LW_CELLS_PAGE, "") ||
        !lw_json_list_begin(path, &store, &l, json, err))
        return false;
    const lw_cell_filter filter = {.crate = ask->crate,
                                   .search = ask->search,
                                   .verdict = ask->verdict,
                                   .after = ask->after,
                                   .limit = ask->limit + 1};
    (void)fputs("{\"cells\":[", l.out);
    const bool done = (!ask->crate || lw_desk_crate(store, ask->crate, &crate, err)) &&
                      lw_store_cells(store, &filter, add_cell, &l, err);
    if (l.count > l.limit && !ask->search)
        (void)fprintf(l.out, "],\"after\":\"%s\"}", l.last);
    else
        (void)fputs("],\"after\":null}", l.out);
    lw_visit_end(store, path);
    return lw_json_list_end(&l, done, json, err);
}
