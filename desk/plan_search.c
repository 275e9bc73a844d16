/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sizes worth looking at for one kind of lamp. A plain energy balance drops panels that cannot feed the lamp in a
 * mean year; then each way of building gets the smallest pack that keeps the wish, by simulation of the cell model
 * over the first draws; the sizes met on the way that no other beats are simulated over all draws.
 */
#include "plan_work.h"

#include "lanewick/sizing.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct search {
    lw_plan_work *work;
    size_t kind;
    lw_design design[LW_WORK_DESIGNS];
    lw_sizing_line line[LW_WORK_DESIGNS];
    lw_nights_summary life[LW_WORK_DESIGNS]; /* how the pack of a line lives, from its first trial */
    int life_parallel[LW_WORK_DESIGNS];      /* with so many cells in parallel; 0: not yet known */
    size_t line_count;
    bool prune; /* leave lines that have become far dearer than the cheapest keeper */
    lw_candidate tried[LW_WORK_POINTS];
    size_t tried_count;
    lw_trial trial[LW_WORK_DESIGNS];
    lw_sizing_ask ask[LW_WORK_DESIGNS];
} search;

/* Mean light behind the glass [kWh/m2 a day] and mean wanted energy of a night at the pack [Wh]. */
static double mean_light(const lw_plan_work *work)
{
    double sum = 0.0;
    for (size_t b = 0; b < LW_WORK_SCREEN; b++)
        for (int h = 0; h < LW_HOURS; h++)
            for (int i = 0; i < LW_LANES; i++)
                sum += (double)work->drive[b].light_w_m2[h][i];
    return sum / (LW_WORK_SCREEN * LW_LANES) / LW_DAYS / 1000.0;
}

/* Wh that a design would use each night, from one short simulation with a generous lamp. */
static bool mean_load(search *s, const lw_design *design, double *load_wh, lw_error *err)
{
    lw_trial trial = lw_trial_of(s->work, s->kind, design, 1);
    trial.panel_scale = 20.0;
    trial.pack_scale = 20.0;
    if (!lw_work_run(s->work, &trial, 1, err))
        return false;
    *load_wh = 0.0;
    for (int m = 0; m < LW_MONTHS; m++)
        *load_wh += trial.outcome.load_month_wh[m] / LW_MONTHS;
    return true;
}

/* Lines from the designs that a mean year can feed; when none can, the strongest panel of each is kept. */
static bool begin_lines(search *s, const lw_design *designs, size_t count, bool trimmed, lw_error *err)
{
    const lw_shelf *shelf = &s->work->brief->shelf;
    const double light = mean_light(s->work);
    double load_wh, strongest_w = 0.0;
    lw_design first = designs[0];
    first.trimmed = trimmed;
    first.parallel = 1;
    if (!mean_load(s, &first, &load_wh, err))
        return false;
    for (size_t i = 0; i < count; i++)
        strongest_w = fmax(strongest_w, lw_design_panel_w(shelf, &designs[i]));
    for (size_t i = 0; i < count && s->line_count < LW_WORK_DESIGNS; i++) {
        lw_design design = designs[i];
        const double watts = lw_design_panel_w(shelf, &design);
        if (watts * light < 1.05 * load_wh && watts < 0.99 * strongest_w)
            continue;
        design.trimmed = trimmed;
        design.parallel = 1;
        const int most = lw_design_most_parallel(shelf, &design);
        const int guess = (int)ceil(1.7 * load_wh / (0.8 * lw_design_pack_wh(shelf, &design)));
        s->line[s->line_count] = (lw_sizing_line){.guess = guess < 1 ? 1 : guess > most ? most : guess, .most = most};
        s->design[s->line_count++] = design;
    }
    return true;
}

static void remember(search *s, const lw_trial *trial)
{
    if (s->tried_count >= LW_WORK_POINTS)
        return;
    const lw_want *want = &s->work->brief->want;
    s->tried[s->tried_count++] =
        (lw_candidate){.design = trial->design,
                       .keeps = trial->outcome.sure_share >= want->sure_share,
                       .outcome = trial->outcome,
                       .cost_minor = lw_design_cost_minor(&s->work->brief->shelf, &trial->design)};
}

/* The cheapest lamp so far that keeps the wish; INT64_MAX: none. */
static int64_t cheapest(const search *s)
{
    int64_t least = INT64_MAX;
    for (size_t i = 0; i < s->tried_count; i++)
        if (s->tried[i].keeps && s->tried[i].cost_minor < least)
            least = s->tried[i].cost_minor;
    return least;
}

