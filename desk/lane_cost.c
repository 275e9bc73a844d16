/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cost of a way of lighting the lane: see lane_cost.h.
 */
#include "lane_cost.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const long choice_steps = 20000;

/* The same shape of schedule, so that more of it is more light. */
static bool comparable(double a, double b)
{
    return isnan(a) ? isnan(b) : !isnan(b) && (a < 1.0) == (b < 1.0);
}

/* Parts that no lamp goes without. */
static int64_t least_parts(const lw_shelf *shelf)
{
    int64_t panel = INT64_MAX, cell = INT64_MAX, charger = INT64_MAX, driver = INT64_MAX, sum = 0;
    for (size_t i = 0; i < shelf->panel_count; i++)
        panel = shelf->panel[i].price_minor < panel ? shelf->panel[i].price_minor : panel;
    for (size_t i = 0; i < shelf->cell_count; i++)
        cell = shelf->cell[i].price_minor < cell ? shelf->cell[i].price_minor : cell;
    for (size_t i = 0; i < shelf->charger_count; i++)
        charger = shelf->charger[i].price_minor < charger ? shelf->charger[i].price_minor : charger;
    for (size_t i = 0; i < shelf->driver_count; i++)
        driver = shelf->driver[i].price_minor < driver ? shelf->driver[i].price_minor : driver;
    for (size_t i = 0; i < shelf->part_count; i++)
        sum += shelf->part[i].per_lamp * shelf->part[i].price_minor;
    return sum + panel + cell + charger + driver;
}

/* A mast for a design with the light at a height; false: none stands or the poles are used up. */
static bool mast_of(const lw_plan_work *work, double panel_w, double pack_wh, double light_m, int *left,
                    lw_plan_mast *out)
{
    char why[LW_REASON], remedy[LW_REASON];
    lw_mast_wish wish;
    lw_error ignored = {0};
    if (!lw_plan_mast_wish(work->brief, panel_w, pack_wh, work->plan->tilt_deg, light_m, &wish, &ignored) ||
        !lw_plan_mast_choose(work->brief, &wish, left, 1, out, why, remedy) || out->missing > 0)
        return false;
    if (out->pole >= 0)
        left[out->pole]--;
    return true;
}

static void count_poles(const lw_shelf *shelf, int left[LW_SHELF_KINDS])
{
    for (size_t i = 0; i < shelf->mast_count; i++)
        left[i] = shelf->mast[i].count;
}

/* The least a mast of each height costs: with the smallest panel and hardly any pack, cement not counted. */
static void least_masts(lw_lane_cost *cost)
{
    const lw_brief *brief = cost->work->brief;
    const lw_layout_wish *wish = &brief->want.lane.ask.wish;
    double panel_w = INFINITY;
    for (size_t i = 0; i < brief->shelf.panel_count; i++)
        panel_w = fmin(panel_w, brief->shelf.panel[i].watts);
    for (size_t h = 0; brief->place.wind_given && h < wish->height_count; h++) {
        int left[LW_SHELF_KINDS];
        lw_plan_mast mast;
        count_poles(&brief->shelf, left);
        const bool stands = mast_of(cost->work, panel_w, 1.0, wish->heights_m[h], left, &mast);
        cost->mast_minor[h] = stands ? mast.cost_minor + brief->shelf.fixings_minor : INT64_MAX;
    }
}

void lw_lane_cost_begin(lw_lane_cost *cost, lw_plan_work *work, const lw_choice_kind *kinds)
{
    lw_choice choice = {0};
    const lw_want *want = &work->brief->want;
    memset(cost, 0, sizeof *cost);
    cost->work = work;
    memcpy(cost->kind, kinds, want->lamp_count * sizeof kinds[0]);
    cost->kind[want->lane.kind] = (lw_choice_kind){0};
    lw_plan_choose(&work->brief->shelf, cost->kind, want->lamp_count, choice_steps, &choice);
    cost->others_without = choice.without;
    cost->others_minor = choice.bound_minor;
    cost->floor_minor = least_parts(&work->brief->shelf);
    least_masts(cost);
}

