/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lists of tested cells on the shelf, from a file or from the brief itself: what of them may be used goes into the
 * shelf as cells of their mean, all together or in grades of like strength.
 */
#include "plan_crate.h"

#include "read_file.h"
#include "usable.h"

#include "lanewick/brief_cells.h"
#include "lanewick/desk_pack.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

typedef struct lw_crate {
    lw_arena arena;
    lw_lot_cell *cells; /* usable, strongest first */
    size_t n;
} lw_crate;

/* A part of a crate, as an entry of the shelf. */
typedef struct part {
    int crate; /* -1: no list */
    size_t first, n;
} part;

struct lw_crates {
    lw_crate of[LW_SHELF_KINDS];         /* of each entry of the brief; n = 0: no list */
    lw_shelf_cell entry[LW_SHELF_KINDS]; /* as the brief has them */
    size_t entries;
    part part[LW_SHELF_KINDS]; /* of each entry of the shelf as it is graded now */
};

static bool read_bytes(const char *field, const char *folder, const char *name, char **bytes, size_t *length,
                       lw_error *err)
{
    char path[1024];
    lw_file_beside(folder, name, path, sizeof path);
    const lw_file_ask ask = {.field = field,
                             .path = path,
                             .most = LW_CSV_MAX_BYTES,
                             .advice = " A list is looked for from the folder of the brief, or of the plan made from "
                                       "it; keep both there, or give the whole path."};
    return lw_read_file(&ask, bytes, length, err);
}

/* The list tells what the brief left open. */
static void no_longer_assumed(lw_assumptions *list, int kind, const char *key)
{
    char place[72];
    (void)snprintf(place, sizeof place, "shelf.cells[%d].%s", kind + 1, key);
    for (size_t i = 0; i < list->count; i++)
        if (strcmp(list->item[i].key, place) == 0) {
            memmove(&list->item[i], &list->item[i + 1], (list->count - i - 1) * sizeof list->item[0]);
            list->count--;
            return;
        }
}

/* Cells of the shelf as their list knows them: mean capacity and resistance; the spread that is left in a matched pack
 * is the tests' own uncertainty, where they tell one. */
static void describe(const lw_lot_cell *cells, size_t n, lw_shelf_cell *cell)
{
    double ah = 0.0, variance = 0.0, ohm = 0.0;
    int with_ohm = 0;
    for (size_t i = 0; i < n; i++) {
        ah += cells[i].capacity_ah / (double)n;
        variance += cells[i].capacity_sd_ah * cells[i].capacity_sd_ah / (double)n;
        ohm += cells[i].resistance_mohm / 1000.0;
        with_ohm += cells[i].resistance_mohm > 0.0;
    }
    cell->count = (int)n;
    cell->capacity_ah = ah;
    if (variance > 0.0)
        cell->capacity_sd_pct = fmin(40.0, 100.0 * sqrt(variance) / ah);
    if (with_ohm > 0)
        cell->resistance_ohm = ohm / with_ohm;
}

static void tell_assumed(const lw_crate *crate, int kind, lw_assumptions *assumed)
{
    bool spread = false, ohm = false;
    for (size_t i = 0; i < crate->n; i++) {
        spread = spread || crate->cells[i].capacity_sd_ah > 0.0;
        ohm = ohm || crate->cells[i].resistance_mohm > 0.0;
    }
    if (spread)
        no_longer_assumed(assumed, kind, "capacity_sd_pct");
    if (ohm)
        no_longer_assumed(assumed, kind, "resistance_ohm");
}

