/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * After the sizes are chosen: the very cells are dealt to the lamps and matched into packs, and each design is
 * simulated anew with the weakest of its packs.
 */
#include "plan_crate.h"

#include <math.h>
#include <stdio.h>

static const double pack_confidence = 0.9; /* of the guaranteed capacity, where cells carry an uncertainty */

static int cells_of(const lw_plan_kind *kind)
{
    return kind->count * kind->design.series * kind->design.parallel;
}

/* Which of the strongest cells go to design `mine` of the plan: they are dealt in order of strength, each to the
 * design that lags most behind its share, so that all designs get cells of the same quality. */
static size_t deal(const lw_plan *plan, int cell, size_t mine, const lw_grade *grade, lw_lot_cell *out)
{
    int need[LW_BRIEF_LAMPS] = {0}, given[LW_BRIEF_LAMPS] = {0}, all = 0;
    for (size_t k = 0; k < plan->kind_count; k++) {
        need[k] = plan->kind[k].design.cell == cell ? cells_of(&plan->kind[k]) : 0;
        all += need[k];
    }
    size_t n = 0;
    for (int i = 0; i < all && (size_t)i < grade->n; i++) {
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
            out[n++] = grade->cells[i];
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
            if (match->guaranteed_ah)
                pack->guaranteed_ah =
                    g ? fmin(pack->guaranteed_ah, match->guaranteed_ah[group]) : match->guaranteed_ah[group];
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

static bool match_design(lw_plan_work *work, size_t kind, const lw_grade *grade, lw_error *err)
{
    lw_plan *plan = work->plan;
    const lw_plan_kind *of = &plan->kind[kind];
    lw_arena *arena = grade->arena;
    const size_t used = arena->used;
    lw_lot_cell *cells = lw_arena_take(arena, (size_t)cells_of(of), sizeof *cells, err);
    if (!cells)
        return false;
    const lw_match_ask ask = {.cells = cells,
                              .n = deal(plan, of->design.cell, kind, grade, cells),
                              .series = of->design.series,
                              .packs = of->count,
                              .parallel = of->design.parallel,
                              .confidence = pack_confidence,
                              .seed = 1};
    lw_match match;
    lw_plan_pack *weakest;
    const bool done = lw_match_cells(&ask, arena, &match, err) && write_packs(plan, kind, &ask, &match, &weakest, err);
    arena->used = used;
    if (done)
        work->real[work->real_count++] = (lw_real_pack){kind, weakest};
    return done;
}

/* The same pack as weak as it is in the worst of ten cases: all groups at the guaranteed share of the weakest. */
static bool run_guaranteed(lw_plan_work *work, const lw_plan_pack *pack, lw_trial trial, lw_plan_kind *kind,
                           lw_error *err)
{
    if (!(pack->guaranteed_ah > 0.0 && pack->guaranteed_ah < pack->weakest_ah))
        return true;
    trial.pack_scale = pack->guaranteed_ah / pack->weakest_ah;
    if (!lw_work_run(work, &trial, 1, err))
        return false;
    kind->guaranteed = true;
    kind->guaranteed_dark = trial.outcome.dark;
    return true;
}

/* The outcome of each design anew, with its weakest pack (lw_trial_of finds it). */
static bool run_anew(lw_plan_work *work, lw_error *err)
{
    lw_plan *plan = work->plan;
    for (size_t r = 0; r < work->real_count; r++) {
        lw_plan_kind *kind = &plan->kind[work->real[r].kind];
        lw_trial trial = lw_trial_of(work, kind->kind, &kind->design, LW_WORK_BLOCKS);
        const lw_trial again = trial;
        kind->guaranteed = false;
        if (!lw_work_run(work, &trial, 1, err) || !run_guaranteed(work, work->real[r].pack, again, kind, err))
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
    plan->pack_count = 0;
    plan->cell_count = 0;
    work->real_count = 0;
    for (size_t k = 0; k < plan->kind_count; k++) {
        const lw_grade grade = lw_crates_of(crates, plan->kind[k].design.cell);
        if (grade.n > 0 && !match_design(work, k, &grade, err))
            return false;
    }
    return run_anew(work, err);
}
