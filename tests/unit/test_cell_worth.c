/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Estimates from several tests and the crate, whether their bands hold, grading rules, the bench.
 */
#include "lanewick/forecast.h"
#include "lanewick/rng.h"
#include "lanewick/verdict.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

/* A crate of normal cells, each with one or two tests: the 90 % band of the shrunk estimate holds the truth about as
 * often as it says, and shrinking lowers the mean squared error. */
static void shrinking_pays(void **state)
{
    (void)state;
    enum { CRATES = 60, CELLS = 40 };
    lw_rng rng = lw_rng_stream(8, 2, 1);
    int held = 0;
    double plain = 0.0, shrunk = 0.0;
    for (int c = 0; c < CRATES; c++) {
        lw_estimate own[CELLS], crate;
        double truth[CELLS];
        lw_error err = {0};
        for (int i = 0; i < CELLS; i++) {
            truth[i] = 2.0 + 0.2 * lw_rng_normal(&rng);
            const double sd[2] = {0.15, 0.10};
            const double x[2] = {truth[i] + sd[0] * lw_rng_normal(&rng), truth[i] + sd[1] * lw_rng_normal(&rng)};
            assert_true(lw_estimate_from(x, sd, i % 2 ? 2 : 1, NULL, &own[i], &err));
        }
        assert_true(lw_estimate_of_crate(own, CELLS, &crate, &err));
        for (int i = 0; i < CELLS; i++) {
            lw_estimate e;
            assert_true(lw_estimate_from(&own[i].value, &own[i].sd, 1, &crate, &e, &err));
            held += fabs(e.value - truth[i]) < 1.645 * e.sd;
            shrunk += (e.value - truth[i]) * (e.value - truth[i]);
            plain += (own[i].value - truth[i]) * (own[i].value - truth[i]);
        }
    }
    const int all = CRATES * CELLS;
    if (held < all * 86 / 100 || held > all * 95 / 100)
        fail_msg("the 90 %% band held %d of %d", held, all);
    assert_true(shrunk < 0.85 * plain);
}

/* Readings that contradict one another widen the band. */
static void contradiction_widens(void **state)
{
    (void)state;
    const double agree[] = {2.0, 2.01}, differ[] = {1.8, 2.2}, sd[] = {0.02, 0.02};
    lw_estimate a, b;
    lw_error err = {0};
    assert_true(lw_estimate_from(agree, sd, 2, NULL, &a, &err));
    assert_true(lw_estimate_from(differ, sd, 2, NULL, &b, &err));
    assert_true(fabs(a.sd - 0.02 / sqrt(2.0)) < 1e-9);
    assert_true(b.sd > 0.15);
}

/* What must be true of the rules: scrap is the stricter limit, each has a source. */
static void rules_make_sense(void **state)
{
    (void)state;
    const lw_rule *r = lw_grading_default.rules;
    for (int i = 0; i < LW_RULE_COUNT; i++) {
        assert_non_null(r[i].name);
        assert_true(r[i].source && r[i].source[0]);
    }
    assert_true(r[LW_RULE_CONFIDENCE].value > 0.5 && r[LW_RULE_CONFIDENCE].value < 1.0);
    assert_true(r[LW_RULE_CAPACITY_SCRAP_SHARE].value < r[LW_RULE_CAPACITY_TIRED_SHARE].value);
    assert_true(r[LW_RULE_CAPACITY_SCRAP_AH].value < r[LW_RULE_CAPACITY_TIRED_AH].value);
    assert_true(r[LW_RULE_RESISTANCE_SCRAP_RATIO].value > r[LW_RULE_RESISTANCE_TIRED_RATIO].value);
    assert_true(r[LW_RULE_LEAK_SCRAP_MV_DAY].value > r[LW_RULE_LEAK_TIRED_MV_DAY].value);
}

/* No grading rule, however kind, passes a cell that the safety refusals reject. */
static void safety_is_not_graded(void **state)
{
    (void)state;
    lw_grading kind = lw_grading_default;
    for (int i = 0; i < LW_RULE_COUNT; i++)
        kind.rules[i].value = i == LW_RULE_CONFIDENCE ? 0.5 : i == LW_RULE_AGE_YEARS ? 1e9 : kind.rules[i].value;
    lw_cell_facts facts = {.class = lw_test_class_find("4v2"),
                           .found_v = {true, 1.4},
                           .capacity_ah = {2.4, 0.01, 2},
                           .resistance_ohm = {0.045, 0.002, 1},
                           .rest_24h_v = {true, 4.18}};
    lw_judgement j;
    lw_judge_cell(&facts, &kind, &j);
    assert_int_equal(j.verdict, LW_SCRAP);
    facts.found_v.value = 3.7;
    lw_judge_cell(&facts, &kind, &j);
    assert_int_equal(j.verdict, LW_SOUND);
    facts.swollen = true;
    lw_judge_cell(&facts, &kind, &j);
    assert_int_equal(j.verdict, LW_SCRAP);
}

