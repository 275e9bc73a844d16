/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Masts, heads, lumens and late light for a lane, with the nights in the loop: docs/models/lane-search.md. Every way of
 * standing that can give the light is a candidate; those that cannot be cheaper than the best so far are left.
 */
#include "lane_cost.h"
#include "lane_files.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { ARENA_BYTES = 64 << 20, VERIFIED = 4 };
static const double whole_lumens = 5.0, level_step = 0.05, far_dearer = 1.25;

typedef struct trial_row {
    lw_lane_row row;
    bool known; /* its cost was found */
} trial_row;

typedef struct lane_work {
    lw_plan_work *work;
    const lw_lane_want *want;
    lw_lane_cost *cost;
    lw_arena arena;
    trial_row *rows;
    size_t count;
    lw_lane_row best;
    bool found;
    lw_brief as_written; /* its kind of lamp still open */
    lw_candidate size[LW_WORK_CANDIDATES];
} lane_work;

static double watts(const lw_lane_row *row)
{
    return row->head_w * (double)row->layout.masts;
}

/* Whether fed row a meets the aim better than fed row b. */
static bool better(lw_lane_aim aim, const lw_lane_row *a, const lw_lane_row *b)
{
    if (aim == LW_AIM_MASTS && a->layout.masts != b->layout.masts)
        return a->layout.masts < b->layout.masts;
    if (aim == LW_AIM_WATTS && watts(a) != watts(b))
        return watts(a) < watts(b);
    if (a->cost_minor != b->cost_minor)
        return a->cost_minor < b->cost_minor;
    if (watts(a) != watts(b))
        return watts(a) < watts(b);
    return a->level < b->level || a->layout.masts < b->layout.masts;
}

static void add_row(lane_work *w, const lw_layout *layout, double level)
{
    lw_lane_row row = {.layout = *layout, .level = level};
    row.layout.lumens_each = whole_lumens * ceil(layout->lumens_each / whole_lumens - 1e-9);
    row.head_w = row.layout.lumens_each / w->want->ask.lumens_per_w[layout->head];
    w->rows[w->count++] = (trial_row){.row = row};
}

/* Every layout that can give the light, with the least late level that is enough and without turning down. */
static bool list_ways(lane_work *w, lw_error *err)
{
    const lw_layout_wish *wish = &w->want->ask.wish;
    const size_t room = lw_layout_room(wish);
    size_t count;
    lw_layout *all = lw_arena_take(&w->arena, room, sizeof *all, err);
    w->rows = lw_arena_take(&w->arena, 2 * room, sizeof *w->rows, err);
    if (!all || !w->rows || !lw_layout_all(wish, &w->arena, all, &count, err))
        return false;
    for (size_t i = 0; i < count; i++) {
        if (!w->want->late_given) {
            add_row(w, &all[i], NAN);
            continue;
        }
        const double asked = isnan(w->want->late.level) ? all[i].late_level : w->want->late.level;
        const double level = round(fmin(100.0, 100.0 * level_step * ceil(asked / level_step - 1e-9))) / 100.0;
        if (level < 1.0)
            add_row(w, &all[i], level);
        add_row(w, &all[i], 1.0);
    }
    if (count > 0)
        return true;
    return lw_fail(
        err, LW_NOTHING_FOUND, "want.lane",
        "want.lane: no number of masts from %zu to %zu gives this light; allow more masts, higher ones, other "
        "tilts or more lumens of a head (most_lumens), or ask for less.",
        wish->fewest_masts, wish->most_masts);
}

static bool find_cost(lane_work *w, trial_row *one, lw_error *err)
{
    if (one->known)
        return true;
    one->known = true;
    return lw_lane_cost_of(w->cost, &one->row, err);
}

/* Rows of a number of masts, of one height or (height SIZE_MAX) of any. */
static bool belongs(const lw_lane_row *row, size_t masts, size_t height)
{
    return row->layout.masts == masts && (height == SIZE_MAX || row->layout.height == height);
}

