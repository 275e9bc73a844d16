/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the crate's cells to packs and back. See lanewick/desk_crate.h.
 */
#include "crate_gather.h"

#include "lanewick/desk_crate.h"
#include "lanewick/desk_pack.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

size_t lw_desk_use_memory(lw_store *store)
{
    int64_t rows = 0;
    lw_error err = {0};
    if (!lw_store_total(store, LW_CELLS, &rows, &err))
        rows = 0;
    return lw_gather_memory(store) + lw_desk_match_memory((size_t)rows);
}

static const char *class_of(const lw_use_request *request)
{
    return request->voltage_class ? request->voltage_class : "4v2";
}

static bool fill_pack(lw_store *store, const lw_use *use, const lw_gathered *g, int pack, const char *since,
                      lw_error *err)
{
    int places[64] = {0};
    const int first = pack * use->ask.series;
    for (size_t i = 0; i < g->n; i++) {
        const int group = use->match.group[i] - first;
        if (use->match.group[i] < 0 || group < 0 || group >= use->ask.series)
            continue;
        lw_slot_record slot = {.group = group + 1, .place = ++places[group]};
        memcpy(slot.pack, use->pack[pack].id, LW_ID);
        memcpy(slot.cell, g->ids[i], LW_ID);
        memcpy(slot.since, since, sizeof slot.since);
        if (!lw_store_put(store, LW_SLOTS, &slot, err))
            return false;
    }
    return true;
}

static bool store_packs(lw_store *store, const lw_use_request *request, const lw_gathered *g, lw_arena *arena,
                        lw_use *use, lw_error *err)
{
    const int series = use->ask.series, packs = use->match.groups / series;
    use->pack = lw_arena_take(arena, (size_t)packs + 1, sizeof *use->pack, err);
    if (!use->pack)
        return false;
    for (int p = 0; p < packs; p++) {
        lw_pack_record *pack = &use->pack[p];
        *pack = (lw_pack_record){.series = series, .weakest_ah = INFINITY, .guaranteed_ah = NAN, .state = "reserved"};
        (void)snprintf(pack->voltage_class, sizeof pack->voltage_class, "%s", class_of(request));
        lw_store_now(store, pack->at);
        for (int s = 0; s < series; s++) {
            pack->weakest_ah = fmin(pack->weakest_ah, use->match.capacity_ah[p * series + s]);
            if (use->match.guaranteed_ah)
                pack->guaranteed_ah = fmin(isnan(pack->guaranteed_ah) ? INFINITY : pack->guaranteed_ah,
                                           use->match.guaranteed_ah[p * series + s]);
        }
        if (!lw_record_text("note", request->note ? request->note : "", pack->note, sizeof pack->note, err) ||
            !lw_pack_code(store, request->pack, p, pack->code, err) || !lw_store_put(store, LW_PACKS, pack, err) ||
            !fill_pack(store, use, g, p, pack->at, err))
            return false;
    }
    return true;
}

static bool match_cells(const lw_use_request *request, const lw_gathered *g, lw_arena *arena, lw_use *out,
                        lw_error *err)
{
    out->cells = g->cells;
    out->n = g->n;
    out->ask = (lw_match_ask){.cells = g->cells,
                              .n = g->n,
                              .series = request->series,
                              .packs = request->packs > 0 ? request->packs : 1,
                              .parallel = request->parallel,
                              .confidence = request->confidence,
                              .tolerance_pct = request->tolerance_pct,
                              .seed = request->seed};
    if (g->n == 0)
        return lw_fail(
            err, LW_NOT_COMPUTABLE, "cells",
            "There are no free %scells of class %s with a known capacity; `lanewick crate judge` says what is "
            "missing.",
            request->tired ? "sound or tired " : "sound ", class_of(request));
    if (request->need_ah <= 0.0)
        return lw_match_cells(&out->ask, arena, &out->match, err);
    lw_count count;
    if (!lw_count_packs(&out->ask, request->need_ah, arena, &count, err))
        return false;
    out->match = count.match;
    out->upper_bound = count.upper_bound;
    return count.packs > 0 || lw_fail(err, LW_NOT_COMPUTABLE, "need_ah",
                                      "The %zu free cells do not give one pack of %d groups with %g Ah.", g->n,
                                      request->series, request->need_ah);
}

bool lw_desk_use(lw_store *store, const lw_use_request *request, lw_arena *arena, lw_use *out, lw_error *err)
{
    *out = (lw_use){0};
    lw_gathered g;
    const lw_gather_ask ask = {.crate = request->crate, .voltage_class = class_of(request), .tired = request->tired};
    lw_crate_record crate;
    if (!lw_in_range(err, "series", request->series, 1, 16, "") ||
        (request->crate && !lw_desk_crate(store, request->crate, &crate, err)))
        return false;
    if (request->parallel < 1 && request->need_ah <= 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "parallel", "Give --parallel (cells a group) or --need-ah (Ah a group).");
    /* reading and reserving are one transaction, so that nobody takes the same cells meanwhile */
    if (!lw_store_begin(store, "crate use", err))
        return false;
    if (lw_gather_cells(store, &ask, arena, &g, err) && match_cells(request, &g, arena, out, err) &&
        store_packs(store, request, &g, arena, out, err))
        return lw_store_commit(store, err);
    lw_store_rollback(store);
    return false;
}

typedef struct leaving {
    lw_slot_record *slots;
    size_t n, room;
} leaving;

static bool note_slot(void *payload, const void *record)
{
    leaving *l = payload;
    const lw_slot_record *slot = record;
    if (!slot->until[0] && l->n < l->room)
        l->slots[l->n++] = *slot;
    return true;
}

static bool take_apart(lw_store *store, lw_pack_record *pack, int *cells, lw_error *err)
{
    enum { MOST = 1024 };
    static _Thread_local lw_slot_record slots[MOST];
    leaving l = {.slots = slots, .room = MOST};
    *cells = 0;
    do {
        l.n = 0;
        if (!lw_store_each(store, LW_SLOTS, "pack", pack->id, note_slot, &l, err))
            return false;
        for (size_t i = 0; i < l.n; i++) {
            memcpy(slots[i].until, pack->apart_at, sizeof slots[i].until);
            if (!lw_store_put(store, LW_SLOTS, &slots[i], err))
                return false;
        }
        *cells += (int)l.n;
    } while (l.n == MOST);
    return lw_store_put(store, LW_PACKS, pack, err);
}

bool lw_desk_free(lw_store *store, const char *code, const char *note, int *cells, lw_error *err)
{
    lw_pack_record pack;
    bool found;
    if (!lw_store_get(store, LW_PACKS, "code", code, &pack, &found, err))
        return false;
    if (!found)
        return lw_fail(err, LW_WRONG_INPUT, "pack", "There is no pack %.40s.", code);
    if (strcmp(pack.state, "apart") == 0)
        return lw_fail(err, LW_WRONG_INPUT, "state", "The pack %s was taken apart already on %s.", pack.code,
                       pack.apart_at);
    if (note && !lw_record_text("note", note, pack.note, sizeof pack.note, err))
        return false;
    (void)snprintf(pack.state, sizeof pack.state, "apart");
    lw_store_now(store, pack.apart_at);
    if (!lw_store_begin(store, "crate free", err))
        return false;
    if (take_apart(store, &pack, cells, err))
        return lw_store_commit(store, err);
    lw_store_rollback(store);
    return false;
}
