/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matching against published optima, greedy longest-first, the differencing method, and GLPK on small cases; the
 * count of packs against GLPK; and what the result of every run must fulfil. Seeds are fixed; a failing run prints its
 * own.
 */
#include "core/pack/partition.h"
#include "lanewick/cell_csv.h"
#include "lanewick/match.h"
#include "lanewick/rng.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { MOST = 1200, MEMORY = 64 << 20 };

typedef struct crate {
    lw_lot_cell cells[MOST];
    char ids[MOST][8];
    size_t n;
} crate;

static lw_arena arena(void)
{
    static unsigned char memory[MEMORY];
    return lw_arena_over(memory, sizeof memory);
}

static void add(crate *c, double ah, double mohm, double sd)
{
    (void)snprintf(c->ids[c->n], sizeof c->ids[c->n], "c%04zu", c->n % 10000);
    c->cells[c->n] = (lw_lot_cell){.id = c->ids[c->n],
                                   .capacity_ah = ah,
                                   .resistance_mohm = mohm,
                                   .capacity_sd_ah = sd,
                                   .voltage_class = "",
                                   .verdict = "",
                                   .marking = ""};
    c->n++;
}

/* A workshop's crate: 2.0 Ah, standard deviation 0.25, between 1.0 and 2.6; step_ah: resolution of the readings. */
static void fill(crate *c, size_t n, uint64_t seed, double step_ah, double sd)
{
    lw_rng rng = lw_rng_stream(seed, 7, 3);
    c->n = 0;
    while (c->n < n) {
        const double ah = round((2.0 + 0.25 * lw_rng_normal(&rng)) / step_ah) * step_ah;
        if (ah >= 1.0 && ah <= 2.6)
            add(c, ah, 40.0 + 40.0 * lw_rng_uniform(&rng), sd * (0.5 + lw_rng_uniform(&rng)));
    }
}

static lw_match_ask ask_of(const crate *c, int series, int parallel)
{
    return (lw_match_ask){
        .cells = c->cells, .n = c->n, .series = series, .packs = 1, .parallel = parallel, .confidence = 0.9, .seed = 1};
}

/* Counts, sums and bound as they must be. */
static void check_sound(const lw_match_ask *ask, const lw_match *m)
{
    double *sum = calloc((size_t)m->groups, sizeof *sum);
    int *count = calloc((size_t)m->groups, sizeof *count);
    assert_non_null(sum);
    assert_non_null(count);
    for (size_t i = 0; i < ask->n; i++)
        if (m->group[i] >= 0) {
            assert_true(m->group[i] < m->groups);
            sum[m->group[i]] += ask->cells[i].capacity_ah;
            count[m->group[i]]++;
        }
    double weakest = HUGE_VAL;
    for (int g = 0; g < m->groups; g++) {
        assert_true(count[g] > 0);
        if (ask->parallel > 0)
            assert_int_equal(count[g], ask->parallel);
        assert_true(fabs(sum[g] - m->capacity_ah[g]) < 1e-6 * ((double)count[g] + 1.0));
        weakest = fmin(weakest, m->capacity_ah[g]);
    }
    assert_true(weakest == m->weakest_ah);
    assert_true(m->weakest_ah <= m->bound_ah + 1e-9);
    free(sum);
    free(count);
}

static void read_values(const char *name, crate *c)
{
    char path[400], line[100];
    (void)snprintf(path, sizeof path, "%s/tests/data/cells/%s", LW_SOURCE_DIR, name);
    FILE *file = fopen(path, "r");
    assert_non_null(file);
    c->n = 0;
    while (fgets(line, sizeof line, file)) {
        const char *comma = strchr(line, ',');
        if (comma && comma[1] >= '0' && comma[1] <= '9')
            add(c, strtod(comma + 1, NULL) / 1000.0, 50.0, 0.0);
    }
    (void)fclose(file);
}

