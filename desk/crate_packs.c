/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the crate's cells to packs and back. See lanewick/desk_crate.h.
 */
#include "lanewick/desk_crate.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct gathering {
    lw_lot_cell *cells;
    char (*ids)[LW_ID];
    size_t n, room;
    const char *voltage_class;
    lw_arena *arena;
    lw_error *err;
    bool failed;
} gathering;

static bool gather(void *payload, const void *record)
{
    gathering *g = payload;
    const lw_cell_view *view = record;
    if (strcmp(view->cell.voltage_class, g->voltage_class) != 0 || !(view->standing.capacity_ah > 0.0) ||
        g->n >= g->room)
        return true;
    lw_lot_cell *cell = &g->cells[g->n];
    const double ohm = view->standing.resistance_ohm, sd = view->standing.capacity_sd_ah;
    cell->id = lw_arena_text(g->arena, view->cell.code, g->err);
    cell->marking = lw_arena_text(g->arena, view->cell.marking, g->err);
    cell->verdict = lw_arena_text(g->arena, view->standing.verdict, g->err);
    cell->voltage_class = g->voltage_class;
    cell->capacity_ah = view->standing.capacity_ah;
    cell->capacity_sd_ah = isnan(sd) ? 0.0 : sd;
    cell->resistance_mohm = isnan(ohm) ? 0.0 : 1000.0 * ohm;
    memcpy(g->ids[g->n], view->cell.id, LW_ID);
    g->failed = !cell->id || !cell->marking || !cell->verdict;
    g->n++;
    return !g->failed;
}

size_t lw_desk_use_memory(lw_store *store)
{
    int64_t rows = 0;
    lw_error err = {0};
    if (!lw_store_total(store, LW_CELLS, &rows, &err))
        rows = 0;
    return (size_t)(64 << 20) + (size_t)(rows > LW_MATCH_MAX_CELLS ? LW_MATCH_MAX_CELLS : rows) * 2048;
}

static bool gather_cells(lw_store *store, const lw_use_request *request, gathering *g, lw_error *err)
{
    int64_t rows;
    if (!lw_store_total(store, LW_CELLS, &rows, err))
        return false;
    g->room = rows > LW_MATCH_MAX_CELLS ? LW_MATCH_MAX_CELLS : (size_t)rows;
    g->cells = lw_arena_take(g->arena, g->room + 1, sizeof *g->cells, err);
    g->ids = lw_arena_take(g->arena, g->room + 1, sizeof *g->ids, err);
    if (!g->cells || !g->ids)
        return false;
    lw_cell_filter filter = {.crate = request->crate, .verdict = "sound", .free_only = true};
    if (!lw_store_cells(store, &filter, gather, g, err) || g->failed)
        return false;
    filter.verdict = "tired";
    return !request->tired || (lw_store_cells(store, &filter, gather, g, err) && !g->failed);
}

/* The next free code of the form P1, P2, ... or the given one counted up. */
static bool pack_code(lw_store *store, const char *given, int number, char out[LW_CODE], lw_error *err)
{
    bool taken = true;
    lw_pack_record other;
    if (given && number == 0) {
        if (!lw_record_text("pack", given, out, LW_CODE, err) ||
            !lw_store_get(store, LW_PACKS, "code", out, &other, &taken, err))
            return false;
        return !taken || lw_fail(err, LW_WRONG_INPUT, "pack", "There is a pack %s already.", out);
    }
    for (int i = 1; taken; i++) {
        (void)snprintf(out, LW_CODE, given ? "%.20s-%d" : "%sP%d", given ? given : "", given ? i + 1 : i);
        if (!lw_store_get(store, LW_PACKS, "code", out, &other, &taken, err))
            return false;
    }
    return true;
}

static bool fill_pack(lw_store *store, const lw_use *use, const gathering *g, int pack, const char *since,
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

static bool store_packs(lw_store *store, const lw_use_request *request, const gathering *g, lw_use *use, lw_error *err)
{
    const int series = use->ask.series, packs = use->match.groups / series;
    use->pack = lw_arena_take(g->arena, (size_t)packs + 1, sizeof *use->pack, err);
    if (!use->pack)
        return false;
    for (int p = 0; p < packs; p++) {
        lw_pack_record *pack = &use->pack[p];
        *pack = (lw_pack_record){.series = series, .weakest_ah = INFINITY, .guaranteed_ah = NAN, .state = "reserved"};
        (void)snprintf(pack->voltage_class, sizeof pack->voltage_class, "%s", g->voltage_class);
        lw_store_now(store, pack->at);
        for (int s = 0; s < series; s++) {
            pack->weakest_ah = fmin(pack->weakest_ah, use->match.capacity_ah[p * series + s]);
            if (use->match.guaranteed_ah)
                pack->guaranteed_ah = fmin(isnan(pack->guaranteed_ah) ? INFINITY : pack->guaranteed_ah,
                                           use->match.guaranteed_ah[p * series + s]);
        }
        if (!lw_record_text("note", request->note ? request->note : "", pack->note, sizeof pack->note, err) ||
            !pack_code(store, request->pack, p, pack->code, err) || !lw_store_put(store, LW_PACKS, pack, err) ||
            !fill_pack(store, use, g, p, pack->at, err))
            return false;
    }
    return true;
}

static bool match_cells(const lw_use_request *request, gathering *g, lw_use *out, lw_error *err)
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
            request->tired ? "sound or tired " : "sound ", g->voltage_class);
    if (request->need_ah <= 0.0)
        return lw_match_cells(&out->ask, g->arena, &out->match, err);
    lw_count count;
    if (!lw_count_packs(&out->ask, request->need_ah, g->arena, &count, err))
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
    gathering g = {
        .voltage_class = request->voltage_class ? request->voltage_class : "4v2", .arena = arena, .err = err};
    lw_crate_record crate;
    if (!lw_in_range(err, "series", request->series, 1, 16, "") ||
        (request->crate && !lw_desk_crate(store, request->crate, &crate, err)))
        return false;
    if (request->parallel < 1 && request->need_ah <= 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "parallel", "Give --parallel (cells a group) or --need-ah (Ah a group).");
    /* reading and reserving are one transaction, so that nobody takes the same cells meanwhile */
    if (!lw_store_begin(store, "crate use", err))
        return false;
    if (gather_cells(store, request, &g, err) && match_cells(request, &g, out, err) &&
        store_packs(store, request, &g, out, err))
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
        return lw_fail(err, LW_WRONG_INPUT, "pack", "The pack %s was taken apart already on %s.", pack.code,
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
