/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pure stages of a plan: search for the smallest pack, choice from one shelf, front of alternatives,
 * parts and their sum.
 */
#include "lanewick/plan.h"
#include "lanewick/rng.h"
#include "lanewick/sizing.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

/* ---- smallest pack ---- */

static void search_finds_every_answer(void **state)
{
    (void)state;
    for (int most = 1; most <= 23; most++)
        for (int answer = 1; answer <= most + 1; answer++)
            for (int guess = 1; guess <= most; guess++) {
                lw_sizing_line line = {.guess = guess, .most = most};
                lw_sizing_ask ask;
                int asked = 0;
                while (lw_sizing_step(&line, 1, &ask) > 0) {
                    assert_true(ask.parallel >= 1 && ask.parallel <= most);
                    lw_sizing_tell(&line, ask.parallel, ask.parallel >= answer);
                    assert_true(++asked <= 9);
                }
                assert_int_equal(lw_sizing_answer(&line), answer <= most ? answer : 0);
            }
}

static void search_ends_when_answers_contradict(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(5, 0, 0);
    for (int round = 0; round < 2000; round++) {
        lw_sizing_line line = {.guess = 1 + (int)lw_rng_below(&rng, 17), .most = 17};
        lw_sizing_ask ask;
        int asked = 0;
        while (lw_sizing_step(&line, 1, &ask) > 0) {
            lw_sizing_tell(&line, ask.parallel, lw_rng_below(&rng, 2) == 0);
            assert_true(++asked < 40);
        }
    }
}

/* By hand: June 40 Wh / (3.2 kWh/m2 x 0.6) = 20.83 W is more than December 44 / (5.1 x 0.6) = 14.4 W. */
static void worst_month_by_hand(void **state)
{
    (void)state;
    double load[12], sun[12];
    for (int m = 0; m < 12; m++) {
        load[m] = 41.0;
        sun[m] = 4.7;
    }
    load[5] = 40.0;
    sun[5] = 3.2;
    load[11] = 44.0;
    sun[11] = 5.1;
    const lw_worst_month worst = lw_worst_month_size(load, sun, 0.6, 3.0, 0.8);
    assert_int_equal(worst.month, 6);
    assert_true(fabs(worst.panel_w - 40.0 / (3.2 * 0.6)) < 1e-9);
    assert_true(fabs(worst.pack_wh - 44.0 * 3.0 / 0.8) < 1e-9);
}

/* ---- choice ---- */

static lw_shelf shelf_of(int panels_a, int panels_b, int cells)
{
    lw_shelf shelf = {.panel_count = 2, .cell_count = 1, .charger_count = 1, .driver_count = 1};
    shelf.panel[0].count = panels_a;
    shelf.panel[1].count = panels_b;
    shelf.cell[0].count = cells;
    shelf.charger[0].count = shelf.driver[0].count = 1000;
    return shelf;
}

static lw_candidate candidate(int panel, int parallel, int64_t cost, bool keeps)
{
    lw_candidate c = {.keeps = keeps, .cost_minor = cost};
    c.design = (lw_design){.panel = panel, .panels = 1, .series = 3, .parallel = parallel, .board = -1};
    c.outcome.dark.mean = keeps ? 1.0 : 20.0;
    return c;
}

static void plenty_gives_everybody_the_cheapest(void **state)
{
    (void)state;
    const lw_shelf shelf = shelf_of(100, 100, 1000);
    const lw_candidate list[] = {candidate(0, 6, 700, true), candidate(1, 4, 640, true), candidate(0, 3, 500, false)};
    const lw_choice_kind kind = {list, 3, 17};
    lw_choice choice = {0};
    lw_plan_choose(&shelf, &kind, 1, 100000, &choice);
    for (int i = 0; i < 17; i++)
        assert_int_equal(choice.pick[i], 1);
    assert_int_equal(choice.cost_minor, 17 * 640);
    assert_true(choice.complete);
    assert_int_equal(choice.without, 0);
}

