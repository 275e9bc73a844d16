/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The search for masts with the nights in the loop against brute force: every way of standing, every head and late
 * level sized on its own, in all ways of building, with nothing known from other ways. And what must hold of its
 * tables.
 */
#include "demo_brief.h"
#include "desk/lane_cost.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static lw_plan plan;

static void find(const char *name, bool lane_only, int threads)
{
    lw_error err = {0};
    const lw_plan_request request = {
        .brief = brief, .brief_length = read_brief(name), .seed = 1, .threads = threads, .lane_only = lane_only};
    if (!lw_desk_plan(&request, &plan, &err))
        fail_msg("%s: %s", name, err.message);
    assert_true(plan.lane.given && plan.refused.count == 0);
}

/* The least cost of a way by brute force; INT64_MAX: it cannot be fed. */
static int64_t brute_cost(lw_plan_work *work, lw_lane_cost *cost, lw_size_memory *memory, const lw_lane_row *row)
{
    lw_error err = {0};
    lw_lamp_kind lamp, bare;
    lw_candidate sizes[LW_LANE_SIZES];
    size_t count = 0;
    int64_t total;
    bool cheapest;
    lw_lane_lamp(work->brief, row, &lamp);
    bare = lamp;
    bare.head = 0;
    memset(memory, 0, sizeof *memory);
    /* the engine of this schedule, from a first look by the search's own way */
    lw_lane_row look = *row;
    if (!lw_lane_cost_of(cost, &look, &err))
        fail_msg("%s", err.message);
    const lw_engine *engine = NULL;
    for (size_t i = 0; i < cost->ready_count; i++)
        if (cost->ready[i].level == row->level)
            engine = cost->ready[i].engine;
    if (!engine)
        return INT64_MAX;
    const lw_other_light other = {&bare, engine, row->level, memory};
    if (!lw_work_sizes(work, work->brief->want.lane.kind, &other, LW_ALL_WAYS, sizes, LW_LANE_SIZES, &count, &err))
        fail_msg("%s", err.message);
    return lw_lane_cost_share(cost, &lamp, sizes, count, &total, &cheapest) ? total : INT64_MAX;
}

static int64_t brute_force(long *ways)
{
    static lw_plan other;
    static lw_plan_work work;
    static lw_layout all[500];
    static unsigned char memory[4 << 20];
    lw_error err = {0};
    lw_lane_cost *cost = malloc(sizeof *cost);
    lw_size_memory *seen = malloc(sizeof *seen);
    assert_non_null(cost);
    assert_non_null(seen);
    memset(&other, 0, sizeof other);
    assert_true(lw_brief_from_json(brief, strlen(brief), &other.brief, &err));
    const lw_plan_request request = {.brief = brief, .brief_length = strlen(brief), .seed = 1};
    work = (lw_plan_work){.request = &request, .plan = &other, .brief = &other.brief};
    other.seed = 1;
    assert_true(lw_work_begin(&work, &err));
    const lw_lane_want *want = &other.brief.want.lane;
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    size_t count;
    int64_t least = INT64_MAX;
    assert_true(lw_layout_room(&want->ask.wish) <= 500);
    assert_true(lw_layout_all(&want->ask.wish, &arena, all, &count, &err));
    const lw_choice_kind none[LW_BRIEF_KINDS] = {{0}};
    lw_lane_cost_begin(cost, &work, none);
    *ways = 0;
    for (size_t i = 0; i < count; i++)
        for (int late = 0; late < 2; late++) {
            lw_lane_row row = {.layout = all[i]};
            row.layout.lumens_each = 5.0 * ceil(all[i].lumens_each / 5.0 - 1e-9);
            row.head_w = row.layout.lumens_each / want->ask.lumens_per_w[all[i].head];
            row.level = late ? fmin(1.0, 0.05 * ceil(all[i].late_level / 0.05 - 1e-9)) : 1.0;
            const int64_t found = brute_cost(&work, cost, seen, &row);
            least = found < least ? found : least;
            (*ways)++;
        }
    lw_lane_cost_end(cost);
    lw_work_end(&work);
    free(cost);
    free(seen);
    return least;
}

static void the_search_finds_what_brute_force_finds(void **state)
{
    (void)state;
    long ways;
    find("tests/briefs/lane", true, 0);
    const int64_t least = brute_force(&ways);
    assert_true(plan.lane.chosen.fed);
    assert_int_equal(plan.lane.chosen.cost_minor, least);
    assert_true(ways >= 12 && plan.lane.ways <= ways);
}

static const lw_lane_row *chosen_of(const lw_lane_row *rows, size_t count)
{
    const lw_lane_row *chosen = NULL;
    for (size_t i = 0; i < count; i++) {
        assert_true(!chosen || !rows[i].chosen);
        chosen = rows[i].chosen ? &rows[i] : chosen;
    }
    assert_non_null(chosen);
    return chosen;
}

