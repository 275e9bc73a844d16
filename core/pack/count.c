/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The most packs from a crate: the most groups that each hold need_ah (bin covering). A number of groups is possible
 * when dividing all cells into them leaves the weakest at need_ah or more; the number is found by halving the
 * interval between a greedy answer and the bound.
 *
 * Bounds, with y = x / need: groups <= sum of min(1, y); for every whole k
 * groups <= sum of min(1, (floor(k y) + 1) / (k + 1)), because floor(k y) + 1 is more than k y and whole; and groups of
 * at most k cells can be only so many, so the others need more than k cells each, and there are only n cells.
 */
#include "lot.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* The most groups that counting allows, up to best (group_bound.c). */
static int64_t bound_by_counts(const int64_t *x, int n, int64_t need, int64_t best)
{
    int64_t low = 0;
    while (low < best) {
        const int64_t middle = low + (best - low + 1) / 2;
        if (lw_groups_possible(x, n, need, middle))
            low = middle;
        else
            best = middle - 1;
    }
    return low;
}

/* Bound on groups of at least need from cells x (falling) [uAh]; each > 0: of exactly that many cells. */
static int64_t bound_groups(const int64_t *x, int n, int64_t need, int each)
{
    int64_t sum = 0;
    for (int i = 0; i < n; i++)
        sum += x[i] < need ? x[i] : need;
    int64_t best = sum / need;
    for (int k = 1; k <= 60; k++) {
        int64_t parts = 0;
        for (int i = 0; i < n; i++)
            parts += x[i] >= need ? k + 1 : k * x[i] / need + 1;
        best = parts / (k + 1) < best ? parts / (k + 1) : best;
    }
    if (each > 0)
        best = n / each < best ? n / each : best;
    return bound_by_counts(x, n, need, best);
}

/* Margin that every group must carry above need: z times the least root of variance a group can have. */
static double least_margin(const lw_lot *lot, double need)
{
    const lw_match_ask *ask = lot->ask;
    double least = HUGE_VAL, most = 0.0;
    for (size_t i = 0; i < ask->n; i++) {
        least = fmin(least, ask->cells[i].capacity_sd_ah);
        most = fmax(most, ask->cells[i].capacity_ah);
    }
    const double cells = ask->parallel > 0 ? ask->parallel : fmax(1.0, ceil(need / most));
    return lot->z * least * sqrt(cells);
}

static int falling_number(const void *a, const void *b)
{
    const int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;
    return (x < y) - (x > y);
}

typedef struct trial {
    const lw_lot *lot;
    double need_ah;
    int *group; /* of the lot's order, of the last trial that held */
    bool held;
    bool balanced; /* go on to the best instead of stopping at enough */
} trial;

/* Whether every group reaches the need, by the true formula. */
static bool groups_hold(const lw_lot *lot, const int *group, int groups, double need_ah, lw_arena *arena, bool *hold,
                        lw_error *err)
{
    const size_t used = arena->used;
    double *sum = lw_arena_take(arena, (size_t)groups, sizeof *sum, err);
    double *variance = lw_arena_take(arena, (size_t)groups, sizeof *variance, err);
    if (!sum || !variance)
        return false;
    for (int i = 0; i < lot->n; i++) {
        if (group[i] < 0)
            continue;
        const lw_lot_cell *cell = &lot->ask->cells[lot->cell[i]];
        sum[group[i]] += (double)lw_uah(cell->capacity_ah) / 1e6;
        variance[group[i]] += cell->capacity_sd_ah * cell->capacity_sd_ah;
    }
    *hold = true;
    for (int g = 0; g < groups; g++)
        *hold = *hold && lw_lot_guaranteed(lot, sum[g], variance[g]) >= need_ah - 1e-9;
    arena->used = used;
    return true;
}

/* Tries a number of groups; keeps the answer when it holds. */
static bool try_groups(trial *t, int groups, lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used;
    const lw_match_ask *ask = t->lot->ask;
    const int m = ask->parallel > 0 ? groups * ask->parallel : t->lot->n;
    lw_partition p;
    bool proven;
    /* worth enough for certain, by the bound of lot.c */
    const double enough = ceil((t->need_ah + t->lot->fixed_ah) * 1e6 / (double)t->lot->unit - 1e-6);
    int *group = lw_arena_take(arena, ask->n, sizeof *group, err);
    if (!group || !lw_partition_make(&p, t->lot->worth, m, groups, ask->parallel, arena, err) ||
        !lw_partition_solve(&p, ask->seed, t->balanced ? INT64_MAX : (int64_t)enough, arena, &proven, err))
        return false;
    for (int i = 0; i < t->lot->n; i++)
        group[i] = i < m ? p.group[i] : -1;
    if (!groups_hold(t->lot, group, groups, t->need_ah, arena, &t->held, err))
        return false;
    if (t->held)
        memcpy(t->group, group, ask->n * sizeof *group);
    arena->used = used;
    return true;
}

