/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Smallest packs of many ways of building: see plan_lines.h.
 */
#include "plan_lines.h"

#include <math.h>

static lw_trial begin_trial(const lw_size_search *s, const lw_design *design, size_t blocks)
{
    lw_trial trial = lw_trial_of(s->work, s->kind, design, blocks);
    if (s->other) {
        trial.lamp = s->other->lamp;
        trial.engine = s->other->engine;
    }
    return trial;
}

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
static bool load_of(lw_size_search *s, const lw_design *design, const lw_lamp_kind *lamp, double *load_wh,
                    lw_error *err)
{
    lw_trial trial = begin_trial(s, design, 1);
    trial.lamp = lamp;
    trial.panel_scale = 20.0;
    trial.pack_scale = 20.0;
    if (!lw_work_run(s->work, &trial, 1, err))
        return false;
    *load_wh = 0.0;
    for (int m = 0; m < LW_MONTHS; m++)
        *load_wh += trial.outcome.load_month_wh[m] / LW_MONTHS;
    return true;
}

static bool same_level(double a, double b)
{
    return a == b || (isnan(a) && isnan(b));
}

/* For a lamp of another light: energy is a straight line in its watts, found once for each schedule from two small
 * lamps, which no panel is too weak for. */
static bool mean_load(lw_size_search *s, const lw_design *design, double *load_wh, lw_error *err)
{
    const lw_other_light *o = s->other;
    if (!o)
        return load_of(s, design, NULL, load_wh, err);
    lw_size_memory *memory = o->memory;
    size_t at = 0;
    while (at < memory->load_count && !same_level(memory->load[at].level, o->level))
        at++;
    if (at == memory->load_count) {
        lw_lamp_kind small = *o->lamp;
        lw_load_seen *load = &memory->load[at];
        load->level = o->level;
        for (int w = 1; w <= 2; w++) {
            small.head_w = w;
            if (!load_of(s, design, &small, &load->load_wh[w - 1], err))
                return false;
        }
        memory->load_count = at + 1 < LW_WORK_LOADS ? at + 1 : at;
    }
    const double *of = memory->load[at].load_wh;
    *load_wh = of[0] + (of[1] - of[0]) * (o->lamp->head_w - 1.0);
    return true;
}

/* What lamps of more or less light have shown about a line. */
static void recall(lw_size_search *s, size_t at)
{
    lw_sizing_line *line = &s->line[at];
    const lw_other_light *o = s->other;
    for (size_t i = 0; o && i < o->memory->count; i++) {
        const lw_size_seen *seen = &o->memory->seen[i];
        lw_design open = seen->design;
        open.parallel = s->design[at].parallel;
        const bool same = isnan(seen->level) ? isnan(o->level) : !isnan(o->level);
        if (!same || !lw_design_same(&open, &s->design[at]))
            continue;
        const bool less = seen->head_w <= o->lamp->head_w && !(seen->level > o->level);
        const bool more = seen->head_w >= o->lamp->head_w && !(seen->level < o->level);
        if ((seen->keeps && more) || (!seen->keeps && less))
            lw_sizing_tell(line, seen->design.parallel, seen->keeps);
    }
}

bool lw_lines_begin(lw_size_search *s, const lw_design *designs, size_t count, bool trimmed, lw_error *err)
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
        if (watts * light < 1.05 * load_wh && (s->other || watts < 0.99 * strongest_w))
            continue;
        design.trimmed = trimmed;
        design.parallel = 1;
        const int most = lw_design_most_parallel(shelf, &design);
        const int guess = (int)ceil(1.7 * load_wh / (0.8 * lw_design_pack_wh(shelf, &design)));
        s->line[s->line_count] = (lw_sizing_line){.guess = guess < 1 ? 1 : guess > most ? most : guess, .most = most};
        s->design[s->line_count] = design;
        recall(s, s->line_count++);
    }
    return true;
}

static void remember(lw_size_search *s, const lw_trial *trial)
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
static int64_t cheapest(const lw_size_search *s)
{
    int64_t least = INT64_MAX;
    for (size_t i = 0; i < s->tried_count; i++)
        if (s->tried[i].keeps && s->tried[i].cost_minor < least)
            least = s->tried[i].cost_minor;
    for (size_t i = 0; s->other && i < s->line_count; i++) { /* known from lamps of other light */
        lw_design design = s->design[i];
        design.parallel = s->line[i].keeps;
        const int64_t cost = lw_design_cost_minor(&s->work->brief->shelf, &design);
        if (design.parallel > 0 && cost < least)
            least = cost;
    }
    return least;
}