static void short_shelf_is_shared(void **state)
{
    (void)state;
    /* Only two of panel 1: two lamps get it, the others the dearer way; cells allow it exactly. */
    const lw_shelf shelf = shelf_of(9, 2, 2 * 12 + 3 * 18);
    const lw_candidate list[] = {candidate(0, 6, 700, true), candidate(1, 4, 640, true)};
    const lw_choice_kind kind = {list, 2, 5};
    lw_choice choice = {0};
    lw_plan_choose(&shelf, &kind, 1, 100000, &choice);
    assert_int_equal(choice.cost_minor, 2 * 640 + 3 * 700);
    assert_true(choice.complete);
    /* One cell less: one lamp has to miss the wish, and one with no parts at all is worse still. */
    const lw_shelf fewer = shelf_of(9, 2, 2 * 12 + 3 * 18 - 1);
    const lw_candidate more[] = {list[0], list[1], candidate(0, 2, 450, false)};
    const lw_choice_kind kinds = {more, 3, 5};
    lw_plan_choose(&fewer, &kinds, 1, 100000, &choice);
    assert_int_equal(choice.without, 1);
    for (int i = 0; i < 5; i++)
        assert_true(choice.pick[i] >= 0);
}

/* Twelve cells: two lamps that keep the wish, not four that miss it; what is left goes to a lamp that misses. */
static void lamps_that_keep_the_wish_come_first(void **state)
{
    (void)state;
    const lw_shelf shelf = shelf_of(9, 0, 15);
    const lw_candidate list[] = {candidate(0, 2, 700, true), candidate(0, 1, 300, false)};
    const lw_choice_kind kind = {list, 2, 5};
    lw_choice choice = {0};
    lw_plan_choose(&shelf, &kind, 1, 100000, &choice);
    assert_true(choice.complete);
    assert_int_equal(choice.without, 3);
    const int expected[] = {0, 0, 1, -1, -1};
    for (int i = 0; i < 5; i++)
        assert_int_equal(choice.pick[i], expected[i]);
}

/* Against every assignment, for small random shelves. */
static int64_t best_by_hand(const lw_candidate *list, int n, int lamps, const lw_shelf *shelf)
{
    int64_t best = INT64_MAX;
    int total = 1;
    for (int i = 0; i < lamps; i++)
        total *= n;
    for (int code = 0; code < total; code++) {
        int cells = 0, panels[2] = {0, 0}, rest = code;
        int64_t cost = 0;
        for (int i = 0; i < lamps; i++, rest /= n) {
            const lw_candidate *c = &list[rest % n];
            cells += c->design.series * c->design.parallel;
            panels[c->design.panel]++;
            cost += c->cost_minor;
        }
        if (cells <= shelf->cell[0].count && panels[0] <= shelf->panel[0].count && panels[1] <= shelf->panel[1].count &&
            cost < best)
            best = cost;
    }
    return best;
}

static void choice_is_the_best_there_is(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(11, 3, 7);
    int feasible = 0;
    for (int round = 0; round < 400; round++) {
        lw_candidate list[5];
        for (int i = 0; i < 5; i++)
            list[i] = candidate((int)lw_rng_below(&rng, 2), 1 + (int)lw_rng_below(&rng, 6),
                                100 + (int64_t)lw_rng_below(&rng, 900), true);
        const lw_shelf shelf =
            shelf_of((int)lw_rng_below(&rng, 5), (int)lw_rng_below(&rng, 5), 20 + (int)lw_rng_below(&rng, 40));
        const lw_choice_kind kind = {list, 5, 4};
        lw_choice choice = {0};
        lw_plan_choose(&shelf, &kind, 1, 1000000, &choice);
        const int64_t best = best_by_hand(list, 5, 4, &shelf);
        assert_true(choice.complete);
        if (best == INT64_MAX) {
            assert_true(choice.without > 0);
        } else {
            feasible++;
            assert_int_equal(choice.without, 0);
            assert_int_equal(choice.cost_minor, best);
        }
    }
    assert_true(feasible > 50 && feasible < 350);
}

