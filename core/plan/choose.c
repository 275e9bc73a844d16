/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One shelf for several lamps: which design each lamp gets. Branch and bound over lamps in order; lamps of one
 * kind take candidates in rising order, since they can be exchanged. Each lamp costs at least its cheapest
 * candidate, and no more of them can keep the wish than the cells and panels that are left allow; this bounds what a
 * branch can still reach. A lamp that does not keep the wish costs a penalty larger than any money and any darkness,
 * so that the search first lights as many lamps as possible; one without parts costs a little more still.
 */
#include "lanewick/plan.h"

#include <string.h>

typedef struct counts {
    int panel[LW_SHELF_KINDS], cell[LW_SHELF_KINDS], charger[LW_SHELF_KINDS], board[LW_SHELF_KINDS],
        driver[LW_SHELF_KINDS];
} counts;

typedef struct search {
    const lw_choice_kind *kinds;
    int kind_of[LW_BRIEF_LAMPS + 1];
    int lamps;
    counts left;
    int64_t rest[LW_BRIEF_LAMPS + 1]; /* least cost of this lamp and all after it */
    int64_t miss;                     /* least that a lamp costs more when it cannot keep the wish */
    int least_cells, least_panels;    /* of any candidate that keeps the wish */
    int pick[LW_BRIEF_LAMPS];
    int64_t best_score;
    lw_choice *out;
    long steps, most_steps;
} search;

enum { ENOUGH = 1000000 };
/* Of 120 lamps: one that is missed weighs more than the dark nights, trimmed lights and prices of all, one that is
 * trimmed more than all prices; 120 of the greatest stay below 2^63. */
static const int64_t no_parts = 10100000000000000; /* missed and 1e14: worse than dark every night (3.66e13) */
static const int64_t missed = 10000000000000000;   /* 1e16 */
static const int64_t trimmed = 10000000000000;     /* 1e13: a lamp with its late light turned down; above prices */
static const double dark_night = 1e11;

static int64_t score(const lw_choice_kind *kind, int pick)
{
    if (pick < 0)
        return no_parts;
    const lw_candidate *c = &kind->candidate[pick];
    return c->cost_minor + (c->design.trimmed ? trimmed : 0) +
           (c->keeps ? 0 : missed + (int64_t)(c->outcome.dark.mean * dark_night));
}

/* Takes (sign -1) or gives back (sign +1) a design's parts; false when something would be short. */
static bool move(counts *left, const lw_design *d, int sign)
{
    left->panel[d->panel] += sign * d->panels;
    left->cell[d->cell] += sign * d->series * d->parallel;
    left->charger[d->charger] += sign;
    left->driver[d->driver] += sign;
    bool enough = left->panel[d->panel] >= 0 && left->cell[d->cell] >= 0 && left->charger[d->charger] >= 0 &&
                  left->driver[d->driver] >= 0;
    if (d->board >= 0) {
        left->board[d->board] += sign;
        enough = enough && left->board[d->board] >= 0;
    }
    return enough;
}

static int sum_of(const int *list)
{
    int sum = 0;
    for (size_t i = 0; i < LW_SHELF_KINDS; i++)
        sum += list[i];
    return sum;
}

/* How many of the lamps from here on cannot keep the wish for want of cells or panels, at least. */
static int without_hope(const search *s, int lamp)
{
    if (s->miss <= 0)
        return 0;
    const int by_cells = sum_of(s->left.cell) / s->least_cells, by_panels = sum_of(s->left.panel) / s->least_panels;
    const int more = by_cells < by_panels ? by_cells : by_panels, lamps = s->lamps - lamp;
    return lamps > more ? lamps - more : 0;
}

