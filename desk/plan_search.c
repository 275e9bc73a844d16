/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sizes worth looking at for one kind of lamp: the smallest packs (plan_lines.h), and of the sizes met on the way
 * those that no other beats, simulated over all draws.
 */
#include "plan_lines.h"

#include <stdlib.h>
#include <string.h>

/* All draws for each candidate, half of them where that is clear; one that no longer keeps the wish gets one more cell
 * in parallel, twice at most. */
static bool verify(lw_size_search *s, lw_candidate *candidates, size_t *count, size_t room, lw_error *err)
{
    size_t from = 0, to = *count;
    for (int round = 0; round < 3 && from < to; round++) {
        for (size_t i = from; i < to; i++) {
            const bool hopeless = candidates[i].outcome.sure_share < 0.5; /* fewer draws tell enough */
            s->trial[i - from] =
                lw_trial_of(s->work, s->kind, &candidates[i].design, hopeless ? LW_WORK_SCREEN : LW_WORK_BLOCKS);
        }
        if (!lw_work_run(s->work, s->trial, to - from, err))
            return false;
        size_t end = to;
        for (size_t i = from; i < to; i++) {
            const bool hoped = candidates[i].keeps;
            candidates[i].outcome = s->trial[i - from].outcome;
            candidates[i].keeps = candidates[i].outcome.sure_share >= s->work->brief->want.sure_share;
            lw_candidate more = candidates[i];
            more.design.parallel++;
            more.cost_minor = lw_design_cost_minor(&s->work->brief->shelf, &more.design);
            more.keeps = true;
            if (round < 2 && hoped && !candidates[i].keeps && end < room &&
                more.design.parallel <= lw_design_most_parallel(&s->work->brief->shelf, &more.design))
                candidates[end++] = more;
        }
        from = to;
        to = end;
    }
    *count = to;
    return true;
}

/* The cheapest keeper with so many panels of a kind (and cells of a kind; -1: of any); NULL: none. */
static const lw_candidate *cheapest_with(const lw_size_search *s, int panel, int panels, int cell)
{
    const lw_candidate *best = NULL;
    for (size_t i = 0; i < s->tried_count; i++) {
        const lw_candidate *c = &s->tried[i];
        if (c->keeps && c->design.panel == panel && c->design.panels == panels &&
            (cell < 0 || c->design.cell == cell) && (!best || c->cost_minor < best->cost_minor))
            best = c;
    }
    return best;
}

static void add_new(const lw_candidate *candidate, lw_candidate *out, size_t *n, size_t room)
{
    for (size_t k = 0; k < *n; k++)
        if (lw_design_same(&out[k].design, &candidate->design))
            return;
    if (*n < room)
        out[(*n)++] = *candidate;
}

/* From all sizes tried: those along the front, and the cheapest keepers with each kind of panel and of cell, so that
 * lamps that share a shelf have a choice. */
static size_t shortlist(lw_size_search *s, lw_candidate *out, size_t room)
{
    static const size_t of_front = 6;
    const lw_shelf *shelf = &s->work->brief->shelf;
    size_t n = 0;
    for (int cell = -1; cell < (int)shelf->cell_count; cell++)
        for (int p = 0; p < (int)shelf->panel_count; p++)
            for (int panels = 1; panels <= shelf->most_panels; panels++) {
                const lw_candidate *best = cheapest_with(s, p, panels, cell);
                if (best)
                    add_new(best, out, &n, room - of_front);
            }
    const size_t front = lw_plan_front(s->tried, s->tried_count, of_front);
    for (size_t i = 0; i < front; i++)
        add_new(&s->tried[i], out, &n, room);
    return n;
}

/* Designs for the schedule with its late light turned down: their drivers must be able to do that. */
static size_t late_designs(const lw_size_search *s, lw_design *designs)
{
    const lw_brief *brief = s->work->brief;
    const lw_lamp_kind *lamp = &brief->want.lamp[s->kind];
    lw_lamp_kind late = *lamp;
    lw_span span[LW_MAX_SPANS];
    late.span_count = (size_t)lw_plan_spans(lamp, true, brief->want.least_late_level, span);
    memcpy(late.span, span, late.span_count * sizeof span[0]);
    lw_refusals known = {0}; /* told already */
    return lw_plan_designs(brief, &late, s->work->plan->coldest_c, &s->work->plan->box, designs, LW_WORK_DESIGNS,
                           &known);
}

static bool run_search(lw_size_search *s, lw_design *designs, size_t count, lw_candidate *out, size_t room,
                       size_t *found, lw_error *err)
{
    const lw_want *want = &s->work->brief->want;
    const bool may_trim = want->least_late_level < 1.0;
    if (!lw_work_engine(s->work, s->kind, false, &designs[0], err) || !lw_lines_begin(s, designs, count, false, err) ||
        !lw_lines_converge(s, err))
        return false;
    bool keeps = false;
    for (size_t i = 0; i < s->tried_count; i++)
        keeps = keeps || s->tried[i].keeps;
    if (may_trim && !lw_work_engine(s->work, s->kind, true, &designs[0], err))
        return false;
    if (may_trim && !keeps) {
        s->line_count = 0;
        memset(s->life_parallel, 0, sizeof s->life_parallel);
        count = late_designs(s, designs);
        if (count > 0 && (!lw_lines_begin(s, designs, count, true, err) || !lw_lines_converge(s, err)))
            return false;
    }
    *found = shortlist(s, out, room);
    return verify(s, out, found, room, err);
}

bool lw_work_search(lw_plan_work *work, size_t kind, bool prune, lw_candidate *out, size_t room, size_t *count,
                    lw_error *err)
{
    lw_design *designs = malloc(LW_WORK_DESIGNS * sizeof *designs);
    lw_size_search *s = calloc(1, sizeof *s);
    *count = 0;
    bool done = designs && s;
    if (!done)
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for the search.");
    if (done) {
        s->work = work;
        s->kind = kind;
        s->breadth = prune ? LW_NOT_FAR_DEARER : LW_ALL_WAYS;
        const size_t n = lw_plan_designs(work->brief, &work->brief->want.lamp[kind], work->plan->coldest_c,
                                         &work->plan->box, designs, LW_WORK_DESIGNS, &work->plan->left_out);
        done = n == 0 || run_search(s, designs, n, out, room, count, err);
    }
    free(designs);
    free(s);
    return done;
}