/* The row that is to be looked at next: the one that may cost least (or that takes least watts). */
static trial_row *next_row(const lane_work *w, size_t masts, size_t height, int64_t *least)
{
    trial_row *next = NULL;
    const bool by_watts = w->want->ask.aim == LW_AIM_WATTS;
    for (size_t i = 0; i < w->count; i++) {
        trial_row *one = &w->rows[i];
        if (one->known || !belongs(&one->row, masts, height))
            continue;
        const int64_t bound = lw_lane_cost_least(w->cost, &one->row);
        if (bound == INT64_MAX)
            continue;
        const bool ahead = !next || (by_watts ? one->row.head_w < next->row.head_w : bound < *least) ||
                           (bound == *least && one->row.head_w < next->row.head_w);
        if (ahead) {
            next = one;
            *least = bound;
        }
    }
    return next;
}

/* The best of the rows whose cost is known. */
static lw_lane_row best_known(const lane_work *w, size_t masts, size_t height)
{
    lw_lane_row best = {0};
    for (size_t i = 0; i < w->count; i++) {
        const trial_row *one = &w->rows[i];
        if (one->known && one->row.fed && belongs(&one->row, masts, height) &&
            (!best.fed || better(w->want->ask.aim, &one->row, &best)))
            best = one->row;
    }
    return best;
}

/* The best row of a number of masts by cost (or watts); false: an error. out->fed tells whether there is one. */
static bool best_of(lane_work *w, size_t masts, size_t height, lw_lane_row *out, lw_error *err)
{
    const bool by_watts = w->want->ask.aim == LW_AIM_WATTS;
    for (;;) {
        int64_t least = INT64_MAX;
        *out = best_known(w, masts, height);
        trial_row *next = next_row(w, masts, height, &least);
        if (!next || (out->fed && (by_watts ? next->row.head_w >= out->head_w : least >= out->cost_minor)))
            return true;
        if (!find_cost(w, next, err))
            return false;
    }
}

/* The least that any way with so many masts can cost. */
static int64_t least_with(const lane_work *w, size_t masts)
{
    int64_t least = INT64_MAX;
    for (size_t i = 0; i < w->count; i++)
        if (w->rows[i].row.layout.masts == masts) {
            const int64_t bound = lw_lane_cost_least(w->cost, &w->rows[i].row);
            least = bound < least ? bound : least;
        }
    return least;
}

/* The number of masts with the fewest watts together: usually near the answer, so a good first bound. */
static size_t fewest_watts(const lane_work *w)
{
    const lw_lane_row *best = &w->rows[0].row;
    for (size_t i = 1; i < w->count; i++)
        if (watts(&w->rows[i].row) < watts(best))
            best = &w->rows[i].row;
    return best->layout.masts;
}

static bool try_masts(lane_work *w, size_t masts, lw_lane_row *row, lw_error *err)
{
    if (!best_of(w, masts, SIZE_MAX, row, err))
        return false;
    if (row->fed && (!w->found || better(w->want->ask.aim, row, &w->best))) {
        w->best = *row;
        w->found = true;
    }
    return true;
}

/* Each number of masts that is not far dearer than the best. */
static bool by_masts(lane_work *w, lw_plan_lane *lane, lw_error *err)
{
    const lw_layout_wish *wish = &w->want->ask.wish;
    const bool all = w->want->ask.aim == LW_AIM_MASTS;
    lw_lane_row row;
    if (!all && !try_masts(w, fewest_watts(w), &row, err))
        return false;
    for (size_t masts = wish->fewest_masts; masts <= wish->most_masts; masts++) {
        const double numbers = (double)(wish->most_masts - wish->fewest_masts) + 1.0;
        const int64_t least = least_with(w, masts);
        lw_work_tell(w->work, 0.25 + 0.15 * (double)(masts - wish->fewest_masts) / numbers, "masts");
        if (least == INT64_MAX || (w->found && (double)least > far_dearer * (double)w->best.cost_minor))
            continue;
        if (!try_masts(w, masts, &row, err))
            return false;
        if (row.fed && lane->masts_count < LW_BRIEF_LAMPS)
            lane->by_masts[lane->masts_count++] = row;
    }
    return true;
}