static void tell_left_out(const lw_shelf_cell *cell, int kind, size_t kept, const lw_unusable *out,
                          lw_refusals *left_out)
{
    const int scrap = out->scrap + cell->left[LW_LEFT_SCRAP], unsure = out->unsure + cell->left[LW_LEFT_UNSURE];
    const int other = out->other_class + cell->left[LW_LEFT_OTHER_CLASS], packed = cell->left[LW_LEFT_PACKED];
    const int weakest = cell->left[LW_LEFT_WEAKEST], all = scrap + unsure + other + packed + weakest;
    const char *source = cell->cells_file[0] ? cell->cells_file : cell->crate[0] ? cell->crate : "the brief's list";
    char in_packs[40] = "", weak[60] = "";
    if (all == 0)
        return;
    lw_refusal told = {0};
    (void)snprintf(told.id, sizeof told.id, "cells_left_out_%d", kind + 1);
    if (packed > 0)
        (void)snprintf(in_packs, sizeof in_packs, ", %d in packs", packed);
    if (weakest > 0)
        (void)snprintf(weak, sizeof weak, ", the %d weakest (more than a plan can name)", weakest);
    (void)snprintf(told.reason, sizeof told.reason,
                   "%d of %zu cells of %.60s are left out: %d scrap, %d unsure or not tested, %d of another or unknown "
                   "voltage class%s%s.",
                   all, kept + (size_t)all, source, scrap, unsure, other, in_packs, weak);
    (void)snprintf(told.remedy, sizeof told.remedy,
                   "Finish the tests of the unsure ones and plan again; scrap goes to battery waste.");
    (void)snprintf(told.source, sizeof told.source, "hard limits of lanewick (docs/safety.md)");
    lw_refuse(left_out, &told);
}

static bool take_usable(const char *field, const lw_cell_list *list, const char *class, lw_crate *crate,
                        lw_unusable *out, lw_error *err)
{
    crate->cells = list->cells;
    for (size_t i = 0; i < list->n; i++) {
        if (!lw_cell_usable(&list->cells[i], class, out))
            continue;
        if (strlen(list->cells[i].id) >= LW_PLAN_CELL_ID)
            return lw_fail(err, LW_WRONG_INPUT, field, "%s: the cell_id %.40s... is too long for a plan (%d letters).",
                           field, list->cells[i].id, LW_PLAN_CELL_ID - 1);
        crate->cells[crate->n++] = list->cells[i];
    }
    if (crate->n == 0)
        return lw_fail(
            err, LW_REFUSED, field,
            "%s: no cell of the list may go into a pack: %d scrap, %d unsure or not tested, %d of another or "
            "unknown voltage class.",
            field, out->scrap, out->unsure, out->other_class);
    qsort(crate->cells, crate->n, sizeof crate->cells[0], lw_stronger_first);
    return true;
}

/* The cells of a file beside the brief. */
static bool from_file(const lw_plan_request *request, const char *field, const lw_shelf_cell *cell, lw_arena *arena,
                      lw_cell_list *list, lw_error *err)
{
    char *bytes = NULL;
    size_t length = 0;
    lw_error why = {0};
    bool done = read_bytes(field, request->folder, cell->cells_file, &bytes, &length, err);
    const size_t size = done ? lw_desk_pack_memory(bytes, length) : 0;
    *arena = lw_arena_over(size ? malloc(size) : NULL, size);
    if (done && size == 0)
        done = lw_fail(err, LW_WRONG_INPUT, field, "%s: %.200s is too large.", field, cell->cells_file);
    else if (done && !arena->base)
        done = lw_fail(err, LW_STORAGE, field, "There is not enough memory for the cells of a plan.");
    if (done && !lw_cell_csv_read(bytes, length, arena, list, &why))
        done = lw_fail(err, why.family, field, "%s: %s", field, why.message);
    free(bytes);
    return done;
}

/* The cells that the brief holds one by one. */
static bool from_brief(const lw_plan_request *request, size_t kind, const lw_shelf_cell *cell, lw_arena *arena,
                       lw_cell_list *list, lw_error *err)
{
    const size_t size = lw_brief_cells_memory((size_t)cell->listed) + lw_desk_match_memory((size_t)cell->listed);
    *arena = lw_arena_over(malloc(size), size);
    if (!arena->base)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for the cells of a plan.");
    return lw_brief_cells(request->brief, request->brief_length, kind, arena, list, err);
}