/* Optima published with the instances (tests/data/cells/README.md). */
static void published_instances(void **state)
{
    (void)state;
    static crate c;
    lw_error err = {0};
    lw_match m;
    lw_arena a = arena();
    read_values("partition_N100_K10.csv", &c);
    lw_match_ask ask = ask_of(&c, 10, 10);
    assert_true(lw_match_cells(&ask, &a, &m, &err));
    check_sound(&ask, &m);
    assert_true(fabs(m.weakest_ah - 534.667) < 1e-6);
    assert_true(m.proven);
    read_values("partition_N300_K20.csv", &c);
    ask = ask_of(&c, 20, 15);
    a = arena();
    assert_true(lw_match_cells(&ask, &a, &m, &err));
    check_sound(&ask, &m);
    assert_true(fabs(m.weakest_ah - 74137.375) < 1e-6);
    assert_true(m.spread_pct < 1e-12);
}

/* Twelve cells of which the best division into 3 groups of 4 was found by enumeration: 7960, 7965, 7965 mAh. */
static void enumerated_example(void **state)
{
    (void)state;
    static const double mah[] = {2210, 2180, 2150, 2105, 2060, 2010, 1985, 1940, 1890, 1850, 1790, 1720};
    static crate c;
    c.n = 0;
    for (size_t i = 0; i < 12; i++)
        add(&c, mah[i] / 1000.0, 60.0, 0.0);
    lw_error err = {0};
    lw_match m;
    lw_arena a = arena();
    const lw_match_ask ask = ask_of(&c, 3, 4);
    assert_true(lw_match_cells(&ask, &a, &m, &err));
    check_sound(&ask, &m);
    assert_true(fabs(m.weakest_ah - 7.960) < 1e-9);
    assert_true(fabs(m.bound_ah - 7.963) < 1e-9);
    assert_true(fabs(m.spread_pct - 100.0 * 0.005 / (23.89 / 3.0)) < 1e-6);
    assert_true(m.proven);
}

static int falling(const void *a, const void *b)
{
    const int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;
    return (y > x) - (y < x);
}

/* Never worse than greedy longest-first or the differencing method, and within 0.1 % of the bound when groups hold
 * many cells. */
static void against_heuristics(void **state)
{
    (void)state;
    static const int shapes[][3] = {{24, 4, 6}, {60, 20, 3}, {200, 50, 4}, {1000, 10, 100}, {1000, 100, 10},
                                    {24, 5, 0}, {60, 11, 0}, {200, 31, 0}, {1000, 37, 0},   {200, 3, 0}};
    static int64_t value[MOST];
    static crate c;
    for (size_t k = 0; k < sizeof shapes / sizeof shapes[0]; k++)
        for (uint64_t seed = 1; seed <= 2; seed++) {
            const int n = shapes[k][0], groups = shapes[k][1], each = shapes[k][2];
            fill(&c, (size_t)n, seed + 10 * k, 1e-6, 0.0);
            for (int i = 0; i < n; i++)
                value[i] = (int64_t)llround(c.cells[i].capacity_ah * 1e6);
            qsort(value, (size_t)n, sizeof *value, falling);
            lw_error err = {0};
            lw_arena a = arena();
            lw_partition p;
            assert_true(lw_partition_make(&p, value, n, groups, each, &a, &err));
            lw_partition_greedy(&p);
            int64_t best = p.sum[lw_partition_lowest(&p)];
            if (!each) {
                assert_true(lw_partition_differencing(&p, &a, &err));
                const int64_t other = p.sum[lw_partition_lowest(&p)];
                best = other > best ? other : best;
            }
            const lw_match_ask ask = ask_of(&c, groups, each);
            lw_match m;
            a = arena();
            assert_true(lw_match_cells(&ask, &a, &m, &err));
            check_sound(&ask, &m);
            assert_true(m.weakest_ah >= (double)best / 1e6 - 1e-9);
            if (n / groups >= 9)
                assert_true(m.weakest_ah >= 0.999 * m.bound_ah);
        }
}

/* Every division of a few numbers, tried one by one: the search finds the best and says so, and no bound lies below it.
 */
typedef struct every {
    int64_t value[9], sum[4], best;
    int n, groups, each, count[4];
} every;

static void try_all(every *e, int i)
{
    if (i == e->n) {
        int64_t weakest = INT64_MAX;
        for (int g = 0; g < e->groups; g++)
            weakest = e->each > 0 && e->count[g] != e->each ? -1 : e->sum[g] < weakest ? e->sum[g] : weakest;
        e->best = weakest > e->best ? weakest : e->best;
        return;
    }
    for (int g = 0; g < e->groups; g++) {
        e->sum[g] += e->value[i];
        e->count[g]++;
        try_all(e, i + 1);
        e->sum[g] -= e->value[i];
        e->count[g]--;
        if (e->count[g] == 0)
            return; /* empty groups are alike */
    }
}

