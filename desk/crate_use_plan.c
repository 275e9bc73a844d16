/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reserving the very cells that a plan names: all of them or none. See lanewick/desk_crate.h.
 */
#include "crate_gather.h"

#include "lanewick/desk_crate.h"
#include "lanewick/plan_packs.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* Cells that stand against it, told together. */
typedef struct objections {
    int count;
    char text[320];
    bool unsafe;
} objections;

static void object(objections *all, const char *code, const char *what, const char *more)
{
    const size_t used = strlen(all->text);
    if (all->count < 4)
        (void)snprintf(all->text + used, sizeof all->text - used, "%s%.32s %s%.32s", all->count ? ", " : "", code, what,
                       more);
    all->count++;
}

typedef struct wanted {
    const char *code;
    lw_cell_view view;
    bool found;
} wanted;

static bool keep_view(void *payload, const void *record)
{
    wanted *w = payload;
    w->view = *(const lw_cell_view *)record;
    w->found = true;
    return false;
}

/* The cell's id, or what stands against its use. */
static bool look_up(lw_store *store, const char *code, const char *class, char id[LW_ID], objections *all,
                    lw_error *err)
{
    wanted w = {.code = code};
    lw_cell_record cell;
    bool found;
    if (!lw_store_get(store, LW_CELLS, "code", code, &cell, &found, err))
        return false;
    if (!found) {
        object(all, code, "is not in the store", "");
        return true;
    }
    if (!lw_store_cells(store, &(lw_cell_filter){.search = cell.code, .limit = 1}, keep_view, &w, err))
        return false;
    memcpy(id, cell.id, LW_ID);
    const char *verdict = w.found ? w.view.standing.verdict : "untested";
    if (strcmp(verdict, "sound") != 0 && strcmp(verdict, "tired") != 0) {
        object(all, code, "is now ", verdict);
        all->unsafe = true;
    } else if (strcmp(cell.voltage_class, class) != 0) {
        object(all, code, "is now of class ", cell.voltage_class);
        all->unsafe = true;
    } else if (w.view.pack[0]) {
        object(all, code, "sits in pack ", w.view.pack);
    }
    return true;
}

static bool check_cells(lw_store *store, const lw_planned_packs *plan, char (*ids)[LW_ID], lw_error *err)
{
    objections all = {0};
    for (size_t p = 0; p < plan->packs; p++) {
        const lw_planned_pack *pack = &plan->pack[p];
        for (size_t i = pack->first[0]; i < pack->first[pack->series]; i++)
            if (!look_up(store, plan->cell[i], pack->voltage_class, ids[i], &all, err))
                return false;
    }
    if (all.count == 0)
        return true;
    return lw_fail(err, all.unsafe ? LW_REFUSED : LW_WRONG_INPUT, "cells",
                   "Nothing is reserved, for %d of the plan's %zu cells cannot be: %s%s. Plan again with what is free "
                   "now.",
                   all.count, plan->cells, all.text, all.count > 4 ? ", ..." : "");
}

/* "PL1", "PL2", ... the first that is free. */
static bool plan_code(lw_store *store, char out[LW_CODE], lw_error *err)
{
    bool taken = true;
    lw_plan_record other;
    for (int i = 1; taken; i++) {
        (void)snprintf(out, LW_CODE, "PL%d", i);
        if (!lw_store_get(store, LW_PLANS, "code", out, &other, &taken, err))
            return false;
    }
    return true;
}

static bool put_slots(lw_store *store, const lw_planned_pack *pack, char (*ids)[LW_ID], const lw_pack_record *record,
                      lw_error *err)
{
    for (int g = 0; g < pack->series; g++)
        for (size_t i = pack->first[g]; i < pack->first[g + 1]; i++) {
            lw_slot_record slot = {.group = g + 1, .place = (int)(i - pack->first[g]) + 1};
            memcpy(slot.pack, record->id, LW_ID);
            memcpy(slot.cell, ids[i], LW_ID);
            memcpy(slot.since, record->at, sizeof slot.since);
            if (!lw_store_put(store, LW_SLOTS, &slot, err))
                return false;
        }
    return true;
}