/* A line whose next size costs this much more than the cheapest keeper is of no use; what every lamp costs
 * anyway does not count. */
static bool too_dear(const lw_size_search *s, const lw_design *design, int64_t least)
{
    const lw_shelf *shelf = &s->work->brief->shelf;
    int64_t always = 0;
    for (size_t i = 0; i < shelf->part_count; i++)
        always += shelf->part[i].per_lamp * shelf->part[i].price_minor;
    if (s->breadth == LW_ALL_WAYS || least == INT64_MAX)
        return false;
    return lw_design_cost_minor(shelf, design) - always > 3 * ((least - always) / 2);
}

static lw_trial ask_trial(const lw_size_search *s, const lw_sizing_ask *ask)
{
    lw_design design = s->design[ask->line];
    design.parallel = ask->parallel;
    lw_trial trial = begin_trial(s, &design, LW_WORK_SCREEN);
    /* What is decided wrongly here is found when the size is verified. */
    trial.early = 1;
    trial.margin_fails = 2.2;
    trial.margin_keeps = 1.25;
    if (s->life_parallel[ask->line] > 0) {
        trial.life_known = true;
        trial.life = s->life[ask->line];
        trial.life.full_cycles *= (float)s->life_parallel[ask->line] / (float)ask->parallel;
    }
    return trial;
}

static void hear(lw_size_search *s, const lw_sizing_ask *ask, const lw_trial *trial)
{
    const bool keeps = trial->outcome.sure_share >= s->work->brief->want.sure_share;
    remember(s, trial);
    lw_sizing_tell(&s->line[ask->line], ask->parallel, keeps);
    if (s->other && s->other->memory->count < LW_WORK_SEEN)
        s->other->memory->seen[s->other->memory->count++] =
            (lw_size_seen){trial->design, s->other->lamp->head_w, s->other->level, keeps};
    if (s->life_parallel[ask->line] == 0) {
        s->life[ask->line] = trial->life;
        s->life_parallel[ask->line] = ask->parallel;
    }
}

/* Only the cheapest is sought: a line is asked for the largest size that would still be cheaper than the best; the most
 * promising lines go first, for what they show ends others. */
static size_t ask_for_cheapest(lw_size_search *s, size_t asked, int64_t least)
{
    enum { TOGETHER = 4 };
    const lw_shelf *shelf = &s->work->brief->shelf;
    int64_t cost[LW_WORK_DESIGNS];
    size_t n = 0;
    for (size_t i = 0; i < asked; i++) {
        lw_sizing_ask ask = s->ask[i];
        lw_sizing_line *line = &s->line[ask.line];
        lw_design design = s->design[ask.line];
        for (;; ask.parallel--) {
            design.parallel = ask.parallel;
            if (ask.parallel == line->fails || lw_design_cost_minor(shelf, &design) < least)
                break;
        }
        if (ask.parallel == line->fails) {
            line->fails = line->most; /* done */
            continue;
        }
        const int64_t this_cost = lw_design_cost_minor(shelf, &design);
        size_t at = n < TOGETHER ? n++ : TOGETHER;
        for (; at > 0 && cost[at - 1] > this_cost; at--)
            if (at < TOGETHER) {
                cost[at] = cost[at - 1];
                s->ask[at] = s->ask[at - 1];
            }
        if (at < TOGETHER) {
            cost[at] = this_cost;
            s->ask[at] = ask;
        }
    }
    for (size_t i = 0; i < n; i++)
        s->trial[i] = ask_trial(s, &s->ask[i]);
    return n;
}

static size_t ask_for_all(lw_size_search *s, size_t asked, int64_t least)
{
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
    return n;
}

bool lw_lines_converge(lw_size_search *s, lw_error *err)
{
    for (;;) {
        const size_t asked = lw_sizing_step(s->line, s->line_count, s->ask);
        const int64_t least = cheapest(s);
        const size_t n = s->breadth == LW_CHEAPEST ? ask_for_cheapest(s, asked, least) : ask_for_all(s, asked, least);
        if (n == 0)
            return true;
        if (!lw_work_run(s->work, s->trial, n, err))
            return false;
        for (size_t i = 0; i < n; i++)
            hear(s, &s->ask[i], &s->trial[i]);
    }
}