/* More lumens and more late light never cost less; the chosen way is in every table and is the cheapest of its kind. */
static void the_tables_tell_what_more_costs(void **state)
{
    (void)state;
    find("tests/briefs/lane", false, 0);
    const lw_plan_lane *lane = &plan.lane;
    const int64_t cost = lane->chosen.cost_minor;
    (void)chosen_of(lane->by_masts, lane->masts_count);
    (void)chosen_of(lane->by_height, lane->height_count);
    (void)chosen_of(lane->by_light, lane->light_count);
    (void)chosen_of(lane->by_late, lane->late_count);
    for (size_t i = 0; i < lane->masts_count; i++)
        assert_true(lane->by_masts[i].cost_minor >= cost);
    for (size_t i = 0; i < lane->height_count; i++)
        assert_true(lane->by_height[i].cost_minor >= cost);
    for (size_t i = 1; i < lane->light_count; i++) {
        assert_true(lane->by_light[i].layout.lumens_each > lane->by_light[i - 1].layout.lumens_each);
        assert_true(!lane->by_light[i].fed || lane->by_light[i].cost_minor >= lane->by_light[i - 1].cost_minor);
    }
    /* P6 and 0.9 lx late: what gives less says so */
    for (size_t i = 0; i < lane->light_count; i++) {
        const lw_field_sum *is = &lane->by_light[i].layout.light;
        const bool p6 = is->average_lx >= 2.0 - 1e-9 && is->minimum_lx >= 0.4 - 1e-9;
        assert_true(lane->by_light[i].lit == (p6 && is->average_lx * lane->by_light[i].level >= 0.9 - 1e-9));
        assert_true(i > 0 || !lane->by_light[i].lit);
    }
    assert_true(lane->chosen.lit && !lane->by_late[lane->late_count - 1].lit);
    for (size_t i = 1; i < lane->late_count; i++)
        assert_true(lane->by_late[i].level < lane->by_late[i - 1].level);
    /* the plan's own sum, by all draws, is that of the search or one cell in parallel more for each lamp */
    const lw_design *design = &plan.kind[0].design;
    const int64_t a_cell_more = design->series * plan.brief.shelf.cell[design->cell].price_minor;
    assert_true(plan.keeps);
    assert_true(plan.cost_minor == cost || plan.cost_minor == cost + (int64_t)lane->chosen.layout.masts * a_cell_more);
    int lamps = 0;
    for (size_t i = 0; i < plan.kind_count; i++)
        lamps += plan.kind[i].count;
    assert_int_equal(lamps, lane->chosen.layout.masts);
}

/* The light of every step is what the lane gets when it is summed plainly, new and after the planned years. */
static void the_light_holds_when_computed_anew(void **state)
{
    (void)state;
    static unsigned char memory[1 << 20];
    find("tests/briefs/lane", false, 0);
    const lw_plan_lane *lane = &plan.lane;
    const lw_layout_wish *wish = &plan.brief.want.lane.ask.wish;
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_field_point *points;
    size_t count;
    assert_true(lw_layout_grid(wish, &lane->chosen.layout, &arena, &points, &count, &err));
    lw_field_light(lane->lamp, lane->chosen.layout.masts, 0.0, points, count);
    const lw_field_sum full = lw_field_summary(points, count);
    assert_true(full.average_lx >= 2.0 - 1e-9 && full.minimum_lx >= 0.4 - 1e-9); /* P6 */
    assert_int_equal(lane->step_count, lane->chosen.level < 1.0 ? 2 : 1);
    for (size_t i = 0; i < lane->step_count; i++) {
        const lw_lane_step *step = &lane->step[i];
        assert_true(fabs(step->worn.average_lx - step->span.level * full.average_lx) < 1e-9);
        assert_true(fabs(step->fresh.minimum_lx - step->span.level * full.minimum_lx / 0.7) < 1e-9);
        assert_true(fabs(step->fresh.uniformity - full.uniformity) < 1e-9);
        assert_true(i == 0 || step->worn.average_lx >= 0.9 - 1e-9); /* the late wish */
    }
    for (size_t i = 0; i < lane->hour_count; i++) {
        assert_true(lane->hour[i].level > 0.0 && lane->hour[i].level <= 1.0);
        assert_true(fabs(lane->hour[i].average_lx - lane->hour[i].level * full.average_lx) < 1e-9);
        /* dusk to 22:00 at full light, after that turned down: any place near the equator */
        if (lane->hour[i].hour >= 19 && lane->hour[i].hour < 22)
            assert_true(fabs(lane->hour[i].level - 1.0) < 1e-9);
        if (lane->hour[i].hour >= 22 || lane->hour[i].hour < 5)
            assert_true(fabs(lane->hour[i].level - lane->chosen.level) < 1e-9);
    }
}

static void the_number_of_threads_does_not_matter(void **state)
{
    (void)state;
    char *texts[2];
    for (int i = 0; i < 2; i++) {
        find("tests/briefs/lane", true, i == 0 ? 1 : 3);
        texts[i] = lw_plan_lane_to_json(&plan);
        assert_non_null(texts[i]);
    }
    assert_string_equal(texts[0], texts[1]);
    free(texts[0]);
    free(texts[1]);
}

int main(void)
{
#if defined(__SANITIZE_ADDRESS__)
    /* Ten times slower: the same code without brute force. */
    const struct CMUnitTest few[] = {cmocka_unit_test(the_light_holds_when_computed_anew)};
    if (!getenv("LW_ALL_PLANS"))
        return cmocka_run_group_tests(few, NULL, NULL);
#endif
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_search_finds_what_brute_force_finds),
        cmocka_unit_test(the_tables_tell_what_more_costs),
        cmocka_unit_test(the_light_holds_when_computed_anew),
        cmocka_unit_test(the_number_of_threads_does_not_matter),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
