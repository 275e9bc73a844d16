/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The cells of the store as a lot: see crate_gather.h.
 */
#include "crate_gather.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct gathering {
    const lw_gather_ask *ask;
    lw_gathered *out;
    size_t room;
    double health;
    int with_rated;
    lw_arena *arena;
    lw_error *err;
    bool failed;
} gathering;

size_t lw_gather_memory(lw_store *store)
{
    enum { A_CELL = sizeof(lw_lot_cell) + LW_ID + 4 * 128 };
    int64_t rows = 0;
    lw_error err = {0};
    if (!lw_store_total(store, LW_CELLS, &rows, &err))
        rows = 0;
    return 65536 + (size_t)(rows > LW_MATCH_MAX_CELLS ? LW_MATCH_MAX_CELLS : rows) * A_CELL;
}

/* Why a cell is not taken; LW_LEFT_REASONS: it is. */
static lw_left_reason why_left(const lw_gather_ask *ask, const lw_cell_view *view)
{
    const char *verdict = view->standing.verdict;
    if (strcmp(verdict, "scrap") == 0)
        return LW_LEFT_SCRAP;
    if (strcmp(view->cell.voltage_class, ask->voltage_class) != 0)
        return LW_LEFT_OTHER_CLASS;
    if (view->pack[0])
        return LW_LEFT_PACKED;
    const bool good = strcmp(verdict, "sound") == 0 || (ask->tired && strcmp(verdict, "tired") == 0);
    return good && view->standing.capacity_ah > 0.0 ? LW_LEFT_REASONS : LW_LEFT_UNSURE;
}

static bool gather(void *payload, const void *record)
{
    gathering *g = payload;
    const lw_cell_view *view = record;
    const lw_left_reason why = why_left(g->ask, view);
    if (why != LW_LEFT_REASONS) {
        g->out->left[why]++;
        return true;
    }
    if (g->out->n >= g->room)
        return true;
    lw_lot_cell *cell = &g->out->cells[g->out->n];
    const double ohm = view->standing.resistance_ohm, sd = view->standing.capacity_sd_ah;
    cell->id = lw_arena_text(g->arena, view->cell.code, g->err);
    cell->marking = lw_arena_text(g->arena, view->cell.marking, g->err);
    cell->verdict = strcmp(view->standing.verdict, "tired") == 0 ? "tired" : "sound";
    cell->voltage_class = g->ask->voltage_class;
    cell->capacity_ah = view->standing.capacity_ah;
    cell->capacity_sd_ah = isnan(sd) ? 0.0 : sd;
    cell->resistance_mohm = isnan(ohm) ? 0.0 : 1000.0 * ohm;
    memcpy(g->out->ids[g->out->n], view->cell.id, LW_ID);
    if (view->cell.rated_ah > 0.0) {
        g->health += cell->capacity_ah / view->cell.rated_ah;
        g->with_rated++;
    }
    g->failed = !cell->id || !cell->marking;
    g->out->n++;
    return !g->failed;
}

bool lw_gather_cells(lw_store *store, const lw_gather_ask *ask, lw_arena *arena, lw_gathered *out, lw_error *err)
{
    int64_t rows;
    gathering g = {.ask = ask, .out = out, .arena = arena, .err = err};
    *out = (lw_gathered){0};
    if (!lw_store_total(store, LW_CELLS, &rows, err))
        return false;
    g.room = rows > LW_MATCH_MAX_CELLS ? LW_MATCH_MAX_CELLS : (size_t)rows;
    out->cells = lw_arena_take(arena, g.room + 1, sizeof *out->cells, err);
    out->ids = lw_arena_take(arena, g.room + 1, sizeof *out->ids, err);
    if (!out->cells || !out->ids)
        return false;
    lw_cell_filter filter = {.crate = ask->crate};
    if (!ask->count_left) {
        filter.free_only = true;
        filter.verdict = "sound";
    }
    bool done = lw_store_cells(store, &filter, gather, &g, err) && !g.failed;
    if (done && !ask->count_left && ask->tired) {
        filter.verdict = "tired";
        done = lw_store_cells(store, &filter, gather, &g, err) && !g.failed;
    }
    out->health = g.with_rated > 0 ? g.health / g.with_rated : NAN;
    return done;
}

bool lw_pack_code(lw_store *store, const char *given, int number, char out[LW_CODE], lw_error *err)
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