static bool read_one(const lw_plan_request *request, lw_plan *plan, int kind, lw_crate *crate, lw_error *err)
{
    const lw_shelf_cell *cell = &plan->brief.shelf.cell[kind];
    char field[64];
    lw_unusable out = {0};
    lw_cell_list list = {0};
    (void)snprintf(field, sizeof field, "shelf.cells[%d].%s", kind + 1,
                   cell->cells_file[0] ? "cells_file"
                   : cell->crate[0]    ? "crate"
                                       : "cells");
    if (!cell->cells_file[0] && cell->listed == 0)
        return lw_fail(err, LW_WRONG_INPUT, field,
                       "%s is %.40s, a crate of the workshop's store: say which store with --store FILE or "
                       "$LANEWICK_STORE.",
                       field, cell->crate);
    const bool done = cell->listed == 0 ? from_file(request, field, cell, &crate->arena, &list, err)
                                        : from_brief(request, (size_t)kind, cell, &crate->arena, &list, err);
    if (!done || !take_usable(field, &list, lw_shelf_class_text(cell->voltage_class), crate, &out, err))
        return false;
    tell_assumed(crate, kind, &plan->brief.assumed);
    tell_left_out(cell, kind, crate->n, &out, &plan->left_out);
    return true;
}

lw_crates *lw_crates_read(const lw_plan_request *request, lw_plan *plan, lw_error *err)
{
    lw_crates *crates = calloc(1, sizeof *crates);
    const lw_shelf *shelf = &plan->brief.shelf;
    bool done = crates || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the cells of a plan.");
    for (size_t i = 0; done && i < shelf->cell_count; i++) {
        crates->entry[i] = shelf->cell[i];
        if (shelf->cell[i].cells_file[0] || shelf->cell[i].crate[0] || shelf->cell[i].listed > 0)
            done = read_one(request, plan, (int)i, &crates->of[i], err);
    }
    if (done) {
        crates->entries = shelf->cell_count;
        (void)lw_crates_grade(crates, plan, 1);
        return crates;
    }
    lw_crates_free(crates);
    return NULL;
}

void lw_crates_free(lw_crates *crates)
{
    for (size_t i = 0; crates && i < LW_SHELF_KINDS; i++)
        free(crates->of[i].arena.base);
    free(crates);
}

/* ---- grades ---- */

/* Where an entry of the brief is cut: places in its crate, the last one its end. */
typedef struct cuts {
    size_t end[LW_SHELF_KINDS], count;
} cuts;

static cuts whole(const lw_crate *crate)
{
    return (cuts){.end = {crate->n}, .count = 1};
}

/* The shelf's cells anew, each part of a crate an entry of its own; false when they are too many. */
static bool build(lw_crates *crates, lw_plan *plan, const cuts *entries)
{
    lw_shelf *shelf = &plan->brief.shelf;
    size_t room = 0;
    for (size_t i = 0; i < crates->entries; i++)
        room += entries[i].count;
    if (room > LW_SHELF_KINDS)
        return false;
    shelf->cell_count = 0;
    for (size_t i = 0; i < crates->entries; i++) {
        const lw_crate *crate = &crates->of[i];
        for (size_t k = 0; k < entries[i].count; k++) {
            lw_shelf_cell *cell = &shelf->cell[shelf->cell_count];
            part *p = &crates->part[shelf->cell_count++];
            const size_t first = k ? entries[i].end[k - 1] : 0;
            *p = (part){crate->n > 0 ? (int)i : -1, first, entries[i].end[k] - first};
            *cell = crates->entry[i];
            if (crate->n > 0)
                describe(crate->cells + first, p->n, cell);
            if (entries[i].count > 1)
                (void)snprintf(cell->name, sizeof cell->name, "%.50s, grade %c", crates->entry[i].name,
                               (char)('A' + (int)k));
        }
    }
    return true;
}

