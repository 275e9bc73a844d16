/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From brief to plan, one stage after the other: limits of the brief, weather, search for each kind of lamp, choice
 * from the one shelf, reasons, parts, cautions. See lanewick/desk.h.
 */
#include "plan_crate.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { CANDIDATES = 40 };
static const long choice_steps = 400000;

typedef struct shortlists {
    lw_candidate candidate[LW_BRIEF_KINDS][CANDIDATES];
    size_t count[LW_BRIEF_KINDS];
} shortlists;

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
    lw_candidate sorted[CANDIDATES];
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

static void choose(lw_plan *plan, const shortlists *lists)
{
    lw_choice_kind kinds[LW_BRIEF_KINDS];
    const lw_want *want = &plan->brief.want;
    for (size_t k = 0; k < want->lamp_count; k++)
        kinds[k] = (lw_choice_kind){lists->candidate[k], lists->count[k], want->lamp[k].count};
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

/* Nothing on the shelf may be built: the reasons why parts were left out become the refusal. */
static void refuse_all(lw_plan *plan)
{
    for (size_t i = 0; i < plan->left_out.count; i++)
        lw_refuse(&plan->refused, &plan->left_out.item[i]);
    plan->left_out.count = 0;
}

static bool search(lw_plan_work *work, bool prune, shortlists *lists, size_t *found, lw_error *err)
{
    const size_t kinds = work->brief->want.lamp_count;
    *found = 0;
    for (size_t k = 0; k < kinds; k++) {
        if (!lw_work_search(work, k, prune, lists->candidate[k], CANDIDATES, &lists->count[k], err))
            return false;
        *found += lists->count[k];
        lw_work_tell(work, 0.25 + 0.5 * (double)(k + 1) / (double)kinds, "search");
    }
    return true;
}

static bool walk(lw_plan_work *work, shortlists *lists, lw_crates *crates, lw_error *err)
{
    lw_plan *plan = work->plan;
    size_t found;
    if (!lw_work_begin(work, err) || plan->refused.count > 0)
        return plan->refused.count > 0;
    if (!search(work, true, lists, &found, err))
        return false;
    if (found == 0) {
        refuse_all(plan);
        return plan->refused.count > 0 ||
               lw_fail(err, LW_WRONG_INPUT, "shelf", "Nothing on the shelf makes a lamp for this brief.");
    }
    choose(plan, lists);
    /* A scarce shelf may need ways of building that looked too dear. */
    if (!plan->keeps) {
        if (!search(work, false, lists, &found, err))
            return false;
        choose(plan, lists);
    }
    if (!lw_work_real_packs(work, crates, err))
        return false;
    lw_plan_masts(plan);
    if (plan->refused.count > 0)
        return true;
    if (!lw_work_explain(work, err))
        return false;
    lw_plan_parts(plan);
    lw_plan_wire(plan, &work->scratch[0]);
    lw_plan_cautions(plan);
    lw_work_tell(work, 1.0, "done");
    return true;
}

/* Overlaps are found by the load, which speaks of its own document. */
static void speak_of_brief(lw_error *err)
{
    char *place = strstr(err->message, "load.schedule");
    if (place)
        memcpy(place, "want", 4);
    if (strncmp(err->field, "load.schedule", 13) == 0)
        memcpy(err->field, "want", 4);
}

static bool read_brief(const lw_plan_request *request, lw_brief *brief, lw_error *err)
{
    const char *field = "place.weather_file";
    if (!lw_brief_from_json(request->brief, request->brief_length, brief, err))
        return false;
    if (request->no_files && brief->place.weather_file[0])
        return lw_fail(err, LW_WRONG_INPUT, field,
                       "%s names a file; here a brief gives monthly means or its position alone (files work on the "
                       "command line).",
                       field);
    field = "shelf.cells";
    for (size_t i = 0; request->no_files && i < brief->shelf.cell_count; i++)
        if (brief->shelf.cell[i].cells_file[0])
            return lw_fail(err, LW_WRONG_INPUT, field,
                           "%s[%zu].cells_file names a file; here a brief gives count and capacity_ah (files work on "
                           "the command line).",
                           field, i + 1);
    return true;
}

bool lw_desk_brief_check(const lw_plan_request *request, lw_error *err)
{
    lw_brief *brief = malloc(sizeof *brief);
    if (!brief)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for a brief.");
    const bool done = read_brief(request, brief, err);
    free(brief);
    return done;
}

bool lw_desk_plan(const lw_plan_request *request, lw_plan *plan, lw_error *err)
{
    memset(plan, 0, sizeof *plan);
    plan->seed = request->seed;
    if (!read_brief(request, &plan->brief, err))
        return false;
    lw_crates *crates = lw_crates_read(request->folder, plan, err);
    if (!crates)
        return false;
    if (!lw_limits_brief(&plan->brief, &plan->refused)) {
        lw_crates_free(crates);
        return true;
    }
    shortlists *lists = calloc(1, sizeof *lists);
    lw_plan_work *work = calloc(1, sizeof *work);
    bool done = false;
    if (work && lists) {
        *work = (lw_plan_work){.request = request, .plan = plan, .brief = &plan->brief};
        done = walk(work, lists, crates, err);
        lw_work_end(work);
    } else {
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for a plan.");
    }
    free(work);
    free(lists);
    lw_crates_free(crates);
    if (!done && err)
        speak_of_brief(err);
    return done;
}
