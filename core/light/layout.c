/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Search for the places of the masts: see lanewick/layout.h.
 */
#include "lanewick/layout.h"

#include "layout_place.h"
#include "quick.h"

#include <math.h>
#include <string.h>

enum { VALUES = 9 }; /* numbers of each point */
static const double most_away_m = 30.0, fewest_lumens = 5.0, most_pairs = 2e9;

typedef struct work {
    const lw_layout_wish *wish;
    lw_lamp *lamps;
    lw_layout *best; /* of each head and height, for the number of masts at hand; 0 masts: none */
    lw_field_point *points;
    size_t count;
    bool faces;
    double *fixed, *ahead_fixed, *back_fixed; /* light of the lamps that stand there anyway */
    double *each, *ahead, *back;              /* light of the layout at 1 lm a head */
    double *share;                            /* of the ground, of each point's cell */
    double *x_m, *y_m;                        /* of each point */
} work;

static bool check_ranges(const lw_layout_wish *wish, lw_error *err)
{
    const bool strip = wish->field.kind == LW_FIELD_STRIP;
    return lw_in_range(err, "length_m", lw_layout_length_m(&wish->field), 1.0, 2000.0, "m") &&
           (!strip || lw_in_range(err, "width_m", wish->field.width_m, 0.5, 50.0, "m")) &&
           lw_in_range(err, "offset_m", wish->offset_m, 0.0, 10.0, "m") &&
           lw_in_range(err, "maintenance", wish->maintenance, 0.01, 1.0, "") &&
           lw_all_in_range(err, "heights_m", wish->heights_m, wish->height_count, 1.0, 20.0, "m") &&
           lw_all_in_range(err, "tilts_deg", wish->tilts_deg, wish->tilt_count, -45.0, 45.0, "degree") &&
           lw_all_in_range(err, "turns_deg", wish->turns_deg, wish->turn_count, -180.0, 180.0, "degree");
}

static bool check_places(const lw_layout_wish *wish, lw_error *err)
{
    for (size_t i = 0; i < wish->place_count; i++) {
        if (!lw_in_range(err, "mast_places", wish->place[i].x_m, -1e5, 1e5, "m") ||
            !lw_in_range(err, "mast_places", wish->place[i].y_m, -1e5, 1e5, "m"))
            return false;
        const double away = lw_layout_away_m(wish, i);
        if (away > most_away_m)
            return lw_fail(err, LW_WRONG_INPUT, "mast_places",
                           "Mast %zu of mast_places stands %.0f m from the lane; at most %g m is possible.", i + 1,
                           away, most_away_m);
    }
    return true;
}

static bool check_light(const lw_layout_wish *wish, lw_error *err)
{
    const lw_light_wish *light = &wish->light;
    if (wish->place_count == 0 && !(wish->sides[0] || wish->sides[1] || wish->sides[2]))
        return lw_fail(err, LW_WRONG_INPUT, "sides", "Give at least one side to choose from.");
    if (light->average_lx > 0.0 || light->minimum_lx > 0.0 || light->semicylindrical_lx > 0.0)
        return true;
    return lw_fail(err, LW_WRONG_INPUT, "average_lx",
                   "Say how much light is wanted: a class, an average or a minimum.");
}

static bool check(const lw_layout_wish *wish, lw_error *err)
{
    if (!check_ranges(wish, err) || !check_places(wish, err) || !check_light(wish, err))
        return false;
    if (wish->height_count == 0 || wish->tilt_count == 0 || wish->turn_count == 0 || wish->head_count == 0)
        return lw_fail(err, LW_WRONG_INPUT, "heights_m",
                       "Give at least one height, tilt, turn and head to choose from.");
    if (wish->fewest_masts < 1 || wish->most_masts < wish->fewest_masts || wish->most_masts > LW_LAYOUT_MAX_MASTS)
        return lw_fail(err, LW_WRONG_INPUT, "most_masts", "most_masts is %zu; it must be between %zu and %d.",
                       wish->most_masts, wish->fewest_masts, LW_LAYOUT_MAX_MASTS);
    return true;
}