bool lw_crates_grade(lw_crates *crates, lw_plan *plan, int grades)
{
    static const size_t least = 2; /* cells of a grade */
    cuts entries[LW_SHELF_KINDS];
    bool any = grades == 1;
    for (size_t i = 0; i < crates->entries; i++) {
        const size_t n = crates->of[i].n, parts = (size_t)grades;
        entries[i] = whole(&crates->of[i]);
        if (grades == 1 || n < least * parts || parts > LW_SHELF_KINDS)
            continue;
        any = true;
        entries[i].count = parts;
        for (size_t k = 0; k < parts; k++)
            entries[i].end[k] = n * (k + 1) / parts;
    }
    return any && build(crates, plan, entries);
}

/* The best of the cells from place i on: lamps, in the fewest grades. */
typedef struct tail {
    int lamps, grades, parallel, of_grade;
} tail;

/* Tries grades of `parallel` cells a group from place i on, of one lamp, two lamps, ... as long as their mean does. */
static void try_grades(const lw_crate *crate, const lw_need *need, size_t i, int parallel, tail *best)
{
    const size_t lamp = (size_t)need->series * (size_t)parallel;
    double sum = 0.0;
    size_t at = i;
    for (int m = 1; m <= need->lamps && i + (size_t)m * lamp <= crate->n; m++) {
        const size_t end = i + (size_t)m * lamp;
        for (; at < end; at++)
            sum += crate->cells[at].capacity_ah;
        if (parallel * sum / (double)(end - i) < need->group_ah)
            return;
        const tail t = {m + best[end].lamps, 1 + best[end].grades, parallel, m};
        if (t.lamps > best[i].lamps || (t.lamps == best[i].lamps && t.grades < best[i].grades))
            best[i] = t;
    }
}

bool lw_crates_grade_for(lw_crates *crates, lw_plan *plan, const lw_need *need, int *most)
{
    const part *p = &crates->part[need->cell];
    cuts entries[LW_SHELF_KINDS];
    *most = 0;
    if (p->crate < 0)
        return false;
    const lw_crate *crate = &crates->of[p->crate];
    tail *best = calloc(crate->n + 1, sizeof *best);
    double all_ah = 0.0;
    for (size_t i = 0; i < crate->n; i++)
        all_ah += crate->cells[i].capacity_ah;
    *most = (int)(all_ah / (need->series * need->group_ah));
    for (size_t i = best ? crate->n : 0; i-- > 0;)
        for (int parallel = 1; parallel <= need->most_parallel; parallel++)
            try_grades(crate, need, i, parallel, best);
    for (size_t i = 0; i < crates->entries; i++)
        entries[i] = whole(&crates->of[i]);
    cuts *mine = &entries[p->crate];
    mine->count = 0;
    size_t at = 0;
    while (best && best[at].lamps > 0 && mine->count < LW_SHELF_KINDS) {
        at += (size_t)need->series * (size_t)best[at].parallel * (size_t)best[at].of_grade;
        mine->end[mine->count++] = at;
    }
    free(best);
    if (mine->count == 0)
        return false;
    if (at < crate->n) { /* what is left over is a grade too, or goes with the last one */
        mine->count += mine->count < LW_SHELF_KINDS;
        mine->end[mine->count - 1] = crate->n;
    }
    return build(crates, plan, entries);
}

bool lw_crates_as_packed(const lw_crates *crates, lw_plan *plan)
{
    lw_shelf *shelf = &plan->brief.shelf;
    bool weaker = false;
    for (size_t i = 0; i < plan->pack_count; i++) {
        const lw_plan_pack *pack = &plan->pack[i];
        const lw_plan_kind *kind = &plan->kind[pack->kind];
        lw_shelf_cell *cell = &shelf->cell[kind->design.cell];
        const double ah = pack->weakest_ah / kind->design.parallel;
        if (kind->keeps || crates->part[kind->design.cell].crate < 0 || ah >= cell->capacity_ah * (1.0 - 1e-6))
            continue;
        cell->capacity_ah = ah;
        weaker = true;
    }
    return weaker;
}

lw_grade lw_crates_of(lw_crates *crates, int cell)
{
    const part *p = &crates->part[cell];
    if (p->crate < 0)
        return (lw_grade){0};
    lw_crate *crate = &crates->of[p->crate];
    return (lw_grade){&crate->arena, crate->cells + p->first, p->n};
}
