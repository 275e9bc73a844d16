/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matching: refusals, the cells that take part, dividing them, likeness inside the groups, the result.
 */
#include "lot.h"

#include <math.h>
#include <string.h>

/* Group numbers in the order in which the groups first appear among the cells as given. */
static bool number_groups(const lw_match_ask *ask, lw_match *out, lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used;
    int *name = lw_arena_take(arena, (size_t)out->groups, sizeof *name, err);
    if (!name)
        return false;
    for (int g = 0; g < out->groups; g++)
        name[g] = -1;
    int next = 0;
    for (size_t i = 0; i < ask->n; i++)
        if (out->group[i] >= 0 && name[out->group[i]] < 0)
            name[out->group[i]] = next++;
    for (size_t i = 0; i < ask->n; i++)
        if (out->group[i] >= 0)
            out->group[i] = name[out->group[i]];
    arena->used = used;
    return true;
}

/* Conductances and the spread of resistance inside each group. */
static bool fill_resistance(const lw_match_ask *ask, lw_match *out, lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used, groups = (size_t)out->groups;
    double *low = lw_arena_take(arena, groups, sizeof *low, err),
           *high = lw_arena_take(arena, groups, sizeof *high, err);
    double *sum = lw_arena_take(arena, groups, sizeof *sum, err),
           *count = lw_arena_take(arena, groups, sizeof *count, err);
    if (!low || !high || !sum || !count)
        return false;
    bool known = true;
    for (size_t i = 0; i < ask->n; i++) {
        const int g = out->group[i];
        const double r = ask->cells[i].resistance_mohm;
        if (g < 0)
            continue;
        known = known && r > 0.0;
        low[g] = count[g] > 0.0 ? fmin(low[g], r) : r;
        high[g] = fmax(high[g], r);
        sum[g] += r;
        count[g] += 1.0;
        out->group_mohm[g] += r > 0.0 ? 1.0 / r : 0.0;
    }
    for (size_t g = 0; g < groups; g++) {
        out->group_mohm[g] = known && out->group_mohm[g] > 0.0 ? 1.0 / out->group_mohm[g] : 0.0;
        if (known && sum[g] > 0.0)
            out->resistance_spread_pct =
                fmax(out->resistance_spread_pct, 100.0 * (high[g] - low[g]) * count[g] / sum[g]);
    }
    arena->used = used;
    return true;
}

static bool fill_capacity(const lw_lot *lot, lw_match *out, lw_arena *arena, lw_error *err)
{
    const lw_match_ask *ask = lot->ask;
    double *variance = lw_arena_take(arena, (size_t)out->groups, sizeof *variance, err);
    int64_t *uah = lw_arena_take(arena, (size_t)out->groups, sizeof *uah, err);
    if (!variance || !uah)
        return false;
    for (size_t i = 0; i < ask->n; i++) {
        const int g = out->group[i];
        if (g < 0)
            continue;
        uah[g] += lw_uah(ask->cells[i].capacity_ah);
        variance[g] += ask->cells[i].capacity_sd_ah * ask->cells[i].capacity_sd_ah;
    }
    double total = 0.0, most = 0.0;
    for (int g = 0; g < out->groups; g++) {
        const double ah = (double)uah[g] / 1e6;
        out->capacity_ah[g] = ah;
        total += ah;
        most = fmax(most, ah);
        out->weakest_ah = g ? fmin(out->weakest_ah, ah) : ah;
        if (!out->guaranteed_ah)
            continue;
        out->guaranteed_ah[g] = lw_lot_guaranteed(lot, ah, variance[g]);
        out->guaranteed_weakest_ah =
            g ? fmin(out->guaranteed_weakest_ah, out->guaranteed_ah[g]) : out->guaranteed_ah[g];
    }
    out->spread_pct = 100.0 * (most - out->weakest_ah) / (total / out->groups);
    return true;
}

bool lw_match_fill(const lw_lot *lot, const int *group, int groups, lw_arena *arena, lw_match *out, lw_error *err)
{
    const lw_match_ask *ask = lot->ask;
    *out = (lw_match){.groups = groups};
    out->group = lw_arena_take(arena, ask->n, sizeof *out->group, err);
    out->capacity_ah = lw_arena_take(arena, (size_t)groups, sizeof *out->capacity_ah, err);
    out->group_mohm = lw_arena_take(arena, (size_t)groups, sizeof *out->group_mohm, err);
    if (lot->uncertain)
        out->guaranteed_ah = lw_arena_take(arena, (size_t)groups, sizeof *out->guaranteed_ah, err);
    if (!out->group || !out->capacity_ah || !out->group_mohm || (lot->uncertain && !out->guaranteed_ah))
        return false;
    for (int i = 0; i < lot->n; i++) {
        out->group[lot->cell[i]] = group[i];
        out->used += group[i] >= 0;
        out->left_out += group[i] < 0;
    }
    return number_groups(ask, out, arena, err) && fill_capacity(lot, out, arena, err) &&
           fill_resistance(ask, out, arena, err);
}

/* Group of each cell of the lot's order; cells beyond the first m are left out, and what free groups can spare. */
static bool divide(const lw_lot *lot, int groups, int *group, lw_arena *arena, bool *proven, lw_error *err)
{
    const lw_match_ask *ask = lot->ask;
    const int m = ask->parallel > 0 ? groups * ask->parallel : lot->n;
    lw_partition p;
    if (!lw_partition_make(&p, lot->worth, m, groups, ask->parallel, arena, err) ||
        !lw_partition_solve(&p, ask->seed, INT64_MAX, arena, proven, err))
        return false;
    for (int i = 0; i < lot->n; i++)
        group[i] = i < m ? p.group[i] : -1;
    if (ask->parallel == 0) {
        int *count = p.head; /* the chains are no longer needed */
        memset(count, 0, (size_t)groups * sizeof *count);
        for (int i = 0; i < m; i++)
            count[group[i]]++;
        lw_lot_trim(lot, group, p.sum, count, p.sum[lw_partition_lowest(&p)]);
    }
    return true;
}

bool lw_match_cells(const lw_match_ask *ask, lw_arena *arena, lw_match *out, lw_error *err)
{
    if (!lw_lot_check(ask, err))
        return false;
    const int64_t groups = (int64_t)ask->series * ask->packs;
    const int64_t need = groups * (ask->parallel > 0 ? ask->parallel : 1);
    if (need > (int64_t)ask->n)
        return lw_fail(err, LW_WRONG_INPUT, ask->parallel > 0 ? "parallel" : "series",
                       "%d packs of %d groups of %s%d cells need %lld cells; there are %zu.", ask->packs, ask->series,
                       ask->parallel > 0 ? "" : "at least ", ask->parallel > 0 ? ask->parallel : 1, (long long)need,
                       ask->n);
    lw_lot lot;
    const double usual = ask->parallel > 0 ? ask->parallel : (double)ask->n / (double)groups;
    if (!lw_lot_make(ask, usual, arena, &lot, err))
        return false;
    int *group = lw_arena_take(arena, ask->n, sizeof *group, err);
    bool proven;
    if (!group || !divide(&lot, (int)groups, group, arena, &proven, err) ||
        !lw_match_ties(&lot, group, (int)groups, arena, err) ||
        !lw_match_fill(&lot, group, (int)groups, arena, out, err))
        return false;
    out->proven = proven && ask->tolerance_pct <= 0.0 && !lot.uncertain;
    return lw_match_bounds(ask, &lot, (int)groups, arena, out, err);
}