/* A line whose next size costs this much more than the cheapest keeper is of no use; what every lamp costs
 * anyway does not count. */
static bool too_dear(const search *s, const lw_design *design, int64_t least)
{
    const lw_shelf *shelf = &s->work->brief->shelf;
    int64_t always = 0;
    for (size_t i = 0; i < shelf->part_count; i++)
        always += shelf->part[i].per_lamp * shelf->part[i].price_minor;
    if (!s->prune || least == INT64_MAX)
        return false;
    return lw_design_cost_minor(shelf, design) - always > 3 * ((least - always) / 2);
}

static lw_trial ask_trial(const search *s, const lw_sizing_ask *ask)
{
    lw_design design = s->design[ask->line];
    design.parallel = ask->parallel;
    lw_trial trial = lw_trial_of(s->work, s->kind, &design, LW_WORK_SCREEN);
    /* What is decided wrongly here is found when the size is verified. */
    trial.early = 2;
    trial.margin_fails = 2.2;
    trial.margin_keeps = 1.25;
    if (s->life_parallel[ask->line] > 0) {
        trial.life_known = true;
        trial.life = s->life[ask->line];
        trial.life.full_cycles *= (float)s->life_parallel[ask->line] / (float)ask->parallel;
    }
    return trial;
}

static void hear(search *s, const lw_sizing_ask *ask, const lw_trial *trial)
{
    remember(s, trial);
    lw_sizing_tell(&s->line[ask->line], ask->parallel, trial->outcome.sure_share >= s->work->brief->want.sure_share);
    if (s->life_parallel[ask->line] == 0) {
        s->life[ask->line] = trial->life;
        s->life_parallel[ask->line] = ask->parallel;
    }
}

static bool converge(search *s, lw_error *err)
{
    for (;;) {
        const size_t asked = lw_sizing_step(s->line, s->line_count, s->ask);
        const int64_t least = cheapest(s);
        size_t n = 0;
        for (size_t i = 0; i < asked; i++) {
            const lw_trial trial = ask_trial(s, &s->ask[i]);
            if (too_dear(s, &trial.design, least)) {
                s->line[s->ask[i].line].fails = s->line[s->ask[i].line].most; /* done */
                continue;
            }
            s->ask[n] = s->ask[i];
            s->trial[n++] = trial;
        }
        if (n == 0)
            return true;
        if (!lw_work_run(s->work, s->trial, n, err))
            return false;
        for (size_t i = 0; i < n; i++)
            hear(s, &s->ask[i], &s->trial[i]);
    }
}

/* All draws for each candidate, half of them where that is clear; one that no longer keeps the wish gets one more cell
 * in parallel, twice at most. */
static bool verify(search *s, lw_candidate *candidates, size_t *count, size_t room, lw_error *err)
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
static const lw_candidate *cheapest_with(const search *s, int panel, int panels, int cell)
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
static size_t shortlist(search *s, lw_candidate *out, size_t room)
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
static size_t late_designs(const search *s, lw_design *designs)
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

static bool run_search(search *s, lw_design *designs, size_t count, lw_candidate *out, size_t room, size_t *found,
                       lw_error *err)
{
    const lw_want *want = &s->work->brief->want;
    const bool may_trim = want->least_late_level < 1.0;
    if (!lw_work_engine(s->work, s->kind, false, &designs[0], err) || !begin_lines(s, designs, count, false, err) ||
        !converge(s, err))
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
        if (count > 0 && (!begin_lines(s, designs, count, true, err) || !converge(s, err)))
            return false;
    }
    *found = shortlist(s, out, room);
    return verify(s, out, found, room, err);
}

bool lw_work_search(lw_plan_work *work, size_t kind, bool prune, lw_candidate *out, size_t room, size_t *count,
                    lw_error *err)
{
    lw_design *designs = malloc(LW_WORK_DESIGNS * sizeof *designs);
    search *s = calloc(1, sizeof *s);
    *count = 0;
    bool done = designs && s;
    if (!done)
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for the search.");
    if (done) {
        s->work = work;
        s->kind = kind;
        s->prune = prune;
        const size_t n = lw_plan_designs(work->brief, &work->brief->want.lamp[kind], work->plan->coldest_c,
                                         &work->plan->box, designs, LW_WORK_DESIGNS, &work->plan->left_out);
        done = n == 0 || run_search(s, designs, n, out, room, count, err);
    }
    free(designs);
    free(s);
    return done;
}
