/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The most lamps from a crate: search, choice and real packs, again with the cells as their packs really are, and with
 * the crate in grades; the attempt that lights most lamps is kept. A brief that counts its cells takes one round.
 */
#include "plan_crate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* What a round came to, apart from the work that others share. */
typedef struct attempt {
    lw_plan plan;
    lw_real_pack real[LW_BRIEF_LAMPS];
    size_t real_count;
} attempt;

/* Lamps that keep the wish. */
static int lit(const lw_plan *plan)
{
    int sum = 0;
    for (size_t k = 0; k < plan->kind_count; k++)
        sum += plan->kind[k].keeps ? plan->kind[k].count : 0;
    return sum;
}

static double dark(const lw_plan *plan)
{
    double sum = 0.0;
    for (size_t k = 0; k < plan->kind_count; k++)
        sum += plan->kind[k].outcome.dark.mean * plan->kind[k].count;
    return sum;
}

/* More lamps that keep the wish; of as many, more lamps at all; then fewer dark nights. */
static bool is_better(const lw_plan *a, const lw_plan *b)
{
    if (lit(a) != lit(b))
        return lit(a) > lit(b);
    if (a->lamps_without != b->lamps_without)
        return a->lamps_without < b->lamps_without;
    return dark(a) < dark(b) - 1e-9;
}

/* Whether more cells could help: what is left would not make one more of the largest packs. */
static bool cells_are_short(const lw_plan *plan)
{
    int left = 0, largest = 0;
    for (size_t i = 0; i < plan->brief.shelf.cell_count; i++)
        left += plan->brief.shelf.cell[i].count;
    for (size_t k = 0; k < plan->kind_count; k++) {
        const lw_plan_kind *kind = &plan->kind[k];
        const int pack = kind->design.series * kind->design.parallel;
        left -= pack * kind->count;
        largest = pack > largest ? pack : largest;
    }
    return left < largest;
}

static bool all_lit(const lw_plan *plan)
{
    return plan->keeps && plan->lamps_without == 0;
}

/* One grading of the crates: again with the cells as their packs really are, while a lamp misses the wish with them. */
static bool rounds_of(lw_plan_work *work, lw_shortlists *lists, lw_crates *crates, attempt *best, bool *any,
                      lw_error *err)
{
    enum { ROUNDS = 3 };
    lw_plan *plan = work->plan;
    for (int i = 0; i < ROUNDS; i++) {
        if (!lw_work_choose(work, lists, err) || !lw_work_real_packs(work, crates, err))
            return false;
        if (!*any || is_better(plan, &best->plan)) {
            best->plan = *plan;
            memcpy(best->real, work->real, sizeof best->real);
            best->real_count = work->real_count;
            *any = true;
        }
        if (all_lit(plan) || !lw_crates_as_packed(crates, plan))
            break;
    }
    return true;
}

/* The kind of lamp with most lamps that do not keep the wish; LW_BRIEF_KINDS: none. */
static size_t most_missed(const lw_plan *plan)
{
    size_t most = LW_BRIEF_KINDS;
    int missed = 0;
    for (size_t k = 0; k < plan->brief.want.lamp_count; k++) {
        int without = plan->brief.want.lamp[k].count;
        for (size_t i = 0; i < plan->kind_count; i++)
            if (plan->kind[i].kind == k && plan->kind[i].keeps)
                without -= plan->kind[i].count;
        if (without > missed) {
            missed = without;
            most = k;
        }
    }
    return most;
}

/* The least charge of a group with which a design that keeps the wish still does, by halving. */
static bool least_group(lw_plan_work *work, size_t kind, const lw_candidate *keeper, lw_need *need, lw_error *err)
{
    enum { HALVINGS = 7 };
    const lw_shelf *shelf = &work->brief->shelf;
    const double full_ah = keeper->design.parallel * shelf->cell[keeper->design.cell].capacity_ah;
    double keeps = 1.0, fails = 0.5;
    for (int i = 0; i < HALVINGS; i++) {
        lw_trial trial = lw_trial_of(work, kind, &keeper->design, LW_WORK_BLOCKS);
        trial.real = NULL;
        trial.pack_scale = 0.5 * (keeps + fails);
        if (!lw_work_run(work, &trial, 1, err))
            return false;
        if (trial.outcome.sure_share >= work->brief->want.sure_share)
            keeps = trial.pack_scale;
        else
            fails = trial.pack_scale;
    }
    *need = (lw_need){.cell = keeper->design.cell,
                      .series = keeper->design.series,
                      .most_parallel = shelf->most_parallel,
                      .lamps = work->brief->want.lamp[kind].count,
                      .group_ah = keeps * full_ah};
    return true;
}

static bool cells_lack(const attempt *best)
{
    return !all_lit(&best->plan) && best->plan.kind_count > 0 && cells_are_short(&best->plan);
}

/* Grades made for the lamp that misses most; *most: no more such lamps can be lit from all the charge of its crate. */
static bool grade_for_missed(lw_plan_work *work, lw_shortlists *lists, lw_crates *crates, attempt *best, int *most,
                             lw_error *err)
{
    const size_t kind = most_missed(&best->plan);
    bool any = true;
    lw_need need;
    if (kind == LW_BRIEF_KINDS || lists->count[kind] == 0 || !lists->candidate[kind][0].keeps)
        return true;
    return least_group(work, kind, &lists->candidate[kind][0], &need, err) &&
           (!lw_crates_grade_for(crates, work->plan, &need, most) || rounds_of(work, lists, crates, best, &any, err));
}

/* The cells of a list as one lot; as long as lamps lack cells also in grades made for them, and in two, three and four
 * equal ones; the best is kept. */
static bool try_all(lw_plan_work *work, lw_shortlists *lists, lw_crates *crates, attempt *best, lw_error *err)
{
    enum { MOST_GRADES = 4 };
    lw_plan *plan = work->plan;
    bool any = false;
    int most = LW_BRIEF_LAMPS;
    if (!rounds_of(work, lists, crates, best, &any, err) ||
        (cells_lack(best) && !grade_for_missed(work, lists, crates, best, &most, err)))
        return false;
    const bool one_kind = plan->brief.want.lamp_count == 1;
    for (int grades = 2; grades <= MOST_GRADES && cells_lack(best) && !(one_kind && lit(&best->plan) >= most); grades++)
        if (lw_crates_grade(crates, plan, grades) && !rounds_of(work, lists, crates, best, &any, err))
            return false;
    const long simulated = plan->simulated_years;
    *plan = best->plan;
    plan->simulated_years = simulated;
    memcpy(work->real, best->real, sizeof best->real);
    work->real_count = best->real_count;
    return true;
}

bool lw_work_light_most(lw_plan_work *work, lw_crates *crates, lw_error *err)
{
    lw_shortlists *lists = calloc(1, sizeof *lists);
    attempt *best = malloc(sizeof *best);
    const bool done = lists && best ? try_all(work, lists, crates, best, err)
                                    : lw_fail(err, LW_STORAGE, "", "There is not enough memory for a plan.");
    free(lists);
    free(best);
    return done;
}