/* Verdicts on synthetic cells with one noisy capacity test: of those passed, few are truly below the limit. */
static void passed_cells_are_good(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(4, 4, 2);
    int passed = 0, wrong = 0;
    for (int k = 0; k < 4000; k++) {
        const double truth = 0.8 + 1.4 * lw_rng_uniform(&rng), sd = 0.06;
        const lw_cell_facts facts = {.class = lw_test_class_find("4v2"),
                                     .found_v = {true, 3.6},
                                     .capacity_ah = {truth + sd * lw_rng_normal(&rng), sd, 1},
                                     .resistance_ohm = {0.06, 0.004, 1},
                                     .rest_24h_v = {true, 4.12}};
        lw_judgement j;
        lw_judge_cell(&facts, &lw_grading_default, &j);
        if (j.verdict == LW_SOUND || j.verdict == LW_TIRED) {
            passed++;
            wrong += truth < 1.2;
        }
    }
    assert_true(passed > 2000);
    assert_true(wrong < passed / 50);
}

static void bench_days(void **state)
{
    (void)state;
    enum { CELLS = 10 };
    double capacity[CELLS];
    int day[CELLS], charged[CELLS];
    for (int i = 0; i < CELLS; i++)
        capacity[i] = 1.5 + 0.1 * i;
    const lw_bench bench = {.resistors = 2, .load_ohm = 4.0, .slots = 2, .charge_a = 1.0, .hours_day = 8.0};
    lw_bench_days plan;
    lw_error err = {0};
    assert_true(lw_bench_plan(capacity, CELLS, &bench, lw_test_class_find("4v2"), charged, day, &plan, &err));
    int each[100] = {0};
    for (int i = 0; i < CELLS; i++) {
        assert_true(charged[i] >= 1 && day[i] > charged[i] && day[i] <= plan.days); /* never on the day of its charge */
        assert_true(i == 0 || day[i] >= day[i - 1]);
        each[day[i]]++;
    }
    for (int d = 0; d < 100; d++)
        assert_true(each[d] <= 6); /* 2 slots, at most three charges of 2.5 h in 8 h */
    const lw_judgement cells[4] = {{.verdict = LW_SCRAP},
                                   {.verdict = LW_UNSURE, .scrap_chance = 0.6},
                                   {.verdict = LW_UNSURE, .scrap_chance = 0.2},
                                   {.verdict = LW_SOUND}};
    size_t order[4];
    lw_bench_order(cells, 4, order);
    assert_int_equal(order[0], 2);
    assert_int_equal(order[1], 1);
}

/* Schmalstieg et al. (2014), computed from the equations: 25 degC, 3.7 V, half a cycle a day for 365 days leave
 * 0.899228 of the capacity. So a new cell reaches that after one year; and the band and the direction of each stress
 * are right. */
static void remaining_life(void **state)
{
    (void)state;
    lw_life_ask ask = {
        .model = LW_AGEING_NMC,
        .stress = {.cell_c = 25.0, .mean_v = 3.7, .cycle_mean_v = 3.7, .depth = 0.5, .cycles_per_day = 0.5},
        .capacity_ah = {2.05, 0.02, 1},
        .new_ah = 2.05,
        .needed_ah = 2.05 * 0.899228};
    lw_life life, other;
    lw_error err = {0};
    assert_true(lw_remaining_life(&ask, &life, &err));
    assert_true(fabs(life.years - 1.0) < 0.001);
    assert_true(life.low_years < 0.7 && life.high_years > 1.5);
    assert_false(life.past_knee);
    ask.stress.cell_c = 35.0;
    assert_true(lw_remaining_life(&ask, &other, &err));
    assert_true(other.years < life.years);
    ask.stress.cell_c = 25.0;
    ask.needed_ah = 1.2;
    assert_true(lw_remaining_life(&ask, &life, &err));
    ask.capacity_ah.value = 1.5;
    assert_true(lw_remaining_life(&ask, &other, &err));
    assert_true(other.past_knee && other.years < life.years);
    ask.needed_ah = 1.6;
    assert_false(lw_remaining_life(&ask, &other, &err));
    assert_int_equal(err.family, LW_NOT_COMPUTABLE);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(shrinking_pays),        cmocka_unit_test(contradiction_widens),
        cmocka_unit_test(rules_make_sense),      cmocka_unit_test(safety_is_not_graded),
        cmocka_unit_test(passed_cells_are_good), cmocka_unit_test(bench_days),
        cmocka_unit_test(remaining_life),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
