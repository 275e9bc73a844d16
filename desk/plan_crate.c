/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lists of tested cells on the shelf: what of them may be used goes into the brief as cells of their mean; after the
 * sizes are chosen, these very cells are dealt to the lamps and matched into packs, and each design is simulated anew
 * with the weakest of its packs.
 */
#include "plan_crate.h"

#include "lanewick/cell_csv.h"
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

struct lw_crates {
    lw_crate of[LW_SHELF_KINDS]; /* of each kind of cell; n = 0: no list */
};

typedef struct tally {
    int scrap, unsure, other_class;
} tally;

static bool read_bytes(const char *field, const char *folder, const char *name, char **bytes, size_t *length,
                       lw_error *err)
{
    char path[1024];
    const bool absolute = name[0] == '/' || !folder;
    (void)snprintf(path, sizeof path, "%s%s%s", absolute ? "" : folder, absolute ? "" : "/", name);
    FILE *file = fopen(path, "rb");
    if (!file)
        return lw_fail(err, LW_WRONG_INPUT, field, "%s: %.200s could not be opened.", field, path);
    *bytes = malloc((size_t)LW_CSV_MAX_BYTES + 1);
    *length = *bytes ? fread(*bytes, 1, (size_t)LW_CSV_MAX_BYTES + 1, file) : 0;
    const bool well = *bytes && ferror(file) == 0;
    (void)fclose(file);
    return well || lw_fail(err, LW_STORAGE, field, "%s: %.200s could not be read.", field, path);
}

static bool is_one_of(const char *word, const char *a, const char *b)
{
    return strcasecmp(word, a) == 0 || strcasecmp(word, b) == 0;
}

/* Whether a pack may hold the cell; what may not is counted. */
static bool usable(const lw_lot_cell *cell, const char *class, tally *out)
{
    const bool sound = !cell->verdict[0] || is_one_of(cell->verdict, "sound", "tired");
    const bool scrap = strcasecmp(cell->verdict, "scrap") == 0;
    const bool same = !cell->voltage_class[0] || strcasecmp(cell->voltage_class, class) == 0;
    out->scrap += scrap;
    out->unsure += !sound && !scrap;
    out->other_class += sound && !same;
    return sound && same;
}