static void against_every_division(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(5, 5, 5);
    for (int t = 0; t < 600; t++) {
        static const int64_t ranges[] = {20, 3000, 1000000};
        every e = {.groups = 2 + (int)lw_rng_below(&rng, 3)};
        e.each = t % 2 ? 0 : 8 / e.groups;
        e.n = e.each ? e.groups * e.each : e.groups + (int)lw_rng_below(&rng, (uint64_t)(9 - e.groups));
        for (int i = 0; i < e.n; i++)
            e.value[i] = 1 + (int64_t)lw_rng_below(&rng, (uint64_t)ranges[t % 3]);
        qsort(e.value, (size_t)e.n, sizeof e.value[0], falling);
        try_all(&e, 0);
        assert_true(lw_group_bound(e.value, e.n, e.groups, e.each) >= e.best);
        lw_error err = {0};
        lw_arena a = arena();
        lw_partition p;
        bool proven;
        assert_true(lw_partition_make(&p, e.value, e.n, e.groups, e.each, &a, &err));
        assert_true(lw_partition_solve(&p, 1, INT64_MAX, &a, &proven, &err));
        assert_true(proven);
        assert_int_equal(p.sum[lw_partition_lowest(&p)], e.best);
    }
}

/* The same crate gives the same groups, whatever the order of its lines. */
static void order_does_not_matter(void **state)
{
    (void)state;
    static crate c, turned;
    fill(&c, 50, 5, 0.001, 0.0);
    turned = c;
    for (size_t i = 0; i < c.n; i++)
        turned.cells[i] = c.cells[c.n - 1 - i];
    lw_error err = {0};
    lw_match m, w;
    lw_arena a = arena();
    lw_match_ask ask = ask_of(&c, 4, 9);
    assert_true(lw_match_cells(&ask, &a, &m, &err));
    ask.cells = turned.cells;
    assert_true(lw_match_cells(&ask, &a, &w, &err));
    for (size_t i = 0; i < c.n; i++)
        for (size_t j = 0; j < i; j++)
            assert_int_equal(m.group[i] == m.group[j], w.group[c.n - 1 - i] == w.group[c.n - 1 - j]);
}

/* With uncertain capacities the guaranteed value of the weakest group is optimised, and said as it is. */
static void guaranteed_capacity(void **state)
{
    (void)state;
    static crate c;
    fill(&c, 48, 11, 0.001, 0.05);
    lw_error err = {0};
    lw_match m;
    lw_arena a = arena();
    const lw_match_ask ask = ask_of(&c, 4, 10);
    assert_true(lw_match_cells(&ask, &a, &m, &err));
    check_sound(&ask, &m);
    assert_non_null(m.guaranteed_ah);
    double weakest = HUGE_VAL;
    for (int g = 0; g < m.groups; g++) {
        double variance = 0.0;
        for (size_t i = 0; i < c.n; i++)
            variance += m.group[i] == g ? c.cells[i].capacity_sd_ah * c.cells[i].capacity_sd_ah : 0.0;
        /* 1.2815515655 deviations: 90 % one-sided */
        assert_true(fabs(m.guaranteed_ah[g] - (m.capacity_ah[g] - 1.2815515655446 * sqrt(variance))) < 1e-9);
        weakest = fmin(weakest, m.guaranteed_ah[g]);
    }
    assert_true(weakest == m.guaranteed_weakest_ah);
    assert_true(weakest <= m.guaranteed_bound_ah && weakest > 0.995 * m.guaranteed_bound_ah);
}

/* Cells of equal capacity: resistances inside a group come together, the weakest group stays. */
static void likes_resistances(void **state)
{
    (void)state;
    static crate c;
    c.n = 0;
    for (int i = 0; i < 24; i++)
        add(&c, 2.0, i % 3 == 0 ? 50.0 : i % 3 == 1 ? 70.0 : 90.0, 0.0);
    lw_error err = {0};
    lw_match m;
    lw_arena a = arena();
    const lw_match_ask ask = ask_of(&c, 3, 8);
    assert_true(lw_match_cells(&ask, &a, &m, &err));
    check_sound(&ask, &m);
    assert_true(fabs(m.weakest_ah - 16.0) < 1e-9);
    assert_true(m.resistance_spread_pct < 1e-9);
}