void lw_lane_cost_end(lw_lane_cost *cost)
{
    for (size_t i = 0; i < cost->ready_count; i++)
        free(cost->ready[i].bytes);
}

static int64_t head_minor(const lw_shelf *shelf, const lw_lamp_kind *lamp)
{
    return lamp->head > 0 ? shelf->head[lamp->head - 1].price_minor : 0;
}

int64_t lw_lane_cost_least(const lw_lane_cost *cost, const lw_lane_row *row)
{
    lw_lamp_kind lamp;
    lw_lane_lamp(cost->work->brief, row, &lamp);
    const lw_shelf *shelf = &cost->work->brief->shelf;
    const int64_t mast = cost->mast_minor[row->layout.height];
    int64_t least = cost->floor_minor;
    for (size_t i = 0; i < cost->seen_count; i++)
        if (comparable(cost->seen[i].level, row->level) && cost->seen[i].head_w <= row->head_w &&
            !(cost->seen[i].level > row->level) && cost->seen[i].least_minor > least)
            least = cost->seen[i].least_minor;
    if (least == INT64_MAX || mast == INT64_MAX || (lamp.head > 0 && shelf->head[lamp.head - 1].count < lamp.count))
        return INT64_MAX;
    return cost->others_minor + lamp.count * (least + mast + head_minor(shelf, &lamp));
}

