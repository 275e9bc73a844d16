/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the sizes found for each kind of lamp to one design for each lamp, all from the one shelf.
 */
#include "plan_work.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const long choice_steps = 400000;

static void add_lamp(lw_plan *plan, size_t kind, const lw_candidate *pick)
{
    for (size_t i = 0; i < plan->kind_count; i++)
        if (plan->kind[i].kind == kind && lw_design_same(&plan->kind[i].design, &pick->design)) {
            plan->kind[i].count++;
            return;
        }
    plan->kind[plan->kind_count++] = (lw_plan_kind){.kind = kind,
                                                    .count = 1,
                                                    .design = pick->design,
                                                    .outcome = pick->outcome,
                                                    .cost_minor = pick->cost_minor,
                                                    .keeps = pick->keeps,
                                                    .file_dark_nights = NAN};
}

/* Designs of one kind stand together, the one of most lamps first. */
static void most_lamps_first(lw_plan *plan)
{
    for (size_t i = 1; i < plan->kind_count; i++)
        for (size_t k = i;
             k > 0 && plan->kind[k - 1].kind == plan->kind[k].kind && plan->kind[k - 1].count < plan->kind[k].count;
             k--) {
            const lw_plan_kind moved = plan->kind[k];
            plan->kind[k] = plan->kind[k - 1];
            plan->kind[k - 1] = moved;
        }
}

/* Whether a lamp of this kind is built so. */
static bool is_chosen(const lw_plan *plan, size_t kind, const lw_design *design)
{
    for (size_t k = 0; k < plan->kind_count; k++)
        if (plan->kind[k].kind == kind && lw_design_same(&plan->kind[k].design, design))
            return true;
    return false;
}

/* Puts an alternative at its place in rising cost. */
static void insert_option(lw_option *list, size_t *n, const lw_candidate *candidate, bool chosen)
{
    size_t at = *n;
    for (; at > 0 && list[at - 1].candidate.cost_minor > candidate->cost_minor; at--)
        list[at] = list[at - 1];
    list[at] = (lw_option){.candidate = *candidate, .chosen = chosen};
    (*n)++;
}

/* The table of alternatives of a kind: the front, and what a scarce shelf made the plan take beside it. */
static void add_options(lw_plan *plan, size_t kind, const lw_candidate *candidates, size_t count)
{
    static const size_t of_front = LW_PLAN_OPTIONS - 4;
    lw_candidate sorted[LW_WORK_CANDIDATES];
    memcpy(sorted, candidates, count * sizeof sorted[0]);
    const size_t front = lw_plan_front(sorted, count, of_front);
    size_t n = 0;
    for (size_t i = 0; i < front; i++)
        insert_option(plan->option[kind], &n, &sorted[i], is_chosen(plan, kind, &sorted[i].design));
    for (size_t i = 0; i < count && n < LW_PLAN_OPTIONS; i++) {
        bool there = !is_chosen(plan, kind, &candidates[i].design);
        for (size_t k = 0; k < n; k++)
            there = there || lw_design_same(&plan->option[kind][k].candidate.design, &candidates[i].design);
        if (!there)
            insert_option(plan->option[kind], &n, &candidates[i], true);
    }
    plan->option_count[kind] = n;
}

/* What keeps the wish first, untrimmed before trimmed, cheap before dear: as the choice weighs them. */
static int best_first(const void *a, const void *b)
{
    const lw_candidate *one = a, *other = b;
    if (one->keeps != other->keeps)
        return one->keeps ? -1 : 1;
    if (one->design.trimmed != other->design.trimmed)
        return one->design.trimmed ? 1 : -1;
    if (!one->keeps && one->outcome.dark.mean != other->outcome.dark.mean)
        return one->outcome.dark.mean < other->outcome.dark.mean ? -1 : 1;
    return (one->cost_minor > other->cost_minor) - (one->cost_minor < other->cost_minor);
}

static void choose(lw_plan *plan, lw_shortlists *lists)
{
    lw_choice_kind kinds[LW_BRIEF_KINDS];
    const lw_want *want = &plan->brief.want;
    for (size_t k = 0; k < want->lamp_count; k++) {
        qsort(lists->candidate[k], lists->count[k], sizeof lists->candidate[k][0], best_first);
        kinds[k] = (lw_choice_kind){lists->candidate[k], lists->count[k], want->lamp[k].count};
    }
    lw_choice choice = {0};
    lw_plan_choose(&plan->brief.shelf, kinds, want->lamp_count, choice_steps, &choice);
    plan->bound_minor = choice.bound_minor;
    plan->choice_complete = choice.complete;
    plan->keeps = choice.without == 0;
    plan->kind_count = 0;
    plan->lamps_without = 0;
    int lamp = 0;
    for (size_t k = 0; k < want->lamp_count; k++) {
        for (int i = 0; i < want->lamp[k].count; i++, lamp++) {
            if (choice.pick[lamp] < 0)
                plan->lamps_without++;
            else
                add_lamp(plan, k, &lists->candidate[k][choice.pick[lamp]]);
        }
        add_options(plan, k, lists->candidate[k], lists->count[k]);
    }
    most_lamps_first(plan);
}

/* Whether some pole of the shelf carries this size; where no wind was given masts are not checked. */
static bool mast_stands(const lw_plan *plan, size_t kind, const lw_design *design)
{
    const lw_brief *brief = &plan->brief;
    char why[LW_REASON], remedy[LW_REASON];
    int left[LW_SHELF_KINDS];
    lw_mast_wish wish;
    lw_plan_mast mast;
    for (size_t i = 0; i < brief->shelf.mast_count; i++)
        left[i] = brief->shelf.mast[i].count;
    return !brief->place.wind_given ||
           (lw_plan_mast_wish(brief, lw_design_panel_w(&brief->shelf, design), lw_design_pack_wh(&brief->shelf, design),
                              plan->tilt_deg, brief->want.lamp[kind].light_m, &wish, NULL) &&
            lw_plan_mast_choose(brief, &wish, left, 1, &mast, why, remedy));
}

/* Sizes that no mast carries are left while others are carried; when none is, the plan tells why. */
static void leave_fallers(const lw_plan *plan, lw_shortlists *lists, size_t kind)
{
    lw_candidate *list = lists->candidate[kind];
    size_t kept = 0;
    for (size_t i = 0; i < lists->count[kind]; i++)
        if (mast_stands(plan, kind, &list[i].design))
            list[kept++] = list[i];
    if (kept > 0)
        lists->count[kind] = kept;
}

static bool search(lw_plan_work *work, bool prune, lw_shortlists *lists, size_t *found, lw_error *err)
{
    const size_t kinds = work->brief->want.lamp_count;
    *found = 0;
    for (size_t k = 0; k < kinds; k++) {
        if (!lw_work_search(work, k, prune, lists->candidate[k], LW_WORK_CANDIDATES, &lists->count[k], err))
            return false;
        leave_fallers(work->plan, lists, k);
        *found += lists->count[k];
        lw_work_tell(work, 0.25 + 0.5 * (double)(k + 1) / (double)kinds, "search");
    }
    return true;
}

bool lw_work_choose(lw_plan_work *work, lw_shortlists *lists, lw_error *err)
{
    lw_plan *plan = work->plan;
    size_t found;
    if (!search(work, true, lists, &found, err))
        return false;
    if (found == 0) {
        plan->kind_count = 0;
        return true;
    }
    choose(plan, lists);
    /* A scarce shelf may need ways of building that looked too dear. */
    if (plan->keeps)
        return true;
    if (!search(work, false, lists, &found, err))
        return false;
    choose(plan, lists);
    return true;
}