/* Pairs of lamp and point that the search would look at; a table's take as long as ten of a closed form. */
static bool check_work(const lw_layout_wish *wish, lw_error *err)
{
    double each = 0.0, heads = 0.0;
    for (size_t n = wish->fewest_masts; n <= wish->most_masts; n++) {
        lw_layout one = {.masts = n};
        lw_layout_space(wish, 0, &one);
        each += (double)(n * lw_layout_ends(wish, n)) * (double)lw_field_most_points(&wish->field, one.spacing_m);
    }
    for (size_t i = 0; i < wish->head_count; i++)
        heads += wish->head[i].beam.table ? 10.0 : 1.0;
    const double choices = (double)(wish->height_count * wish->tilt_count * wish->turn_count) *
                           (wish->place_count > 0 ? 1.0 : wish->sides[0] + wish->sides[1] + wish->sides[2]);
    const double pairs = each * heads * choices;
    if (pairs <= most_pairs)
        return true;
    return lw_fail(err, LW_WRONG_INPUT, "heights_m",
                   "These choices are %.0f times too many to look at (%.0f ways of standing for each number of masts); "
                   "give fewer heights, tilts, turns, heads or masts.",
                   ceil(pairs / most_pairs), heads * choices);
}

/* Lumens that bring `given` a lumen from `there` to `wanted`. */
static double needed(double wanted, double there, double given)
{
    if (wanted <= there)
        return 0.0;
    return given > 0.0 ? (wanted - there) / given : INFINITY;
}

static double mean(const work *w, const double *values)
{
    double sum = 0.0;
    for (size_t i = 0; i < w->count; i++)
        sum += values[i] * w->share[i];
    return sum;
}

/* At every point fixed + x each >= uniformity (mean of both): from which x on, and up to which. */
static void evenness(const work *w, double *from, double *until)
{
    const double u = w->wish->light.uniformity;
    const double fixed = mean(w, w->fixed), each = mean(w, w->each);
    for (size_t i = 0; u > 0.0 && i < w->count; i++) {
        const double rise = w->each[i] - u * each, short_of = u * fixed - w->fixed[i];
        if (rise > 0.0)
            *from = fmax(*from, short_of / rise);
        else if (rise < 0.0)
            *until = fmin(*until, short_of / rise);
        else if (short_of > 0.0)
            *until = -INFINITY;
    }
}

static void clear(const work *w)
{
    memset(w->each, 0, w->count * sizeof *w->each);
    memset(w->ahead, 0, w->count * sizeof *w->ahead);
    memset(w->back, 0, w->count * sizeof *w->back);
}

/* The least share of full light that is the wanted late light. */
static double late_level(const lw_layout_wish *wish, const lw_field_sum *full)
{
    const lw_light_wish *late = &wish->late;
    const double level =
        fmax(fmax(needed(late->average_lx, 0.0, full->average_lx), needed(late->minimum_lx, 0.0, full->minimum_lx)),
             needed(late->semicylindrical_lx, 0.0, full->semicylindrical_minimum_lx));
    return fmin(1.0, level);
}

/* What the search has looked at, with the lumens found. */
static void sum_up(const work *w, lw_layout *layout)
{
    lw_field_sum sum = {.minimum_lx = INFINITY, .semicylindrical_minimum_lx = INFINITY};
    const double lumens = layout->lumens_each;
    for (size_t i = 0; i < w->count; i++) {
        const double lx = w->fixed[i] + lumens * w->each[i];
        const double ahead = w->ahead_fixed[i] + lumens * w->ahead[i], back = w->back_fixed[i] + lumens * w->back[i];
        sum.average_lx += lx * w->share[i];
        sum.minimum_lx = fmin(sum.minimum_lx, lx);
        sum.maximum_lx = fmax(sum.maximum_lx, lx);
        sum.semicylindrical_minimum_lx = fmin(sum.semicylindrical_minimum_lx, fmin(ahead, back));
    }
    sum.uniformity = sum.minimum_lx / sum.average_lx;
    layout->light = sum;
    layout->late_level = late_level(w->wish, &sum);
}