/* Nothing on the shelf keeps the nights: the plan says how near the way with the fewest watts comes. */
static void take_fewest_watts(lane_work *w)
{
    w->best = w->rows[0].row;
    for (size_t i = 1; i < w->count; i++) {
        const lw_lane_row *row = &w->rows[i].row;
        if (watts(row) < watts(&w->best) || (watts(row) == watts(&w->best) && row->level < w->best.level))
            w->best = *row;
    }
}

static bool add_changed(lane_work *w, lw_lane_row row, lw_lane_row *list, size_t *count, lw_error *err)
{
    row.head_w = row.layout.lumens_each / w->want->ask.lumens_per_w[row.layout.head];
    if (!lw_lane_cost_of(w->cost, &row, err))
        return false;
    list[(*count)++] = row;
    return true;
}

/* The chosen way with its late light turned down more or less; the chosen level at its place. */
static bool late_levels(lane_work *w, lw_plan_lane *lane, lw_error *err)
{
    static const double levels[] = {1.0, 0.7, 0.5, 0.35, 0.2};
    bool there = isnan(w->best.level);
    for (size_t i = 0; i < sizeof levels / sizeof levels[0]; i++) {
        lw_lane_row row = w->best;
        if (!there && row.level > levels[i] && !add_changed(w, row, lane->by_late, &lane->late_count, err))
            return false;
        there = there || row.level >= levels[i];
        row.level = levels[i];
        if (!add_changed(w, row, lane->by_late, &lane->late_count, err))
            return false;
    }
    return there || add_changed(w, w->best, lane->by_late, &lane->late_count, err);
}

/* What more or less of one thing brings: height, lumens, late light. */
static bool changes(lane_work *w, lw_plan_lane *lane, lw_error *err)
{
    static const double factors[] = {0.75, 0.9, 1.0, 1.1, 1.25, 1.5};
    const lw_layout_wish *wish = &w->want->ask.wish;
    for (size_t h = 0; h < wish->height_count; h++) {
        lw_lane_row row;
        if (!best_of(w, w->best.layout.masts, h, &row, err))
            return false;
        if (row.fed)
            lane->by_height[lane->height_count++] = row;
    }
    for (size_t i = 0; i < sizeof factors / sizeof factors[0]; i++) {
        lw_lane_row row = w->best;
        row.layout.lumens_each *= factors[i];
        if (!add_changed(w, row, lane->by_light, &lane->light_count, err))
            return false;
    }
    /* A switch made by hand gives the levels that it was made for. */
    return w->work->brief->want.hand_switch || late_levels(w, lane, err);
}

/* Marks the chosen rows and gives every row the light of its rounded lumens. */
static bool finish(lane_work *w, lw_plan_lane *lane, lw_error *err)
{
    const lw_layout_wish *wish = &w->want->ask.wish;
    lw_field_point *points;
    size_t count;
    lw_lane_row *const lists[] = {lane->by_masts, lane->by_height, lane->by_light, lane->by_late, &w->best};
    const size_t counts[] = {lane->masts_count, lane->height_count, lane->light_count, lane->late_count, 1};
    for (size_t l = 0; l < sizeof lists / sizeof lists[0]; l++)
        for (size_t i = 0; i < counts[l]; i++) {
            lw_lane_row *row = &lists[l][i];
            const size_t used = w->arena.used;
            if (!lw_layout_grid(wish, &row->layout, &w->arena, &points, &count, err))
                return false;
            lw_layout_light(wish, &row->layout, true, 1.0, points, count, &row->layout.light);
            w->arena.used = used;
            row->lit = lw_lane_gives_light(w->want, row);
            row->chosen = row->layout.masts == w->best.layout.masts && row->layout.head == w->best.layout.head &&
                          row->layout.height == w->best.layout.height && row->head_w == w->best.head_w &&
                          (row->level == w->best.level || (isnan(row->level) && isnan(w->best.level)));
        }
    lane->chosen = w->best;
    return true;
}

