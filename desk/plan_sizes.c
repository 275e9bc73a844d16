/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The smallest packs for a lamp of another light than the brief's, by the first draws only: see plan_work.h.
 */
#include "plan_lines.h"

#include <stdlib.h>

/* In rising cost; the dearest are dropped where room is short. */
static void insert(lw_candidate *list, size_t *count, size_t room, const lw_candidate *one)
{
    size_t at = *count < room ? (*count)++ : room;
    for (; at > 0 && list[at - 1].cost_minor > one->cost_minor; at--)
        if (at < room)
            list[at] = list[at - 1];
    if (at < room)
        list[at] = *one;
}

static bool run_sizes(lw_size_search *s, const lw_design *designs, size_t count, lw_candidate *out, size_t room,
                      size_t *found, lw_error *err)
{
    if (!lw_lines_begin(s, designs, count, false, err) || !lw_lines_converge(s, err))
        return false;
    for (size_t i = 0; i < s->line_count; i++) {
        lw_candidate one = {.design = s->design[i], .keeps = true};
        one.design.parallel = s->line[i].keeps;
        one.cost_minor = lw_design_cost_minor(&s->work->brief->shelf, &one.design);
        if (one.design.parallel > 0)
            insert(out, found, room, &one);
    }
    return true;
}

bool lw_work_sizes(lw_plan_work *work, size_t kind, const lw_other_light *other, lw_breadth breadth, lw_candidate *out,
                   size_t room, size_t *count, lw_error *err)
{
    lw_design *designs = malloc(LW_WORK_DESIGNS * sizeof *designs);
    lw_size_search *s = calloc(1, sizeof *s);
    *count = 0;
    bool done = designs && s;
    if (!done)
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for the search.");
    if (done) {
        lw_refusals known = {0}; /* told by the plan itself */
        s->work = work;
        s->kind = kind;
        s->other = other;
        s->breadth = breadth;
        const size_t n = lw_plan_designs(work->brief, other->lamp, work->plan->coldest_c, &work->plan->box, designs,
                                         LW_WORK_DESIGNS, &known);
        done = n == 0 || run_sizes(s, designs, n, out, room, count, err);
    }
    free(designs);
    free(s);
    return done;
}
