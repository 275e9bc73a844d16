/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matching on families of instances from the literature on dividing numbers, rebuilt with xorshift64* (Marsaglia 2003,
 * J. Statistical Software 8(14); Vigna 2016, ACM TOMS 42(4)): never below greedy longest-first (Graham 1969), never
 * below differencing (Karmarkar and Karp 1982), never above the bound. The families are from memory: Franca et al.
 * 1994; Frangioni et al. 2004; Dell'Amico and Martello 1995; Mertens 1998.
 */
#include "lanewick/match.h"

#include "core/pack/partition.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

enum { ARENA = 96 << 20, MOST = 200, EACH_FAMILY = 1 };

static lw_arena arena;
static lw_lot_cell cell[MOST];
static char name[MOST][8];
static int64_t value[MOST]; /* microampere-hours */

static int setup(void **state)
{
    (void)state;
    arena = lw_arena_over(malloc(ARENA), ARENA);
    for (int i = 0; i < MOST; i++)
        (void)snprintf(name[i], sizeof name[i], "%d", i);
    return arena.base ? 0 : -1;
}

static int teardown(void **state)
{
    (void)state;
    free(arena.base);
    return 0;
}

static uint64_t next(uint64_t *s)
{
    *s ^= *s >> 12;
    *s ^= *s << 25;
    *s ^= *s >> 27;
    return *s * 2685821657736338717ULL;
}

static int64_t whole(uint64_t *s, int64_t low, int64_t high)
{
    return low + (int64_t)((next(s) >> 11) % (uint64_t)(high - low + 1));
}

static double real(uint64_t *s)
{
    return (double)(next(s) >> 11) / 9007199254740992.0;
}

static double normal(uint64_t *s)
{
    const double u = 1.0 - real(s);
    return sqrt(-2.0 * log(u)) * cos(2.0 * acos(-1.0) * real(s));
}

/* Computed once from the definition of the generator by other code. */
static void generator(void **state)
{
    (void)state;
    static const int64_t first[] = {303, 856, 243, 79, 262, 437, 436, 963, 247, 615};
    uint64_t s = 1;
    assert_true(next(&s) == 5180492295206395165ULL);
    assert_true(next(&s) == 12380297144915551517ULL);
    assert_true(next(&s) == 13389498078930870103ULL);
    s = 12345;
    for (size_t i = 0; i < sizeof first / sizeof first[0]; i++)
        assert_int_equal(whole(&s, 1, 1000), first[i]);
}

static int falling(const void *a, const void *b)
{
    const int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;
    return (x < y) - (x > y);
}

static int64_t seed_answer(int n, int groups, int each, bool differencing)
{
    lw_partition p;
    lw_error err = {0};
    arena.used = 0;
    assert_true(lw_partition_make(&p, value, n, groups, each, &arena, &err));
    if (differencing)
        assert_true(lw_partition_differencing(&p, &arena, &err));
    else
        lw_partition_greedy(&p);
    lw_partition_settle(&p);
    return p.sum[lw_partition_lowest(&p)];
}

/* The values of n cells in `unit` microampere-hours; each: 0 free counts. */
static void compare(int n, int groups, int each, int64_t unit)
{
    lw_error err = {0};
    lw_match match;
    int64_t total = 0;
    for (int i = 0; i < n; i++) {
        value[i] *= unit;
        total += value[i];
        cell[i] = (lw_lot_cell){
            .id = name[i], .capacity_ah = (double)value[i] / 1e6, .voltage_class = "", .verdict = "", .marking = ""};
    }
    qsort(value, (size_t)n, sizeof value[0], falling);
    const int64_t greedy = seed_answer(n, groups, each, false);
    const int64_t differencing = each ? greedy : seed_answer(n, groups, each, true);
    const lw_match_ask ask = {
        .cells = cell, .n = (size_t)n, .series = groups, .packs = 1, .parallel = each, .confidence = 0.9, .seed = 1};
    arena.used = 0;
    if (!lw_match_cells(&ask, &arena, &match, &err))
        fail_msg("%s", err.message);
    const int64_t weakest = llround(match.weakest_ah * 1e6);
    if (weakest < greedy || weakest < differencing)
        fail_msg("%d into %d: %lld, greedy %lld, differencing %lld", n, groups, (long long)weakest, (long long)greedy,
                 (long long)differencing);
    assert_true(weakest <= llround(match.bound_ah * 1e6) && weakest <= total / groups);
}