/* As many lamps as a brief takes, dark every night or without parts: the worst sums are still numbers in order. */
static void the_greatest_brief_is_weighed(void **state)
{
    (void)state;
    const lw_shelf shelf = shelf_of(LW_BRIEF_LAMPS / 2, 0, LW_BRIEF_LAMPS);
    lw_candidate dark = candidate(0, 1, lw_price_max_minor, false);
    dark.design.trimmed = true;
    dark.outcome.dark.mean = 366.0;
    const lw_choice_kind kind = {&dark, 1, LW_BRIEF_LAMPS};
    lw_choice choice = {0};
    lw_plan_choose(&shelf, &kind, 1, 1000000, &choice);
    assert_true(choice.complete);
    assert_int_equal(choice.without, LW_BRIEF_LAMPS);
    for (int i = 0; i < LW_BRIEF_LAMPS; i++) /* a dark lamp is better than none, and parts are there for one in three */
        assert_int_equal(choice.pick[i], i < LW_BRIEF_LAMPS / 3 ? 0 : -1);
    const lw_shelf empty = shelf_of(0, 0, 0);
    lw_plan_choose(&empty, &kind, 1, 1000000, &choice);
    assert_true(choice.complete);
    assert_int_equal(choice.cost_minor, 0);
}

static void front_falls(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(2, 3, 4);
    lw_candidate list[60];
    for (int i = 0; i < 60; i++) {
        list[i] = candidate(0, 1 + i % 7, 100 + (int64_t)lw_rng_below(&rng, 500), false);
        list[i].outcome.dark.mean = 40.0 * lw_rng_uniform(&rng);
        list[i].keeps = list[i].outcome.dark.mean < 6.0;
    }
    double fewest = INFINITY;
    for (int i = 0; i < 60; i++)
        fewest = fmin(fewest, list[i].outcome.dark.mean);
    const size_t n = lw_plan_front(list, 60, 6);
    assert_true(n >= 3 && n <= 6);
    for (size_t i = 1; i < n; i++) {
        assert_true(list[i].cost_minor > list[i - 1].cost_minor);
        assert_true(list[i].outcome.dark.mean < list[i - 1].outcome.dark.mean);
    }
    assert_true(list[n - 1].outcome.dark.mean == fewest);
}

/* ---- parts ---- */

static const lw_design three_by_four = {.panels = 1, .series = 3, .parallel = 4};

static void parts_add_up(void **state)
{
    (void)state;
    static lw_plan plan;
    memset(&plan, 0, sizeof plan);
    plan.brief.shelf.panel[0].price_minor = 2405;
    plan.brief.shelf.cell[0].price_minor = 37;
    plan.brief.shelf.charger[0].price_minor = 519;
    plan.brief.shelf.board[0].price_minor = 261;
    plan.brief.shelf.driver[0].price_minor = 399;
    plan.brief.shelf.part_count = 1;
    plan.brief.shelf.part[0] = (lw_shelf_part){.name = "screw", .per_lamp = 7, .price_minor = 3};
    plan.kind_count = 2;
    plan.kind[0] = (lw_plan_kind){.count = 4, .design = three_by_four};
    plan.kind[1] = (lw_plan_kind){.count = 1, .design = {.panels = 2, .series = 3, .parallel = 6}};
    lw_plan_parts(&plan);
    const int64_t by_lamp = 4 * lw_design_cost_minor(&plan.brief.shelf, &plan.kind[0].design) +
                            lw_design_cost_minor(&plan.brief.shelf, &plan.kind[1].design);
    assert_int_equal(plan.cost_minor, by_lamp);
    assert_int_equal(plan.cost_minor, 6 * 2405 + (48 + 18) * 37 + 5 * (519 + 261 + 399) + 35 * 3);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(search_finds_every_answer),
        cmocka_unit_test(search_ends_when_answers_contradict),
        cmocka_unit_test(worst_month_by_hand),
        cmocka_unit_test(plenty_gives_everybody_the_cheapest),
        cmocka_unit_test(short_shelf_is_shared),
        cmocka_unit_test(lamps_that_keep_the_wish_come_first),
        cmocka_unit_test(choice_is_the_best_there_is),
        cmocka_unit_test(the_greatest_brief_is_weighed),
        cmocka_unit_test(front_falls),
        cmocka_unit_test(parts_add_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
