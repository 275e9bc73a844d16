/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pure stages of a plan: search for the smallest pack, choice from one shelf, front of alternatives, hard limits,
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

/* ---- hard limits ---- */

static lw_brief good_brief(void)
{
    lw_brief b = {0};
    b.build = (lw_build){.pack_in = LW_SEAT_BOX, .vent = true, .fuse = true, .protection = true};
    b.shelf.panel_count = b.shelf.cell_count = b.shelf.charger_count = b.shelf.board_count = b.shelf.driver_count = 1;
    b.shelf.panel[0] = (lw_shelf_panel){.name = "panel", .watts = 20, .voc_v = 21.6, .vmp_v = 17.6, .count = 3};
    b.shelf.cell[0] = (lw_shelf_cell){.name = "cell", .capacity_ah = 1.9, .lowest_found_v = NAN, .count = 30};
    b.shelf.charger[0] = (lw_shelf_charger){.name = "charger",
                                            .series_min = 3,
                                            .series_max = 3,
                                            .end_v_per_cell = 4.1,
                                            .most_input_v = 26.0,
                                            .cold_stop_c = NAN,
                                            .hot_stop_c = NAN};
    b.shelf.board[0] = (lw_shelf_board){
        .name = "board", .series = 3, .every_group = true, .balances = true, .high_v = 4.25, .low_v = 2.8};
    b.shelf.driver[0] = (lw_shelf_driver){.name = "driver", .low_stop_v_per_cell = NAN};
    return b;
}

static const lw_design three_by_four = {.panels = 1, .series = 3, .parallel = 4};

static void a_good_lamp_passes(void **state)
{
    (void)state;
    const lw_brief b = good_brief();
    lw_refusals out = {0};
    const lw_box_life mild = {3.0, 41.0, 0.0, 0.0};
    assert_true(lw_limits_brief(&b, &out));
    assert_true(lw_limits_design(&b, &three_by_four, 2.0, &out));
    assert_true(lw_limits_box(&b.shelf.charger[0], &mild, &out));
    assert_int_equal(out.count, 0);
}

/* Every limit of this issue, broken one at a time. */
static void each_limit_refuses(void **state)
{
    (void)state;
    static const char *const ids[] = {
        "pack_in_head",       "pack_where_people_sleep", "sealed_box",          "no_fuse",
        "no_protection",      "unknown_class",           "cell_verdict",        "found_too_low",
        "found_too_low",      "no_charge_limit",         "charge_voltage",      "discharge_voltage",
        "groups_not_watched", "input_voltage",           "charging_below_0",    "charging_above_45",
        "above_60_v",         "board_voltage",           "no_protection_groups"};
    const lw_box_life frost = {-6.0, 30.0, 40.0, 0.0}, heat = {5.0, 52.0, 0.0, 90.0};
    for (size_t i = 0; i < sizeof ids / sizeof ids[0]; i++) {
        lw_brief b = good_brief();
        lw_design design = three_by_four;
        lw_box_life life = {3.0, 41.0, 0.0, 0.0};
        switch (i) {
        case 0:
            b.build.pack_in = LW_SEAT_HEAD;
            break;
        case 1:
            b.build.pack_in = LW_SEAT_ROOM;
            break;
        case 2:
            b.build.vent = false;
            break;
        case 3:
            b.build.fuse = false;
            break;
        case 4:
            b.build.protection = false;
            break;
        case 5:
            b.shelf.cell[0].voltage_class = LW_SHELF_UNKNOWN;
            break;
        case 6:
            b.shelf.cell[0].verdict = LW_SHELF_UNSURE;
            break;
        case 7:
            b.shelf.cell[0].lowest_found_v = 1.93;
            break;
        case 8:
            b.shelf.cell[0].lowest_found_v = 2.31;
            break;
        case 9:
            b.shelf.charger[0].end_v_per_cell = NAN;
            break;
        case 10:
            b.shelf.charger[0].end_v_per_cell = 4.27;
            break;
        case 11:
            b.shelf.board[0].low_v = 2.3;
            break;
        case 12:
            b.shelf.board[0].balances = false;
            break;
        case 13:
            b.shelf.charger[0].most_input_v = 22.0;
            break;
        case 14:
            life = frost;
            b.shelf.charger[0].cold_stop_c = -5.0;
            break;
        case 15:
            life = heat;
            break;
        case 16:
            b.shelf.panel[0].voc_v = 57.0;
            b.shelf.charger[0].most_input_v = 100.0;
            break;
        case 17:
            b.shelf.board[0].high_v = 4.41;
            break;
        default:
            design.board = -1;
            break;
        }
        lw_refusals out = {0};
        const bool brief = lw_limits_brief(&b, &out), made = lw_limits_design(&b, &design, -9.0, &out);
        const bool box = lw_limits_box(&b.shelf.charger[0], &life, &out);
        bool found = false;
        for (size_t k = 0; k < out.count; k++) {
            found = found || strcmp(out.item[k].id, ids[i]) == 0;
            assert_true(out.item[k].reason[0] && out.item[k].remedy[0] && out.item[k].source[0]);
        }
        if (!found || (brief && made && box))
            fail_msg("%s was not refused", ids[i]);
    }
}

static void a_cut_off_makes_frost_acceptable(void **state)
{
    (void)state;
    lw_brief b = good_brief();
    const lw_box_life frost = {-6.0, 51.0, 40.0, 3.0};
    b.shelf.charger[0].cold_stop_c = 1.0;
    b.shelf.charger[0].hot_stop_c = 45.0;
    lw_refusals out = {0};
    assert_true(lw_limits_box(&b.shelf.charger[0], &frost, &out));
    b.shelf.cell[0].lowest_found_v = 2.31;
    b.shelf.cell[0].recovered = true;
    assert_true(lw_limits_brief(&b, &out));
}

static void parts_add_up(void **state)
{
    (void)state;
    static lw_plan plan;
    memset(&plan, 0, sizeof plan);
    plan.brief = good_brief();
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
        cmocka_unit_test(choice_is_the_best_there_is),
        cmocka_unit_test(front_falls),
        cmocka_unit_test(a_good_lamp_passes),
        cmocka_unit_test(each_limit_refuses),
        cmocka_unit_test(a_cut_off_makes_frost_acceptable),
        cmocka_unit_test(parts_add_up),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