/* Fills the lumens of a layout and leaves the light of one lumen in w; false when no lumens can meet the wish. */
static bool judge(const work *w, lw_layout *layout)
{
    const lw_light_wish *light = &w->wish->light;
    layout->lumens_each = 1.0;
    lw_layout_lamps(w->wish, layout, w->lamps);
    clear(w);
    const bool board = !w->faces && lw_quick_is_board(&w->lamps[0].beam);
    for (size_t i = 0; i < layout->masts; i++)
        if (board)
            lw_quick_board(&w->lamps[i], w->x_m, w->y_m, w->count, w->each);
        else
            lw_quick_light(&w->lamps[i], w->points, w->count, w->each, w->faces ? w->ahead : NULL, w->back);
    double from = needed(light->average_lx, mean(w, w->fixed), mean(w, w->each)), until = INFINITY;
    for (size_t i = 0; i < w->count; i++) {
        const double here = needed(light->minimum_lx, w->fixed[i], w->each[i]);
        from = here > from ? here : from;
    }
    for (size_t i = 0; w->faces && i < w->count; i++) {
        from = fmax(from, needed(light->semicylindrical_lx, w->ahead_fixed[i], w->ahead[i]));
        from = fmax(from, needed(light->semicylindrical_lx, w->back_fixed[i], w->back[i]));
    }
    evenness(w, &from, &until);
    from = fmax(from, fewest_lumens);
    const double most = w->wish->head[layout->head].most_lumens;
    if (!isfinite(from) || from > until || (most > 0.0 && from > most))
        return false;
    layout->lumens_each = from;
    return true;
}

/* The side, tilt and turn that need the fewest lumens, where the best so far needs more. */
static void better_of(const work *w, const lw_layout *spaced, lw_layout *best)
{
    const lw_layout_wish *wish = w->wish;
    for (int side = 0; side < (wish->place_count > 0 ? 1 : 3); side++) {
        const bool middle = side == LW_SIDE_MIDDLE;
        if ((wish->place_count == 0 && !wish->sides[side]) || (wish->field.kind == LW_FIELD_POLYGON && side > 0))
            continue;
        for (size_t t = 0; t < (middle ? 1 : wish->tilt_count); t++)
            for (size_t r = 0; r < wish->turn_count; r++) {
                lw_layout one = *spaced;
                one.side = (lw_side)side;
                one.tilt_deg = middle ? 0.0 : wish->tilts_deg[t];
                one.turn_deg = wish->turns_deg[r];
                if (!judge(w, &one) || (best->masts > 0 && one.lumens_each >= best->lumens_each))
                    continue;
                sum_up(w, &one);
                *best = one;
            }
    }
}

void lw_layout_light(const lw_layout_wish *wish, const lw_layout *layout, bool aged, double level,
                     lw_field_point *points, size_t count, lw_field_sum *out)
{
    lw_lamp lamps[LW_LAYOUT_MAX_MASTS + LW_LAYOUT_FIXED];
    lw_layout_lamps(wish, layout, lamps);
    for (size_t i = 0; i < wish->fixed_count; i++)
        lamps[layout->masts + i] = wish->fixed[i];
    const size_t lamp_count = layout->masts + wish->fixed_count;
    const double left = lw_layout_left(wish, layout);
    for (size_t i = 0; i < lamp_count; i++)
        lamps[i].maintenance *=
            level * (aged ? 1.0 : 1.0 / (i < layout->masts ? left : wish->fixed[i - layout->masts].maintenance));
    lw_field_light(lamps, lamp_count, 0.0, points, count);
    *out = lw_field_summary(points, count);
}

/* The grid of a layout's bays, and the light of the lamps that stand there anyway. */
static bool lay_grid(work *w, const lw_layout *layout, lw_arena *arena, lw_error *err)
{
    const lw_layout_wish *wish = w->wish;
    if (!lw_layout_grid(wish, layout, arena, &w->points, &w->count, err))
        return false;
    double *values = lw_arena_take(arena, VALUES * w->count, sizeof *values, err);
    if (!values)
        return false;
    double **const homes[] = {&w->fixed, &w->ahead_fixed, &w->back_fixed, &w->each, &w->ahead,
                              &w->back,  &w->share,       &w->x_m,        &w->y_m};
    for (size_t i = 0; i < VALUES; i++)
        *homes[i] = values + i * w->count;
    memset(values, 0, VALUES * w->count * sizeof *values);
    double all_m2 = 0.0;
    for (size_t i = 0; i < w->count; i++)
        all_m2 += w->points[i].area_m2;
    for (size_t i = 0; i < w->count; i++) {
        w->share[i] = w->points[i].area_m2 / all_m2;
        w->x_m[i] = w->points[i].x_m;
        w->y_m[i] = w->points[i].y_m;
    }
    for (size_t i = 0; i < wish->fixed_count; i++)
        lw_quick_light(&wish->fixed[i], w->points, w->count, w->fixed, w->faces ? w->ahead_fixed : NULL, w->back_fixed);
    return true;
}

