/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matching on families of cells - uniform, normal, Zipf - of 100, 1,000 and 10,000, and on published instances of
 * dividing numbers, against greedy longest-first (Graham 1969), the largest differencing method (Karmarkar and Karp
 * 1982) and, on small crates, GLPK's integer programme with a minute for each. Says for each the distance to the bound,
 * and at the end how often any of them was better: that number must be 0.
 */
#include "core/pack/partition.h"
#include "lanewick/match.h"

#include <glpk.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { MOST = 10000, ARENA = 160 << 20, GLPK_MS = 60000 };

static lw_lot_cell cells[MOST];
static char ids[MOST][8];
static int64_t value[MOST];
static void *memory;
static int tried, worse;

static double now_s(void)
{
    struct timespec t;
    (void)clock_gettime(CLOCK_THREAD_CPUTIME_ID, &t);
    return (double)t.tv_sec + 1e-9 * (double)t.tv_nsec;
}

static int falling(const void *a, const void *b)
{
    const int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;
    return (y > x) - (y < x);
}

static void must(bool done, const lw_error *err)
{
    if (done)
        return;
    (void)printf("failed: %s\n", err->message);
    exit(1);
}

/* Lowest group of a rule of thumb, in microampere-hours; *took in seconds. */
static int64_t rule(size_t n, int groups, bool differencing, double *took)
{
    lw_partition p;
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, ARENA);
    const double began = now_s();
    must(lw_partition_make(&p, value, (int)n, groups, 0, &arena, &err), &err);
    if (differencing)
        must(lw_partition_differencing(&p, &arena, &err), &err);
    else
        lw_partition_greedy(&p);
    lw_partition_settle(&p);
    *took = now_s() - began;
    return p.sum[lw_partition_lowest(&p)];
}

/* x[i][g] 0/1, the weakest group as strong as can be; -1: not finished in the time. */
static int64_t glpk_weakest(int n, int groups, double *took)
{
    const double began = now_s();
    glp_term_out(GLP_OFF);
    glp_prob *lp = glp_create_prob();
    const int weakest = n * groups + 1;
    static int index[MOST + 2];
    static double factor[MOST + 2];
    glp_set_obj_dir(lp, GLP_MAX);
    (void)glp_add_cols(lp, weakest);
    glp_set_col_bnds(lp, weakest, GLP_LO, 0.0, 0.0);
    glp_set_obj_coef(lp, weakest, 1.0);
    for (int k = 1; k < weakest; k++)
        glp_set_col_kind(lp, k, GLP_BV);
    (void)glp_add_rows(lp, n + groups);
    for (int i = 0; i < n; i++) {
        glp_set_row_bnds(lp, i + 1, GLP_UP, 0.0, 1.0);
        for (int g = 0; g < groups; g++) {
            index[g + 1] = i * groups + g + 1;
            factor[g + 1] = 1.0;
        }
        glp_set_mat_row(lp, i + 1, groups, index, factor);
    }
    for (int g = 0; g < groups; g++) {
        for (int i = 0; i < n; i++) {
            index[i + 1] = i * groups + g + 1;
            factor[i + 1] = (double)value[i];
        }
        index[n + 1] = weakest;
        factor[n + 1] = -1.0;
        glp_set_row_bnds(lp, n + g + 1, GLP_LO, 0.0, 0.0);
        glp_set_mat_row(lp, n + g + 1, n + 1, index, factor);
    }
    glp_iocp control;
    glp_init_iocp(&control);
    control.presolve = GLP_ON;
    control.tm_lim = GLPK_MS;
    const bool done = glp_intopt(lp, &control) == 0 && glp_mip_status(lp) == GLP_OPT;
    const int64_t best = done ? llround(glp_mip_obj_val(lp)) : -1;
    glp_delete_prob(lp);
    *took = now_s() - began;
    return best;
}