/* The engine of a schedule; each level has one. */
static const lw_engine *engine_for(lw_lane_cost *cost, const lw_lamp_kind *lamp, double level, lw_error *err)
{
    const lw_plan_work *work = cost->work;
    const lw_brief *brief = work->brief;
    for (size_t i = 0; i < cost->ready_count; i++)
        if (cost->ready[i].level == level || (isnan(level) && isnan(cost->ready[i].level)))
            return cost->ready[i].engine;
    if (cost->ready_count == LW_LANE_LEVELS) {
        (void)lw_fail(err, LW_NOT_COMPUTABLE, "want.lane", "There are too many late levels.");
        return NULL;
    }
    lw_design *designs = malloc(LW_WORK_DESIGNS * sizeof *designs);
    lw_system *system = malloc(sizeof *system);
    lw_refusals known = {0};
    const lw_worn fresh = {1.0, 1.0, 1.0};
    lw_arena arena = lw_arena_over(malloc(lw_engine_bytes()), lw_engine_bytes());
    lw_engine *engine = NULL;
    bool done = designs && system && arena.base;
    if (!done)
        (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory for the search.");
    if (done &&
        lw_plan_designs(brief, lamp, work->plan->coldest_c, &work->plan->box, designs, LW_WORK_DESIGNS, &known) == 0)
        done = lw_fail(err, LW_WRONG_INPUT, "shelf", "Nothing on the shelf makes a lamp of %.3g W for the lane.",
                       lamp->head_w);
    if (done) {
        designs[0].parallel = 1;
        if (lw_plan_system(brief, lamp, &designs[0], &fresh, work->plan->tilt_deg, work->plan->facing_deg, system, err))
            engine = lw_engine_prepare(system, brief->place.lat_deg, brief->place.lon_deg, brief->place.utc_offset_h,
                                       &arena, err);
    }
    free(designs);
    free(system);
    if (!engine) {
        free(arena.base);
        return NULL;
    }
    cost->ready[cost->ready_count].level = level;
    cost->ready[cost->ready_count].bytes = arena.base;
    cost->ready[cost->ready_count++].engine = engine;
    return engine;
}

/* Sizes of one lamp, remembered for the bound. A lamp that no part goes with has none. */
static bool find_sizes(lw_lane_cost *cost, const lw_lamp_kind *lamp, double level, lw_breadth breadth, size_t *count,
                       lw_error *err)
{
    lw_lamp_kind bare = *lamp;
    bare.head = 0;
    lw_error why = {0};
    *count = 0;
    lw_other_light other = {&bare, engine_for(cost, &bare, level, &why), level, &cost->memory};
    if (!other.engine && strcmp(why.field, "shelf") != 0) {
        *err = why;
        return false;
    }
    if (other.engine && !lw_work_sizes(cost->work, cost->work->brief->want.lane.kind, &other, breadth, cost->size,
                                       LW_LANE_SIZES, count, err))
        return false;
    cost->sized++;
    if (cost->seen_count < LW_LANE_PRICES) {
        cost->seen[cost->seen_count].head_w = bare.head_w;
        cost->seen[cost->seen_count].level = level;
        cost->seen[cost->seen_count++].least_minor = *count > 0 ? cost->size[0].cost_minor : INT64_MAX;
    }
    return true;
}

/* Masts for all chosen lamps in their order, with bases and fixings; false: one does not stand. */
static bool add_masts(const lw_lane_cost *cost, const lw_choice *choice, double light_m, int64_t *total)
{
    const lw_brief *brief = cost->work->brief;
    const lw_shelf *shelf = &brief->shelf;
    int left[LW_SHELF_KINDS], lamp = 0;
    double concrete_m3 = 0.0;
    if (!brief->place.wind_given)
        return true;
    count_poles(shelf, left);
    for (size_t k = 0; k < brief->want.lamp_count; k++)
        for (int i = 0; i < cost->kind[k].lamps; i++, lamp++) {
            lw_plan_mast mast;
            if (choice->pick[lamp] < 0)
                continue;
            const lw_design *design = &cost->kind[k].candidate[choice->pick[lamp]].design;
            const double height = k == brief->want.lane.kind ? light_m : brief->want.lamp[k].light_m;
            if (!mast_of(cost->work, lw_design_panel_w(shelf, design), lw_design_pack_wh(shelf, design), height, left,
                         &mast))
                return false;
            *total += mast.cost_minor + shelf->fixings_minor;
            concrete_m3 += mast.concrete_m3;
        }
    *total += lw_plan_cement_bags(concrete_m3) * shelf->cement_minor;
    return true;
}

bool lw_lane_cost_share(lw_lane_cost *cost, const lw_lamp_kind *lamp, const lw_candidate *sizes, size_t count,
                        int64_t *total, bool *cheapest)
{
    lw_choice choice = {0};
    const lw_brief *brief = cost->work->brief;
    *cheapest = false;
    if (count == 0 || (lamp->head > 0 && brief->shelf.head[lamp->head - 1].count < lamp->count))
        return false;
    cost->kind[brief->want.lane.kind] = (lw_choice_kind){sizes, count, lamp->count};
    lw_plan_choose(&brief->shelf, cost->kind, brief->want.lamp_count, choice_steps, &choice);
    *cheapest = choice.cost_minor == cost->others_minor + lamp->count * sizes[0].cost_minor;
    /* Sizes found for the lamp as it is hold its head's price already. */
    const int64_t head = sizes[0].design.head > 0 ? 0 : lamp->count * head_minor(&brief->shelf, lamp);
    *total = choice.cost_minor + head;
    return choice.without <= cost->others_without && add_masts(cost, &choice, lamp->light_m, total);
}

bool lw_lane_cost_of(lw_lane_cost *cost, lw_lane_row *row, lw_error *err)
{
    lw_lamp_kind lamp;
    size_t count = 0;
    bool cheapest;
    lw_lane_lamp(cost->work->brief, row, &lamp);
    /* A scarce shelf may need ways of building that look dear for one lamp. */
    for (lw_breadth breadth = LW_CHEAPEST; breadth <= LW_ALL_WAYS; breadth++) {
        if (!find_sizes(cost, &lamp, row->level, breadth, &count, err))
            return false;
        row->fed = lw_lane_cost_share(cost, &lamp, cost->size, count, &row->cost_minor, &cheapest);
        if (count == 0 || (row->fed && (cheapest || breadth > LW_CHEAPEST)))
            return true;
    }
    return true;
}