/* Most packs: 8 cells of 1.9 and 4 of 2.3 Ah in groups of 4 Ah. Two cells reach 4 Ah only with a 2.3, so at most four
 * groups have two cells; the others need three: 2 * 4 + 3 = 11 of 12 cells make 5 groups, 6 are out of reach. */
static void counts_packs(void **state)
{
    (void)state;
    static crate c;
    c.n = 0;
    for (int i = 0; i < 12; i++)
        add(&c, i < 8 ? 1.9 : 2.3, 60.0, 0.0);
    lw_error err = {0};
    lw_count count;
    lw_arena a = arena();
    lw_match_ask ask = ask_of(&c, 1, 0);
    assert_true(lw_count_packs(&ask, 4.0, &a, &count, &err));
    assert_int_equal(count.packs, 5);
    assert_int_equal(count.upper_bound, 5);
    for (int g = 0; g < count.match.groups; g++)
        assert_true(count.match.capacity_ah[g] >= 4.0 - 1e-9);
    ask.series = 2;
    assert_true(lw_count_packs(&ask, 4.0, &a, &count, &err));
    assert_int_equal(count.packs, 2);
    assert_true(lw_count_packs(&ask, 40.0, &a, &count, &err));
    assert_int_equal(count.packs, 0);
    /* small groups of exactly five cells: no more of them than cells allow, however little is needed */
    ask = ask_of(&c, 1, 5);
    assert_true(lw_count_packs(&ask, 0.5, &a, &count, &err));
    assert_int_equal(count.packs, 2);
    assert_int_equal(count.upper_bound, 2);
    fill(&c, 96, 3, 0.001, 0.0);
    ask = ask_of(&c, 2, 0);
    assert_true(lw_count_packs(&ask, 10.0, &a, &count, &err));
    check_sound(&ask, &count.match);
    assert_true(count.packs <= count.upper_bound && count.packs >= count.upper_bound - 1);
}

static void refuses(void **state)
{
    (void)state;
    static crate c;
    lw_match m;
    lw_error err = {0};
    lw_arena a = arena();
    fill(&c, 12, 2, 0.001, 0.0);
    lw_match_ask ask = ask_of(&c, 3, 4);
    c.cells[5].verdict = "scrap";
    assert_false(lw_match_cells(&ask, &a, &m, &err));
    assert_int_equal(err.family, LW_REFUSED);
    assert_string_equal(err.field, "verdict");
    c.cells[5].verdict = "unsure";
    err = (lw_error){0};
    assert_false(lw_match_cells(&ask, &a, &m, &err));
    assert_int_equal(err.family, LW_REFUSED);
    c.cells[5].verdict = "sound";
    c.cells[5].voltage_class = "lfp";
    err = (lw_error){0};
    assert_false(lw_match_cells(&ask, &a, &m, &err));
    assert_int_equal(err.family, LW_REFUSED);
    assert_string_equal(err.field, "voltage_class");
    for (size_t i = 0; i < c.n; i++)
        c.cells[i].voltage_class = "unknown";
    err = (lw_error){0};
    assert_false(lw_match_cells(&ask, &a, &m, &err));
    assert_int_equal(err.family, LW_REFUSED);
    for (size_t i = 0; i < c.n; i++)
        c.cells[i].voltage_class = "4v2";
    ask.parallel = 5;
    err = (lw_error){0};
    assert_false(lw_match_cells(&ask, &a, &m, &err));
    assert_int_equal(err.family, LW_WRONG_INPUT);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(published_instances),    cmocka_unit_test(enumerated_example),

        cmocka_unit_test(against_heuristics),     cmocka_unit_test(order_does_not_matter),
        cmocka_unit_test(guaranteed_capacity),    cmocka_unit_test(likes_resistances),
        cmocka_unit_test(counts_packs),           cmocka_unit_test(refuses),
        cmocka_unit_test(against_every_division),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