static void compare(const char *name, size_t n, int groups, bool exact)
{
    lw_error err = {0};
    lw_match match;
    double took[4];
    for (size_t i = 0; i < n; i++) {
        (void)snprintf(ids[i], sizeof ids[i], "c%05zu", i % 100000);
        cells[i] = (lw_lot_cell){
            .id = ids[i], .capacity_ah = (double)value[i] / 1e6, .voltage_class = "", .verdict = "", .marking = ""};
    }
    qsort(value, n, sizeof *value, falling);
    const int64_t greedy = rule(n, groups, false, &took[0]);
    const bool both = n * (size_t)groups <= 10000000;
    const int64_t differencing = both ? rule(n, groups, true, &took[1]) : -1;
    const lw_match_ask ask = {.cells = cells, .n = n, .series = groups, .packs = 1, .confidence = 0.9, .seed = 1};
    lw_arena arena = lw_arena_over(memory, ARENA);
    const double began = now_s();
    must(lw_match_cells(&ask, &arena, &match, &err), &err);
    took[2] = now_s() - began;
    const int64_t found = llround(match.weakest_ah * 1e6);
    const int64_t best = exact ? glpk_weakest((int)n, groups, &took[3]) : -1;
    const double bound = match.bound_ah * 1e6;
    tried++;
    worse += found < greedy || found < differencing || found < best;
    (void)printf("result match_%s_%zu_into_%d greedy %.6f\n", name, n, groups, took[0]);
    if (both)
        (void)printf("result match_%s_%zu_into_%d differencing %.6f\n", name, n, groups, took[1]);
    (void)printf("result match_%s_%zu_into_%d whole_search %.6f\n", name, n, groups, took[2]);
    if (exact)
        (void)printf("result match_%s_%zu_into_%d glpk %.6f\n", name, n, groups, took[3]);
    (void)fprintf(stderr, "%-9s %5zu into %4d  below the bound: found %.5f %%, greedy %.5f %%", name, n, groups,
                  100.0 * (1.0 - (double)found / bound), 100.0 * (1.0 - (double)greedy / bound));
    if (both)
        (void)fprintf(stderr, ", differencing %.5f %%", 100.0 * (1.0 - (double)differencing / bound));
    if (exact)
        (void)fprintf(stderr, best < 0 ? ", GLPK not done in %d s" : ", GLPK", GLPK_MS / 1000);
    if (best >= 0)
        (void)fprintf(stderr, " %.5f %%", 100.0 * (1.0 - (double)best / bound));
    (void)fprintf(stderr, "%s\n", match.proven ? " (proven)" : "");
}

/* uniform 1.0 to 2.6 Ah; normal 2.0 +- 0.25 Ah cut at 1.0 and 2.6; Zipf: 2.6 Ah over a rank drawn with chance 1 / rank.
 */
static void fill(const char *family, size_t n)
{
    lw_rng rng = lw_rng_stream(21, n, (uint64_t)family[0]);
    double all = 0.0;
    for (int r = 1; r <= 20; r++)
        all += 1.0 / r;
    for (size_t i = 0; i < n;) {
        double ah = 1.0 + 1.6 * lw_rng_uniform(&rng);
        if (family[0] == 'n')
            ah = 2.0 + 0.25 * lw_rng_normal(&rng);
        if (family[0] == 'z') {
            double at = all * lw_rng_uniform(&rng);
            int rank = 0;
            while (rank < 20 && at > 0.0)
                at -= 1.0 / ++rank;
            ah = 2.6 / rank * (0.98 + 0.04 * lw_rng_uniform(&rng));
        } else if (ah < 1.0 || ah > 2.6) {
            continue;
        }
        value[i++] = (int64_t)llround(ah * 1e6);
    }
}

/* Published shapes of partition instances (from memory: Franca et al. 1994 uniform 1..100, 1..1000 and 1..10000;
 * Dell'Amico and Martello 1995; Mertens 1998, 30 bits in two), in milliampere-hours or smaller. */
static void published(void)
{
    static const int64_t most[] = {100, 1000, 10000};
    for (int k = 0; k < 3; k++) {
        lw_rng rng = lw_rng_stream(31, (uint64_t)k, 0);
        for (int i = 0; i < 100; i++)
            value[i] = 1000 * (1 + (int64_t)lw_rng_below(&rng, (uint64_t)most[k]));
        compare(k == 0 ? "franca100" : k == 1 ? "franca1000" : "franca10000", 100, 10, false);
    }
    lw_rng rng = lw_rng_stream(32, 0, 0);
    for (int i = 0; i < 50; i++)
        value[i] = 1000 * (20 + (int64_t)lw_rng_below(&rng, 81));
    compare("dellamico", 50, 8, false);
    for (int i = 0; i < 24; i++)
        value[i] = 1 + (int64_t)lw_rng_below(&rng, 1U << 30);
    compare("mertens", 24, 2, false);
}

int main(void)
{
    static const char *const families[] = {"uniform", "normal", "zipf"};
    memory = malloc(ARENA);
    if (!memory)
        return 1;
    for (int f = 0; f < 3; f++) {
        for (int i = 0; i < 3; i++) {
            fill(families[f], 8 + 2 * (size_t)i);
            compare(families[f], 8 + 2 * (size_t)i, 3, true);
        }
        fill(families[f], 100);
        compare(families[f], 100, 10, false);
        static const int of_thousand[] = {10, 30, 100}, of_ten_thousand[] = {10, 100, 1000};
        for (int i = 0; i < 3; i++) {
            fill(families[f], 1000);
            compare(families[f], 1000, of_thousand[i], false);
        }
        for (int i = 0; i < 3; i++) {
            fill(families[f], 10000);
            compare(families[f], 10000, of_ten_thousand[i], false);
        }
    }
    published();
    (void)fprintf(stderr, "%d instances; another way was better on %d\n", tried, worse);
    free(memory);
    return worse > 0;
}