/* Leaves out what the groups can spare, one cell at a time, as long as every group still holds. */
static bool spare(const lw_lot *lot, int *group, int groups, double need_ah, lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used;
    double *sum = lw_arena_take(arena, (size_t)groups, sizeof *sum, err);
    double *variance = lw_arena_take(arena, (size_t)groups, sizeof *variance, err);
    if (!sum || !variance)
        return false;
    for (int pass = 0; pass < 2; pass++)
        for (int i = 0; i < lot->n; i++) {
            const int g = group[i];
            const lw_lot_cell *cell = &lot->ask->cells[lot->cell[i]];
            if (g < 0)
                continue;
            const double ah = (double)lw_uah(cell->capacity_ah) / 1e6;
            const double square = cell->capacity_sd_ah * cell->capacity_sd_ah;
            if (pass == 0) {
                sum[g] += ah;
                variance[g] += square;
            } else if (lw_lot_guaranteed(lot, sum[g] - ah, variance[g] - square) >= need_ah) {
                group[i] = -1;
                sum[g] -= ah;
                variance[g] -= square;
            }
        }
    arena->used = used;
    return true;
}

static bool bound_packs(const lw_lot *lot, double need_ah, lw_arena *arena, int64_t *packs, lw_error *err)
{
    const size_t used = arena->used, n = lot->ask->n;
    int64_t *x = lw_arena_take(arena, n, sizeof *x, err);
    if (!x)
        return false;
    for (size_t i = 0; i < n; i++)
        x[i] = lw_uah(lot->ask->cells[i].capacity_ah);
    qsort(x, n, sizeof *x, falling_number);
    const int64_t need = lw_uah(need_ah + least_margin(lot, need_ah)) - (lot->uncertain ? 1 : 0);
    *packs = bound_groups(x, (int)n, need < 1 ? 1 : need, lot->ask->parallel) / lot->ask->series;
    arena->used = used;
    return true;
}

static bool finish(const trial *t, lw_arena *arena, lw_count *out, lw_error *err)
{
    const lw_match_ask *ask = t->lot->ask;
    const int groups = out->packs * ask->series;
    if (groups == 0)
        return true;
    if (ask->parallel == 0 && !spare(t->lot, t->group, groups, t->need_ah, arena, err))
        return false;
    return lw_match_fill(t->lot, t->group, groups, arena, &out->match, err) &&
           lw_match_bounds(ask, t->lot, groups, arena, &out->match, err);
}

bool lw_count_packs(const lw_match_ask *ask, double need_ah, lw_arena *arena, lw_count *out, lw_error *err)
{
    *out = (lw_count){0};
    if (!lw_lot_check(ask, err) || !lw_in_range(err, "need_ah", need_ah, 1e-6, 1e9, "Ah"))
        return false;
    double mean = 0.0;
    for (size_t i = 0; i < ask->n; i++)
        mean += ask->cells[i].capacity_ah / (double)ask->n;
    lw_lot lot;
    if (!lw_lot_make(ask, fmax(1.0, need_ah / mean), arena, &lot, err))
        return false;
    trial t = {.lot = &lot, .need_ah = need_ah};
    t.group = lw_arena_take(arena, ask->n, sizeof *t.group, err);
    int64_t bound;
    if (!t.group || !bound_packs(&lot, need_ah, arena, &bound, err))
        return false;
    out->upper_bound = (int)bound;
    int low = 0, high = (int)bound + 1; /* low packs are possible, high are not known to be */
    int ask_packs = (int)bound;         /* the bound itself first: often it can be reached */
    while (high - low > 1) {
        if (!try_groups(&t, ask_packs * ask->series, arena, err))
            return false;
        low = t.held ? ask_packs : low;
        high = t.held ? high : ask_packs;
        ask_packs = low + (high - low) / 2;
    }
    out->packs = low;
    t.balanced = true; /* once more, to the best: the groups that hold are made alike */
    return (low == 0 || try_groups(&t, low * ask->series, arena, err)) && finish(&t, arena, out, err);
}