static bool begin(work *w, const lw_layout_wish *wish, lw_arena *arena, lw_error *err)
{
    *w = (work){.wish = wish, .faces = wish->light.semicylindrical_lx > 0.0 || wish->late.semicylindrical_lx > 0.0};
    if (!check(wish, err) || !lw_field_check(&wish->field, err) || !check_work(wish, err))
        return false;
    w->lamps = lw_arena_take(arena, LW_LAYOUT_MAX_MASTS, sizeof *w->lamps, err);
    w->best = lw_arena_take(arena, wish->head_count * wish->height_count, sizeof *w->best, err);
    return w->lamps && w->best;
}

/* Fills w->best for a number of masts. */
static bool with_masts(work *w, size_t masts, lw_arena *arena, lw_error *err)
{
    const lw_layout_wish *wish = w->wish;
    memset(w->best, 0, wish->head_count * wish->height_count * sizeof *w->best);
    for (size_t way = 0; way < lw_layout_ends(wish, masts); way++) {
        const size_t used = arena->used;
        lw_layout one = {.masts = masts};
        lw_layout_space(wish, way, &one);
        if (!lay_grid(w, &one, arena, err))
            return false;
        for (one.head = 0; one.head < wish->head_count; one.head++)
            for (one.height = 0; one.height < wish->height_count; one.height++) {
                one.height_m = wish->heights_m[one.height];
                better_of(w, &one, &w->best[one.head * wish->height_count + one.height]);
            }
        arena->used = used;
    }
    return true;
}

size_t lw_layout_room(const lw_layout_wish *wish)
{
    if (wish->most_masts < wish->fewest_masts || wish->most_masts > LW_LAYOUT_MAX_MASTS)
        return 1; /* refused by the search */
    return (wish->most_masts - wish->fewest_masts + 1) * wish->head_count * wish->height_count;
}

bool lw_layout_all(const lw_layout_wish *wish, lw_arena *arena, lw_layout *out, size_t *count, lw_error *err)
{
    const size_t used = arena->used;
    work w;
    *count = 0;
    if (!begin(&w, wish, arena, err))
        return false;
    for (size_t masts = wish->fewest_masts; masts <= wish->most_masts; masts++) {
        if (!with_masts(&w, masts, arena, err))
            return false;
        for (size_t i = 0; i < wish->head_count * wish->height_count; i++)
            if (w.best[i].masts > 0)
                out[(*count)++] = w.best[i];
    }
    arena->used = used;
    return true;
}

/* What the search did not look at. */
static bool in_full(const lw_layout_wish *wish, lw_arena *arena, lw_layout *list, size_t count, lw_error *err)
{
    lw_field_point *points;
    size_t point_count;
    lw_lamp lamps[LW_LAYOUT_MAX_MASTS];
    for (size_t i = 0; i < count; i++) {
        const size_t used = arena->used;
        if (!lw_layout_grid(wish, &list[i], arena, &points, &point_count, err))
            return false;
        lw_layout_light(wish, &list[i], true, 1.0, points, point_count, &list[i].light);
        lw_layout_lamps(wish, &list[i], lamps);
        list[i].light.upward_share = lw_upward_share(lamps, 1);
        arena->used = used;
    }
    return true;
}

bool lw_layout_search(const lw_layout_wish *wish, const double *lumens_per_w, lw_arena *arena, lw_layout *out,
                      size_t *count, lw_error *err)
{
    const size_t used = arena->used;
    size_t all = 0;
    *count = 0;
    lw_layout *list = lw_arena_take(arena, lw_layout_room(wish) + 1, sizeof *list, err);
    if (!list || !lw_layout_all(wish, arena, list, &all, err))
        return false;
    double least = INFINITY;
    for (size_t i = 0; i < all; i++) {
        const double watts = list[i].lumens_each / (lumens_per_w ? lumens_per_w[list[i].head] : 1.0);
        const bool same = *count > 0 && out[*count - 1].masts == list[i].masts;
        if (same && watts >= least)
            continue;
        out[same ? *count - 1 : (*count)++] = list[i];
        least = watts;
    }
    const bool done = in_full(wish, arena, out, *count, err);
    arena->used = used;
    return done;
}