/* Franca, Gendreau, Laporte and Mueller 1994: uniform whole numbers, 50 and 100 of them, 5, 10 and 25 groups. */
static void uniform(void **state)
{
    (void)state;
    static const int counts[] = {50, 100}, groups[] = {5, 10, 25}, most[] = {100, 1000, 10000};
    for (int k = 0; k < 2 * 3 * 3; k++)
        for (uint64_t i = 1; i <= EACH_FAMILY; i++) {
            uint64_t s = 1000 + 100 * (uint64_t)k + i;
            const int n = counts[k % 2];
            for (int c = 0; c < n; c++)
                value[c] = whole(&s, 1, most[k / 6]);
            compare(n, groups[k / 2 % 3], 0, 1000);
        }
}

/* Frangioni, Necciari and Scutella 2004: nearly all large, a few small. Small instances: with more the search runs to
 * its limit, as the small ones cannot fill the place of a large one and no bound knows it. */
static void uneven(void **state)
{
    (void)state;
    static const int counts[] = {24, 24}, groups[] = {4, 5}, most[] = {1000, 10000};
    for (int k = 0; k < 2; k++) {
        uint64_t s = 2001 + 100 * (uint64_t)k;
        const int64_t wide = most[k] - 1;
        for (int c = 0; c < counts[k]; c++)
            value[c] = c < counts[k] * 49 / 50 ? whole(&s, wide * 9 / 10, most[k]) : whole(&s, 1, 1 + wide / 5);
        compare(counts[k], groups[k], 0, 1000);
    }
}

/* Dell'Amico and Martello 1995: uniform on three ranges, normal of mean 100 and two spreads. */
static void five_shapes(void **state)
{
    (void)state;
    static const int low[] = {1, 20, 50};
    for (int k = 0; k < 5; k++)
        for (uint64_t i = 1; i <= EACH_FAMILY; i++) {
            uint64_t s = 3000 + 100 * (uint64_t)k + i;
            for (int c = 0; c < 50; c++)
                value[c] =
                    k < 3 ? whole(&s, low[k], 100) : llround(fmax(1.0, 100.0 + (k == 3 ? 50.0 : 20.0) * normal(&s)));
            compare(50, 5 + (int)i, 0, 1000);
            for (int c = 0; c < 50; c++)
                value[c] /= 1000;
            compare(50, 10, 5, 1000);
        }
}

/* Mertens 1998: numbers of b bits in two groups; hard about b / n = 1, easy below. */
static void hard_and_easy(void **state)
{
    (void)state;
    static const int bits[] = {10, 20, 30};
    for (int k = 0; k < 3; k++)
        for (uint64_t i = 1; i <= EACH_FAMILY; i++) {
            uint64_t s = 4000 + 100 * (uint64_t)k + i;
            for (int c = 0; c < 24; c++)
                value[c] = whole(&s, 1, (int64_t)1 << bits[k]);
            compare(24, 2, 0, 1);
        }
}

/* A workshop's cells: 2000 + 250 z mAh kept within 1000 and 2600, 24, 60 and 200 of them, 1 to 4 groups. */
static void workshop(void **state)
{
    (void)state;
    static const int counts[] = {24, 60, 200};
    for (int k = 0; k < 3; k++)
        for (int groups = 1; groups <= 4; groups++)
            for (int free_counts = 0; free_counts < 2; free_counts++) {
                uint64_t s = 5000 + 100 * (uint64_t)k + (uint64_t)groups;
                for (int c = 0; c < counts[k]; c++)
                    value[c] = llround(fmin(2600.0, fmax(1000.0, 2000.0 + 250.0 * normal(&s))));
                compare(counts[k], groups, free_counts ? 0 : counts[k] / groups, 1000);
            }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(generator),     cmocka_unit_test(uniform),
                                       cmocka_unit_test(uneven),        cmocka_unit_test(five_shapes),
                                       cmocka_unit_test(hard_and_easy), cmocka_unit_test(workshop)};
    return cmocka_run_group_tests(tests, setup, teardown);
}