static void visit(search *s, int lamp, int64_t spent)
{
    if (spent + s->rest[lamp] + without_hope(s, lamp) * s->miss >= s->best_score)
        return;
    if (lamp == s->lamps) {
        s->best_score = spent;
        memcpy(s->out->pick, s->pick, sizeof s->pick);
        return;
    }
    if (++s->steps > s->most_steps)
        return;
    const lw_choice_kind *kind = &s->kinds[s->kind_of[lamp]];
    const bool alike = lamp > 0 && s->kind_of[lamp] == s->kind_of[lamp - 1];
    const int first = alike ? s->pick[lamp - 1] : 0;
    for (int pick = first < 0 ? (int)kind->count : first; pick < (int)kind->count; pick++) {
        const lw_design *design = &kind->candidate[pick].design;
        s->pick[lamp] = pick;
        if (move(&s->left, design, -1))
            visit(s, lamp + 1, spent + score(kind, pick));
        (void)move(&s->left, design, 1);
    }
    s->pick[lamp] = -1;
    visit(s, lamp + 1, spent + no_parts);
}

static void fill_left(counts *left, const lw_shelf *shelf)
{
    memset(left, 0, sizeof *left);
    for (size_t i = 0; i < LW_SHELF_KINDS; i++) {
        left->panel[i] = shelf->panel[i].count;
        left->cell[i] = shelf->cell[i].count;
        left->charger[i] = shelf->charger[i].count;
        left->board[i] = shelf->board[i].count;
        left->driver[i] = shelf->driver[i].count;
    }
}

static void finish(search *s, lw_choice *out)
{
    out->complete = s->steps <= s->most_steps;
    out->cost_minor = 0;
    out->without = 0;
    int64_t least = 0;
    for (int i = 0; i < s->lamps; i++) {
        const lw_choice_kind *kind = &s->kinds[s->kind_of[i]];
        const bool keeps = out->pick[i] >= 0 && kind->candidate[out->pick[i]].keeps;
        out->without += keeps ? 0 : 1;
        out->cost_minor += out->pick[i] >= 0 ? kind->candidate[out->pick[i]].cost_minor : 0;
        int64_t cheapest = out->pick[i] >= 0 ? kind->candidate[out->pick[i]].cost_minor : 0;
        for (size_t c = 0; c < kind->count; c++)
            if (kind->candidate[c].keeps == keeps && kind->candidate[c].cost_minor < cheapest)
                cheapest = kind->candidate[c].cost_minor;
        least += cheapest;
    }
    out->bound_minor = out->complete ? out->cost_minor : least;
}

/* What the bounds need to know of all candidates. */
static void look_ahead(search *s)
{
    int64_t most = 0;
    s->least_cells = s->least_panels = ENOUGH;
    for (int lamp = s->lamps - 1; lamp >= 0; lamp--) {
        int64_t least = no_parts;
        const lw_choice_kind *kind = &s->kinds[s->kind_of[lamp]];
        for (size_t c = 0; c < kind->count; c++) {
            const lw_design *d = &kind->candidate[c].design;
            if (score(kind, (int)c) < least)
                least = score(kind, (int)c);
            if (!kind->candidate[c].keeps)
                continue;
            s->least_cells = d->series * d->parallel < s->least_cells ? d->series * d->parallel : s->least_cells;
            s->least_panels = d->panels < s->least_panels ? d->panels : s->least_panels;
        }
        s->rest[lamp] = s->rest[lamp + 1] + least;
        most = least > most ? least : most;
    }
    s->least_cells = s->least_cells > 0 ? s->least_cells : 1;
    s->least_panels = s->least_panels > 0 ? s->least_panels : 1;
    s->miss = missed - most;
}

void lw_plan_choose(const lw_shelf *shelf, const lw_choice_kind *kinds, size_t kind_count, long most_steps,
                    lw_choice *out)
{
    search s = {.kinds = kinds, .out = out, .most_steps = most_steps, .best_score = INT64_MAX};
    for (size_t k = 0; k < kind_count; k++)
        for (int i = 0; i < kinds[k].lamps && s.lamps < LW_BRIEF_LAMPS; i++)
            s.kind_of[s.lamps++] = (int)k;
    fill_left(&s.left, shelf);
    look_ahead(&s);
    for (int i = 0; i < LW_BRIEF_LAMPS; i++)
        out->pick[i] = -1;
    visit(&s, 0, 0);
    finish(&s, out);
}