/* The code on the pack's label, unless another was asked for. */
static bool code_of(lw_store *store, const lw_use_plan *ask, const lw_planned_pack *pack, int number, char out[LW_CODE],
                    lw_error *err)
{
    lw_pack_record other;
    bool taken = false;
    if (ask->pack || !pack->code)
        return lw_pack_code(store, ask->pack, number, out, err);
    if (!lw_record_text("plan", pack->code, out, LW_CODE, err) ||
        !lw_store_get(store, LW_PACKS, "code", out, &other, &taken, err))
        return false;
    return !taken || lw_fail(err, LW_WRONG_INPUT, "plan",
                             "There is a pack %s already, of this same plan. Plan again with another seed, so that no "
                             "two packs carry one label.",
                             out);
}

static bool put_packs(lw_store *store, const lw_use_plan *ask, const lw_planned_packs *plan, char (*ids)[LW_ID],
                      const char *plan_id, lw_pack_record *out, lw_error *err)
{
    for (size_t p = 0; p < plan->packs; p++) {
        const lw_planned_pack *pack = &plan->pack[p];
        lw_pack_record *record = &out[p];
        *record = (lw_pack_record){.series = pack->series,
                                   .weakest_ah = pack->weakest_ah,
                                   .guaranteed_ah = pack->guaranteed_ah,
                                   .state = "reserved"};
        (void)snprintf(record->voltage_class, sizeof record->voltage_class, "%s", pack->voltage_class);
        (void)snprintf(record->plan, sizeof record->plan, "%s", plan_id);
        lw_store_now(store, record->at);
        if (!lw_record_text("note", ask->note ? ask->note : pack->lamp, record->note, sizeof record->note, err) ||
            !code_of(store, ask, pack, (int)p, record->code, err) || !lw_store_put(store, LW_PACKS, record, err) ||
            !put_slots(store, pack, ids, record, err))
            return false;
    }
    return true;
}

static bool reserve(lw_store *store, const lw_use_plan *ask, const lw_planned_packs *plan, char (*ids)[LW_ID],
                    lw_used_plan *out, lw_error *err)
{
    lw_plan_record *record = &out->plan;
    *record = (lw_plan_record){.document = ask->text};
    lw_store_now(store, record->at);
    (void)snprintf(record->name, sizeof record->name, "%.*s", LW_WORD - 1, plan->name);
    return check_cells(store, plan, ids, err) && plan_code(store, record->code, err) &&
           lw_store_put(store, LW_PLANS, record, err) && put_packs(store, ask, plan, ids, record->id, out->pack, err);
}

size_t lw_desk_use_plan_memory(size_t length)
{
    return lw_planned_packs_memory(length) + (length / 6 + 2) * LW_ID + LW_BRIEF_LAMPS * sizeof(lw_pack_record) + 4096;
}

bool lw_desk_use_plan(lw_store *store, const lw_use_plan *ask, lw_arena *arena, lw_used_plan *out, lw_error *err)
{
    *out = (lw_used_plan){0};
    lw_planned_packs *plan = &out->planned;
    if (!lw_planned_packs_read(ask->text, ask->length, arena, plan, err))
        return false;
    char(*ids)[LW_ID] = lw_arena_take(arena, plan->cells + 1, sizeof *ids, err);
    out->pack = lw_arena_take(arena, plan->packs + 1, sizeof *out->pack, err);
    /* looking and reserving are one transaction, so that nobody takes the same cells meanwhile */
    if (!ids || !out->pack || !lw_store_begin(store, "crate use of a plan", err))
        return false;
    if (reserve(store, ask, plan, ids, out, err))
        return lw_store_commit(store, err);
    lw_store_rollback(store);
    return false;
}
