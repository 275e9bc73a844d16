/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matching and counting against exact integer programming (GLPK) on small crates.
 */
#include "lanewick/match.h"
#include "lanewick/rng.h"

#include <glpk.h>
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

enum { MOST = 24, MEMORY = 16 << 20 };

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

static void fill(crate *c, size_t n, uint64_t seed)
{
    lw_rng rng = lw_rng_stream(seed, 7, 3);
    for (c->n = 0; c->n < n;) {
        const double ah = round((2.0 + 0.25 * lw_rng_normal(&rng)) * 1000.0) / 1000.0;
        if (ah < 1.0 || ah > 2.6)
            continue;
        (void)snprintf(c->ids[c->n], sizeof c->ids[c->n], "c%02zu", c->n % 100);
        c->cells[c->n] =
            (lw_lot_cell){.id = c->ids[c->n], .capacity_ah = ah, .voltage_class = "", .verdict = "", .marking = ""};
        c->n++;
    }
}

/* Integer programme: x[i][g] 0/1, maximise the weakest. */
static double glpk_weakest(const crate *c, int groups, int each)
{
    const int n = (int)c->n;
    glp_term_out(GLP_OFF);
    glp_prob *lp = glp_create_prob();
    glp_set_obj_dir(lp, GLP_MAX);
    glp_add_cols(lp, n * groups + 1);
    glp_set_col_bnds(lp, n * groups + 1, GLP_LO, 0.0, 0.0);
    glp_set_obj_coef(lp, n * groups + 1, 1.0);
    for (int k = 1; k <= n * groups; k++)
        glp_set_col_kind(lp, k, GLP_BV);
    glp_add_rows(lp, n + groups * (each > 0 ? 2 : 1));
    int *index = calloc((size_t)(n * groups) + 2, sizeof *index);
    double *value = calloc((size_t)(n * groups) + 2, sizeof *value);
    assert_non_null(index);
    assert_non_null(value);
    for (int i = 0; i < n; i++) {
        glp_set_row_bnds(lp, i + 1, GLP_UP, 0.0, 1.0);
        for (int g = 0; g < groups; g++) {
            index[g + 1] = i * groups + g + 1;
            value[g + 1] = 1.0;
        }
        glp_set_mat_row(lp, i + 1, groups, index, value);
    }
    for (int g = 0; g < groups; g++) {
        for (int i = 0; i < n; i++) {
            index[i + 1] = i * groups + g + 1;
            value[i + 1] = c->cells[i].capacity_ah;
        }
        index[n + 1] = n * groups + 1;
        value[n + 1] = -1.0;
        glp_set_row_bnds(lp, n + g + 1, GLP_LO, 0.0, 0.0);
        glp_set_mat_row(lp, n + g + 1, n + 1, index, value);
        for (int i = 0; i < n; i++)
            value[i + 1] = 1.0;
        if (each > 0) {
            glp_set_row_bnds(lp, n + groups + g + 1, GLP_FX, each, each);
            glp_set_mat_row(lp, n + groups + g + 1, n, index, value);
        }
    }
    glp_iocp control;
    glp_init_iocp(&control);
    control.presolve = GLP_ON;
    control.tm_lim = 60000;
    const bool solved = glp_intopt(lp, &control) == 0 && glp_mip_status(lp) == GLP_OPT;
    const double answer = solved ? glp_mip_obj_val(lp) : -1.0;
    glp_delete_prob(lp);
    free(index);
    free(value);
    return answer;
}

/* On small crates the answer is the exact one. */
static void small_cases_against_glpk(void **state)
{
    (void)state;
    static const int shapes[][3] = {{8, 2, 4}, {8, 3, 2}, {8, 2, 0}, {7, 3, 0}, {10, 2, 4}, {8, 4, 2}, {6, 3, 2}};
    static crate c;
    for (size_t k = 0; k < sizeof shapes / sizeof shapes[0]; k++)
        for (uint64_t seed = 1; seed <= 2; seed++) {
            fill(&c, (size_t)shapes[k][0], seed);
            const lw_match_ask ask = {.cells = c.cells,
                                      .n = c.n,
                                      .series = shapes[k][1],
                                      .packs = 1,
                                      .parallel = shapes[k][2],
                                      .confidence = 0.9,
                                      .seed = 1};
            lw_error err = {0};
            lw_match m;
            lw_arena a = arena();
            assert_true(lw_match_cells(&ask, &a, &m, &err));
            const double exact = glpk_weakest(&c, shapes[k][1], shapes[k][2]);
            if (fabs(m.weakest_ah - exact) > 1e-6 || !m.proven)
                fail_msg("%d cells, %d groups, each %d, seed %d: %.6f, GLPK %.6f, proven %d", shapes[k][0],
                         shapes[k][1], shapes[k][2], (int)seed, m.weakest_ah, exact, m.proven);
        }
}

/* The most groups of need Ah: the largest number that GLPK can divide the cells into. */
static void counts_against_glpk(void **state)
{
    (void)state;
    static const double needs[] = {1.9, 3.7, 4.1};
    static crate c;
    for (size_t k = 0; k < sizeof needs / sizeof needs[0]; k++) {
        fill(&c, 7, 20 + k);
        const lw_match_ask ask = {.cells = c.cells, .n = c.n, .series = 1, .packs = 1, .confidence = 0.9, .seed = 1};
        lw_error err = {0};
        lw_count count;
        lw_arena a = arena();
        assert_true(lw_count_packs(&ask, needs[k], &a, &count, &err));
        assert_true(count.packs <= count.upper_bound);
        if (count.packs > 0)
            assert_true(glpk_weakest(&c, count.packs, 0) >= needs[k] - 1e-6);
        if (count.packs < count.upper_bound)
            assert_true(glpk_weakest(&c, count.packs + 1, 0) < needs[k] - 1e-9);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(small_cases_against_glpk),
                                       cmocka_unit_test(counts_against_glpk)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
