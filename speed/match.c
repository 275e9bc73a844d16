/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Speed of matching cells: whole search against greedy longest-first alone, on crates of a workshop's spread.
 */
#include "lanewick/match.h"
#include "core/pack/partition.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { MOST = 10000, REPEATS = 3, ARENA = 96 << 20 };

static double now_s(void)
{
    struct timespec t;
    (void)clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static lw_lot_cell cells[MOST];
static char ids[MOST][8];
static int64_t value[MOST];

static void fill(size_t n)
{
    lw_rng rng = lw_rng_stream(12, n, 0);
    for (size_t i = 0; i < n;) {
        const double ah = 2.0 + 0.25 * lw_rng_normal(&rng);
        if (ah < 1.0 || ah > 2.6)
            continue;
        (void)snprintf(ids[i], sizeof ids[i], "c%05zu", i % 100000);
        cells[i] = (lw_lot_cell){.id = ids[i],
                                 .capacity_ah = round(ah * 1e6) / 1e6,
                                 .resistance_mohm = 40.0 + 40.0 * lw_rng_uniform(&rng),
                                 .voltage_class = "",
                                 .verdict = "",
                                 .marking = ""};
        value[i] = (int64_t)llround(ah * 1e6);
        i++;
    }
}

static int falling(const void *a, const void *b)
{
    const int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;
    return (y > x) - (y < x);
}

static void measure(size_t n, int groups, int each, void *memory)
{
    double greedy = 1e9, whole = 1e9;
    for (int repeat = 0; repeat < REPEATS; repeat++) {
        lw_error err = {0};
        fill(n);
        lw_arena arena = lw_arena_over(memory, ARENA);
        double start = now_s();
        lw_partition p;
        qsort(value, n, sizeof *value, falling);
        if (!lw_partition_make(&p, value, each > 0 ? groups * each : (int)n, groups, each, &arena, &err))
            exit(1);
        lw_partition_greedy(&p);
        greedy = fmin(greedy, now_s() - start);
        const double greedy_ah = (double)p.sum[lw_partition_lowest(&p)] / 1e6;
        arena = lw_arena_over(memory, ARENA);
        const lw_match_ask ask = {
            .cells = cells, .n = n, .series = groups, .packs = 1, .parallel = each, .confidence = 0.9, .seed = 1};
        lw_match match;
        start = now_s();
        if (!lw_match_cells(&ask, &arena, &match, &err))
            exit(1);
        whole = fmin(whole, now_s() - start);
        if (repeat == 0)
            (void)fprintf(stderr, "%zu cells, %d groups: weakest %.6f Ah, bound %.6f Ah, greedy %.6f Ah\n", n, groups,
                          match.weakest_ah, match.bound_ah, greedy_ah);
    }
    (void)printf("result match_%zu_into_%d greedy_alone %.6f\n", n, groups, greedy);
    (void)printf("result match_%zu_into_%d whole_search %.6f\n", n, groups, whole);
}

int main(void)
{
    void *memory = malloc(ARENA);
    if (!memory)
        return 1;
    measure(1000, 10, 100, memory);
    measure(1000, 100, 10, memory);
    measure(1000, 37, 0, memory);
    measure(10000, 100, 100, memory);
    measure(10000, 1000, 10, memory);
    free(memory);
    return 0;
}