/* The brief's kind of lamp becomes that of a row; its schedule may have changed. */
static void take(lane_work *w, const lw_lane_row *row)
{
    const size_t kind = w->want->kind;
    lw_lane_lamp(&w->as_written, row, &w->work->plan->brief.want.lamp[kind]);
    w->work->engine[kind][0] = w->work->engine[kind][1] = NULL;
}

static void restore(lane_work *w)
{
    const size_t kind = w->want->kind;
    w->work->plan->brief.want.lamp[kind] = w->as_written.want.lamp[kind];
}

/* The best row that is not better than `last` (NULL: of all). */
static const lw_lane_row *next_best(const lane_work *w, const lw_plan_lane *lane, const lw_lane_row *last)
{
    const lw_lane_row *next = NULL;
    for (size_t i = 0; i < lane->masts_count; i++) {
        const lw_lane_row *row = &lane->by_masts[i];
        const bool behind = !last || (row != last && better(w->want->ask.aim, last, row));
        if (behind && (!next || better(w->want->ask.aim, row, next)))
            next = row;
    }
    return next;
}

/* The best rows once more with all draws, as the plan does it, until no other can be better. */
static bool verify(lane_work *w, const lw_plan_lane *lane, lw_error *err)
{
    const bool by_cost = w->want->ask.aim == LW_AIM_COST;
    const lw_lane_row *best = NULL, *row = NULL;
    int64_t least = INT64_MAX, total;
    size_t count;
    bool cheapest;
    for (int i = 0; i < VERIFIED && (row = next_best(w, lane, row)) != NULL; i++) {
        if (best && (!by_cost || row->cost_minor >= least))
            break;
        take(w, row);
        if (!lw_work_search(w->work, w->want->kind, true, w->size, LW_WORK_CANDIDATES, &count, err))
            return false;
        const lw_lamp_kind *lamp = &w->work->brief->want.lamp[w->want->kind];
        if (count > 0 && lw_lane_cost_share(w->cost, lamp, w->size, count, &total, &cheapest) && total < least) {
            least = total;
            best = row;
        }
    }
    if (best)
        w->best = *best;
    return true;
}

static bool search(lane_work *w, lw_plan_lane *lane, lw_error *err)
{
    if (!list_ways(w, err) || !by_masts(w, lane, err))
        return false;
    lane->given = true;
    lane->ways = (long)w->count;
    if (!w->found)
        take_fewest_watts(w);
    else if (!verify(w, lane, err))
        return false;
    restore(w);
    lw_work_tell(w->work, 0.45, "masts");
    if ((w->found && !changes(w, lane, err)) || !finish(w, lane, err))
        return false;
    take(w, &w->best);
    return true;
}

bool lw_work_lane(lw_plan_work *work, const lw_choice_kind *kinds, lw_error *err)
{
    lw_lane_want *want = &work->plan->brief.want.lane;
    lane_work *w = malloc(sizeof *w);
    lw_lane_cost *cost = malloc(sizeof *cost);
    void *bytes = malloc(ARENA_BYTES);
    bool done = w && cost && bytes;
    if (!done)
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for the search of masts.");
    if (done) {
        const char *folder = work->request->no_files ? NULL : work->request->folder ? work->request->folder : ".";
        done = lw_read_layout_heads(folder, &want->ask, &work->arena, err);
    }
    if (done) {
        *w = (lane_work){.work = work, .want = want, .cost = cost, .arena = lw_arena_over(bytes, ARENA_BYTES)};
        w->as_written = work->plan->brief;
        lw_lane_cost_begin(cost, work, kinds);
        done = search(w, &work->plan->lane, err);
        work->plan->lane.sized = cost->sized;
        lw_lane_cost_end(cost);
    }
    free(w);
    free(cost);
    free(bytes);
    return done;
}