static int stronger_first(const void *a, const void *b)
{
    const lw_lot_cell *one = a, *other = b;
    if (one->capacity_ah != other->capacity_ah)
        return one->capacity_ah > other->capacity_ah ? -1 : 1;
    return strcmp(one->id, other->id);
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

/* The kind of cell as the list knows it: mean capacity and resistance; the spread that is left in a matched pack is
 * the tests' own uncertainty, where they tell one. */
static void describe(const lw_crate *crate, int kind, lw_shelf_cell *cell, lw_assumptions *assumed)
{
    double ah = 0.0, variance = 0.0, ohm = 0.0;
    int with_ohm = 0;
    for (size_t i = 0; i < crate->n; i++) {
        ah += crate->cells[i].capacity_ah / (double)crate->n;
        variance += crate->cells[i].capacity_sd_ah * crate->cells[i].capacity_sd_ah / (double)crate->n;
        ohm += crate->cells[i].resistance_mohm / 1000.0;
        with_ohm += crate->cells[i].resistance_mohm > 0.0;
    }
    cell->count = (int)crate->n;
    cell->capacity_ah = ah;
    if (variance > 0.0) {
        cell->capacity_sd_pct = fmin(40.0, 100.0 * sqrt(variance) / ah);
        no_longer_assumed(assumed, kind, "capacity_sd_pct");
    }
    if (with_ohm > 0) {
        cell->resistance_ohm = ohm / with_ohm;
        no_longer_assumed(assumed, kind, "resistance_ohm");
    }
}

static void tell_left_out(const lw_shelf_cell *cell, int kind, size_t all, size_t kept, const tally *out,
                          lw_refusals *left_out)
{
    if (kept == all)
        return;
    lw_refusal told = {0};
    (void)snprintf(told.id, sizeof told.id, "cells_left_out_%d", kind + 1);
    (void)snprintf(
        told.reason, sizeof told.reason,
        "%zu of %zu cells of %.60s are left out: %d scrap, %d unsure or not tested, %d of another or unknown "
        "voltage class.",
        all - kept, all, cell->cells_file, out->scrap, out->unsure, out->other_class);
    (void)snprintf(told.remedy, sizeof told.remedy,
                   "Finish the tests of the unsure ones and plan again; scrap goes to battery waste.");
    (void)snprintf(told.source, sizeof told.source, "hard limits of lanewick (docs/safety.md)");
    lw_refuse(left_out, &told);
}

static bool take_usable(const char *field, const lw_cell_list *list, const char *class, lw_crate *crate, tally *out,
                        lw_error *err)
{
    crate->cells = list->cells;
    for (size_t i = 0; i < list->n; i++) {
        if (!usable(&list->cells[i], class, out))
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
    qsort(crate->cells, crate->n, sizeof crate->cells[0], stronger_first);
    return true;
}

static bool read_one(const char *folder, lw_plan *plan, int kind, lw_crate *crate, lw_error *err)
{
    static const char *const classes[] = {"4v2", "4v35", "lfp", "unknown"};
    lw_shelf_cell *cell = &plan->brief.shelf.cell[kind];
    char field[64], *bytes = NULL;
    size_t length = 0;
    tally out = {0};
    lw_cell_list list;
    lw_error why = {0};
    (void)snprintf(field, sizeof field, "shelf.cells[%d].cells_file", kind + 1);
    bool done = read_bytes(field, folder, cell->cells_file, &bytes, &length, err);
    const size_t size = done ? lw_desk_pack_memory(bytes, length) : 0;
    crate->arena = lw_arena_over(size ? malloc(size) : NULL, size);
    if (done && size == 0)
        done = lw_fail(err, LW_WRONG_INPUT, field, "%s: %.200s is too large.", field, cell->cells_file);
    else if (done && !crate->arena.base)
        done = lw_fail(err, LW_STORAGE, field, "There is not enough memory for the cells of a plan.");
    if (done && !lw_cell_csv_read(bytes, length, &crate->arena, &list, &why))
        done = lw_fail(err, why.family, field, "%s: %s", field, why.message);
    done = done && take_usable(field, &list, classes[cell->voltage_class], crate, &out, err);
    if (done) {
        describe(crate, kind, cell, &plan->brief.assumed);
        tell_left_out(cell, kind, list.n, crate->n, &out, &plan->left_out);
    }
    free(bytes);
    return done;
}

lw_crates *lw_crates_read(const char *folder, lw_plan *plan, lw_error *err)
{
    lw_crates *crates = calloc(1, sizeof *crates);
    lw_shelf *shelf = &plan->brief.shelf;
    bool done = crates || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the cells of a plan.");
    for (size_t i = 0; done && i < shelf->cell_count; i++)
        if (shelf->cell[i].cells_file[0])
            done = read_one(folder, plan, (int)i, &crates->of[i], err);
    if (done)
        return crates;
    lw_crates_free(crates);
    return NULL;
}

void lw_crates_free(lw_crates *crates)
{
    for (size_t i = 0; crates && i < LW_SHELF_KINDS; i++)
        free(crates->of[i].arena.base);
    free(crates);
}

/* ---- after the sizes are chosen ---- */

static int cells_of(const lw_plan_kind *kind)
{
    return kind->count * kind->design.series * kind->design.parallel;
}

/* Which of the strongest cells go to design `mine` of the plan: they are dealt in order of strength, each to the
 * design that lags most behind its share, so that all designs get cells of the same quality. */
static size_t deal(const lw_plan *plan, int cell, size_t mine, const lw_crate *crate, lw_lot_cell *out)
{
    int need[LW_BRIEF_LAMPS] = {0}, given[LW_BRIEF_LAMPS] = {0}, all = 0;
    for (size_t k = 0; k < plan->kind_count; k++) {
        need[k] = plan->kind[k].design.cell == cell ? cells_of(&plan->kind[k]) : 0;
        all += need[k];
    }
    size_t n = 0;
    for (int i = 0; i < all && (size_t)i < crate->n; i++) {
        size_t to = 0;
        double most = -INFINITY;
        for (size_t k = 0; k < plan->kind_count; k++) {
            const double lag = (double)need[k] * (i + 1) / all - given[k];
            if (need[k] > given[k] && lag > most + 1e-9) {
                most = lag;
                to = k;
            }
        }
        given[to]++;
        if (to == mine)
            out[n++] = crate->cells[i];
    }
    return n;
}

/* Packs of one design into the plan; *weakest: the pack whose weakest group is weakest of all. */
static bool write_packs(lw_plan *plan, size_t kind, const lw_match_ask *ask, const lw_match *match,
                        lw_plan_pack **weakest, lw_error *err)
{
    *weakest = NULL;
    for (int p = 0; p < ask->packs; p++) {
        lw_plan_pack *pack = &plan->pack[plan->pack_count++];
        *pack = (lw_plan_pack){.kind = kind, .number = p, .first = plan->cell_count, .weakest_ah = INFINITY};
        for (int g = 0; g < ask->series; g++) {
            const int group = p * ask->series + g;
            pack->group_ah[g] = match->capacity_ah[group];
            pack->group_mohm[g] = match->group_mohm[group];
            pack->weakest_ah = fmin(pack->weakest_ah, pack->group_ah[g]);
            for (size_t i = 0; i < ask->n; i++) {
                if (match->group[i] != group)
                    continue;
                if (plan->cell_count >= LW_PLAN_PACK_CELLS)
                    return lw_fail(err, LW_WRONG_INPUT, "shelf.cells", "A plan names at most %d cells one by one.",
                                   LW_PLAN_PACK_CELLS);
                (void)snprintf(plan->cell_id[plan->cell_count++], LW_PLAN_CELL_ID, "%s", ask->cells[i].id);
            }
        }
        if (!*weakest || pack->weakest_ah < (*weakest)->weakest_ah)
            *weakest = pack;
    }
    return true;
}

static bool match_design(lw_plan_work *work, size_t kind, lw_crate *crate, lw_error *err)
{
    lw_plan *plan = work->plan;
    const lw_plan_kind *of = &plan->kind[kind];
    const size_t used = crate->arena.used;
    lw_lot_cell *cells = lw_arena_take(&crate->arena, (size_t)cells_of(of), sizeof *cells, err);
    if (!cells)
        return false;
    const lw_match_ask ask = {.cells = cells,
                              .n = deal(plan, of->design.cell, kind, crate, cells),
                              .series = of->design.series,
                              .packs = of->count,
                              .parallel = of->design.parallel,
                              .confidence = 0.9,
                              .seed = 1};
    lw_match match;
    lw_plan_pack *weakest;
    const bool done =
        lw_match_cells(&ask, &crate->arena, &match, err) && write_packs(plan, kind, &ask, &match, &weakest, err);
    crate->arena.used = used;
    if (done)
        work->real[work->real_count++] = (lw_real_pack){kind, weakest};
    return done;
}

/* The outcome of each design anew, with its weakest pack (lw_trial_of finds it). */
static bool run_anew(lw_plan_work *work, lw_error *err)
{
    lw_plan *plan = work->plan;
    for (size_t r = 0; r < work->real_count; r++) {
        lw_plan_kind *kind = &plan->kind[work->real[r].kind];
        lw_trial trial = lw_trial_of(work, kind->kind, &kind->design, LW_WORK_BLOCKS);
        if (!lw_work_run(work, &trial, 1, err))
            return false;
        kind->outcome = trial.outcome;
        kind->keeps = trial.outcome.sure_share >= work->brief->want.sure_share;
        plan->keeps = plan->keeps && kind->keeps;
    }
    return true;
}

bool lw_work_real_packs(lw_plan_work *work, lw_crates *crates, lw_error *err)
{
    lw_plan *plan = work->plan;
    for (size_t k = 0; k < plan->kind_count; k++) {
        lw_crate *crate = &crates->of[plan->kind[k].design.cell];
        if (crate->n > 0 && !match_design(work, k, crate, err))
            return false;
    }
    return run_anew(work, err);
}
