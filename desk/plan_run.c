/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Runs simulations of designs in threads. Every trial is computed by one thread from values that nobody changes, and
 * draw i always meets year i and the parts of draw i: the results do not depend on the number of threads.
 */
#include "plan_work.h"

#include <math.h>

#ifdef _OPENMP
#include <omp.h>
#endif

/* The real pack of a chosen design. */
static const lw_plan_pack *real_pack(const lw_plan_work *work, size_t kind, const lw_design *design)
{
    for (size_t i = 0; i < work->real_count; i++) {
        const lw_plan_kind *of = &work->plan->kind[work->real[i].kind];
        if (of->kind == kind && lw_design_same(&of->design, design))
            return work->real[i].pack;
    }
    return NULL;
}

/* Real groups; a resistance that is not known stays the shelf's. */
static void put_real(const lw_plan_pack *pack, lw_battery *battery)
{
    for (int g = 0; pack && g < battery->series; g++) {
        lw_group *group = &battery->groups[g];
        const double whole_ohm = group->r0_ohm + group->r1_ohm;
        const double grown = pack->group_mohm[g] > 0.0 ? pack->group_mohm[g] / 1000.0 / whole_ohm : 1.0;
        group->capacity_ah = pack->group_ah[g];
        group->r0_ohm *= grown;
        group->r1_ohm *= grown;
    }
}

lw_trial lw_trial_of(const lw_plan_work *work, size_t kind, const lw_design *design, size_t blocks)
{
    return (lw_trial){.kind = kind,
                      .design = *design,
                      .year = work->brief->want.planned_years,
                      .panel_scale = 1.0,
                      .pack_scale = 1.0,
                      .load_scale = 1.0,
                      .real = real_pack(work, kind, design),
                      .blocks = blocks};
}

/* The trial's system as worn; life NULL: as new. */
static bool system_of(const lw_plan_work *work, const lw_trial *trial, const lw_nights_summary *life, lw_system *system,
                      lw_error *err)
{
    const lw_brief *brief = work->brief;
    lw_worn worn = {1.0, 1.0, 1.0};
    if (life)
        worn = lw_plan_worn(&brief->shelf, &trial->design, life, trial->year);
    const lw_lamp_kind *lamp = trial->lamp ? trial->lamp : &brief->want.lamp[trial->kind];
    if (!lw_plan_system(brief, lamp, &trial->design, &worn, work->plan->tilt_deg, work->plan->facing_deg, system, err))
        return false;
    put_real(trial->real, &system->battery);
    if (trial->dims) {
        system->load.dim_count = 1;
        system->load.dims[0] = (lw_dim){0.3, 0.5};
    }
    return true;
}

/* Whether the draws so far decide: far too few keep the wish, or nearly all do. */
static bool decided(const lw_plan_work *work, const lw_trial *trial, const lw_nights_summary *summaries, size_t n)
{
    const lw_want *want = &work->brief->want;
    double kept = 0.0;
    for (size_t i = 0; i < n; i++)
        kept += summaries[i].dark_nights <= want->dark_nights_per_year ? 1.0 : 0.0;
    const double hoped = (double)n * want->sure_share, sd = sqrt(hoped * (1.0 - want->sure_share));
    return kept < hoped - trial->margin_fails * sd || kept > hoped + trial->margin_keeps * sd;
}

static void run_block(const lw_plan_work *work, const lw_trial *trial, const lw_engine *engine, const lw_system *system,
                      size_t block, lw_run_log *log, lw_nights_summary *summaries)
{
    lw_lane_parts parts[LW_LANES];
    for (size_t i = 0; i < LW_LANES; i++) {
        const lw_lane_parts drawn = lw_parts_draw(system, work->request->seed, (uint32_t)(block * LW_LANES + i));
        parts[i] = lw_parts_scaled(&drawn, trial->panel_scale, trial->pack_scale, trial->load_scale);
    }
    lw_engine_run(engine, &work->drive[block], parts, log, summaries + block * LW_LANES);
}

/* Who runs a trial: one thread in its own scratch, or, where a trial is alone, its blocks by several threads. */
typedef struct workers {
    int first, together;
} workers;

/* The first `count` blocks of a system; summaries[count * LW_LANES]; *ran of them were needed: blocks are judged in
 * their order, so that this does not depend on the threads. */
