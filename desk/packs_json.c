/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Packs of a store with the cells in their places, and taking one apart, as JSON: see lanewick/desk_crate_json.h.
 */
#include "lanewick/desk_crate_json.h"

#include "crate_list.h"
#include "visits.h"

#include "lanewick/desk_crate.h"
#include "lanewick/records_json.h"

#include <stdlib.h>
#include <string.h>

enum { MOST_CELLS = 4096 }; /* in one pack */

typedef struct walk { /* over packs */
    lw_store *store;
    lw_json_list list;
    const char *after;
    lw_error *err;
    lw_pack_place *places; /* room for MOST_CELLS */
    bool failed;
} walk;

typedef struct filling {
    lw_store *store;
    lw_pack_place *places;
    size_t n;
    lw_error *err;
    bool failed;
} filling;

/* Places that have been left stay in the store as history. */
static bool add_place(void *payload, const void *record)
{
    filling *f = payload;
    const lw_slot_record *slot = record;
    lw_cell_record cell;
    bool found = false;
    if (slot->until[0] || f->n == MOST_CELLS)
        return true;
    f->failed = !lw_store_get(f->store, LW_CELLS, "id", slot->cell, &cell, &found, f->err);
    if (f->failed || !found)
        return !f->failed;
    lw_pack_place *place = &f->places[f->n++];
    *place = (lw_pack_place){.group = slot->group, .place = slot->place};
    memcpy(place->cell, cell.code, sizeof place->cell);
    return true;
}

static int by_place(const void *a, const void *b)
{
    const lw_pack_place *one = a, *other = b;
    return one->group != other->group ? one->group - other->group : one->place - other->place;
}

static bool add_pack(void *payload, const void *record)
{
    walk *w = payload;
    const lw_pack_record *pack = record;
    if (w->after && strcmp(pack->id, w->after) <= 0)
        return true;
    if (w->list.count == w->list.limit) {
        w->list.count++;
        return false;
    }
    lw_plan_record plan = {0};
    bool found = false;
    filling f = {.store = w->store, .places = w->places, .err = w->err};
    w->failed = (pack->plan[0] && !lw_store_get(w->store, LW_PLANS, "id", pack->plan, &plan, &found, w->err)) ||
                !lw_store_each(w->store, LW_SLOTS, "pack", pack->id, add_place, &f, w->err) || f.failed;
    if (w->failed)
        return false;
    qsort(f.places, f.n, sizeof f.places[0], by_place);
    lw_json_list_add(&w->list, lw_pack_to_json(pack, found ? plan.code : "", f.places, f.n));
    memcpy(w->list.last, pack->id, LW_ID);
    return !w->list.full;
}

/* *id: of the plan of that code. */
static bool find_plan(lw_store *store, const char *code, char id[LW_ID], lw_error *err)
{
    lw_plan_record plan;
    bool found;
    if (!lw_store_get(store, LW_PLANS, "code", code, &plan, &found, err))
        return false;
    memcpy(id, plan.id, LW_ID);
    return found || lw_fail(err, LW_WRONG_INPUT, "plan", "There is no plan %.40s in the store.", code);
}

bool lw_desk_packs_json(const char *path, const lw_packs_ask *ask, char **json, lw_error *err)
{
    walk w = {.list = {.limit = ask->limit}, .after = ask->after, .err = err};
    char id[LW_ID] = "";
    *json = NULL;
    if (!lw_in_range(err, "limit", ask->limit, 1.0, LW_CELLS_PAGE, "") ||
        !lw_json_list_begin(path, &w.store, &w.list, json, err))
        return false;
    w.places = malloc(MOST_CELLS * sizeof *w.places);
    (void)fputs("{\"packs\":[", w.list.out);
    const bool done = (w.places || lw_fail(err, LW_STORAGE, "", "Memory is out.")) &&
                      (!ask->plan || find_plan(w.store, ask->plan, id, err)) &&
                      lw_store_each(w.store, LW_PACKS, ask->plan ? "plan" : NULL, id, add_pack, &w, err) && !w.failed;
    if (w.list.count > ask->limit)
        (void)fprintf(w.list.out, "],\"after\":\"%s\"}", w.list.last);
    else
        (void)fputs("],\"after\":null}", w.list.out);
    lw_visit_end(w.store, path);
    free(w.places);
    return lw_json_list_end(&w.list, done, json, err);
}

bool lw_desk_apart_json(const char *path, const char *who, const char *pack, char **json, lw_error *err)
{
    lw_store *store;
    int cells;
    *json = NULL;
    if (!lw_visit_begin(&(lw_store_options){.path = path, .who = who, .cache_kb = LW_STORE_VISIT_KB}, &store, err))
        return false;
    const bool done = lw_desk_free(store, pack, NULL, &cells, err);
    lw_visit_end(store, path);
    if (done)
        *json = lw_apart_to_json(pack, cells);
    return done && (*json || lw_fail(err, LW_STORAGE, "", "Memory is out."));
}