static bool run_blocks(const lw_plan_work *work, const lw_trial *trial, const lw_system *system, size_t count,
                       workers by, lw_nights_summary *summaries, size_t *ran, lw_error *err)
{
    lw_arena arena = work->scratch[by.first]; /* a copy: what is taken here is given back at the end */
    const size_t together = (size_t)by.together;
    const lw_engine *base = trial->engine ? trial->engine : work->engine[trial->kind][trial->design.trimmed];
    const lw_engine *engine = lw_engine_variant(base, system, &arena, err);
    *ran = 0;
    if (!engine)
        return false;
    bool clear = false;
    for (size_t from = 0; !clear && from < count; from += together) {
        const size_t to = from + together < count ? from + together : count;
#ifdef _OPENMP
#pragma omp parallel for schedule(static, 1) num_threads(by.together) if (by.together > 1)
#endif
        for (size_t b = from; b < to; b++)
            run_block(work, trial, engine, system, b, work->log[(size_t)by.first + b - from], summaries);
        while (!clear && *ran < to) {
            ++*ran;
            clear = trial->early > 0 && *ran % trial->early == 0 && decided(work, trial, summaries, *ran * LW_LANES);
        }
    }
    return true;
}

/* How the pack lives, from one block with parts as new. */
static bool find_life(const lw_plan_work *work, lw_trial *trial, lw_system *system, workers by,
                      lw_nights_summary *summaries, lw_error *err)
{
    size_t ran;
    if (trial->life_known)
        return true;
    if (!system_of(work, trial, NULL, system, err) || !run_blocks(work, trial, system, 1, by, summaries, &ran, err))
        return false;
    trial->life = summaries[0];
    return true;
}

static bool run_one(lw_plan_work *work, lw_trial *trial, workers by)
{
    lw_arena *arena = &work->scratch[by.first];
    lw_error *err = &trial->why;
    const atomic_bool *stop = work->request->stop;
    if (stop && atomic_load(stop))
        return lw_fail(err, LW_NOT_COMPUTABLE, "", "The planning was stopped.");
    const size_t used = arena->used, n = trial->blocks * LW_LANES;
    lw_system *system = lw_arena_take(arena, 1, sizeof *system, err);
    lw_nights_summary *summaries = lw_arena_take(arena, n, sizeof *summaries, err);
    double *values = lw_arena_take(arena, n, sizeof *values, err);
    const bool done = system && summaries && values && find_life(work, trial, system, by, summaries, err) &&
                      system_of(work, trial, &trial->life, system, err) &&
                      run_blocks(work, trial, system, trial->blocks, by, summaries, &trial->ran, err);
    if (done) {
        trial->capacity_share = system->battery.capacity_factor;
        lw_outcome_of(summaries, trial->ran * LW_LANES, work->brief->want.dark_nights_per_year,
                      work->brief->want.sure_share, values, &trial->outcome);
    }
    arena->used = used;
    return done;
}

bool lw_work_run(lw_plan_work *work, lw_trial *trials, size_t n, lw_error *err)
{
    const int count = (int)n;
    if (count == 1)
        trials[0].done = run_one(work, &trials[0], (workers){0, work->threads});
#ifdef _OPENMP
#pragma omp parallel for schedule(dynamic, 1) num_threads(work->threads) if (count > 1)
#endif
    for (int i = 0; i < (count > 1 ? count : 0); i++) {
#ifdef _OPENMP
        const int thread = omp_get_thread_num();
#else
        const int thread = 0;
#endif
        trials[i].done = run_one(work, &trials[i], (workers){thread, 1});
    }
    for (size_t i = 0; i < n; i++) {
        work->plan->simulated_years += (long)(trials[i].ran + (trials[i].life_known ? 0 : 1)) * LW_LANES;
        if (!trials[i].done)
            return lw_fail(err, trials[i].why.family, trials[i].why.field, "%s", trials[i].why.message);
    }
    return true;
}

bool lw_work_own_year(lw_plan_work *work, lw_trial *trial, double *dark_nights, lw_error *err)
{
    lw_arena *arena = &work->scratch[0];
    const size_t used = arena->used;
    lw_system *system = lw_arena_take(arena, 1, sizeof *system, err);
    lw_nights_summary *summaries = lw_arena_take(arena, LW_LANES, sizeof *summaries, err);
    lw_nights *nights = lw_arena_take(arena, 1, sizeof *nights, err);
    const bool done = system && summaries && nights &&
                      find_life(work, trial, system, (workers){0, 1}, summaries, err) &&
                      system_of(work, trial, &trial->life, system, err) &&
                      lw_nights_explicit(system, work->file_year, arena, nights, err);
    if (done)
        *dark_nights = nights->dark_nights;
    arena->used = used;
    return done;
}
