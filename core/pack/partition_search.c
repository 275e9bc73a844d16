/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Local search. With many cells in a group there are so many ways to divide two groups that one of them can be given
 * exactly its share: group after group is set to the mean (settle). With few cells that rarely works; then the lowest
 * group is divided anew with each of the others (lift), the highest likewise (lower), and when that helps no more, the
 * lowest and a few others are solved together by complete search (regroup).
 */
#include "partition.h"

#include <stdlib.h>

static int64_t total(const lw_partition *p)
{
    int64_t sum = 0;
    for (int g = 0; g < p->groups; g++)
        sum += p->sum[g];
    return sum;
}

/* How far a group's sum lies outside [floor(mean), ceil(mean)]. */
static int64_t off(int64_t sum, int64_t share, int64_t rest)
{
    if (sum < share)
        return sum - share;
    return sum > share + (rest > 0) ? sum - share - (rest > 0) : 0;
}

enum { USUAL_SIDE = 11, FIRST_MISSES = 4, MOST_MISSES = 64 };

/* The group that is off the most, and the partner that is off the other way; after a miss any other one. */
static int64_t choose_pair(const lw_partition *p, lw_search *search, int64_t share, int64_t rest, bool any, int *worst,
                           int *against)
{
    int low = 0, high = 0;
    *worst = 0;
    for (int g = 1; g < p->groups; g++) {
        if (llabs(off(p->sum[g], share, rest)) > llabs(off(p->sum[*worst], share, rest)))
            *worst = g;
        low = p->sum[g] < p->sum[low] ? g : low;
        high = p->sum[g] > p->sum[high] ? g : high;
    }
    const int64_t gap = off(p->sum[*worst], share, rest);
    *against = gap > 0 ? low : high;
    if (any || *against == *worst) {
        *against = (int)lw_rng_below(&search->rng, (uint64_t)p->groups - 1);
        *against += *against >= *worst;
    }
    search->work += p->groups / 4;
    return gap;
}

/* Sets one group after another to its share, against partners that are off the other way. */
static void settle(lw_partition *p, lw_search *search)
{
    const int64_t all = total(p), share = all / p->groups, rest = all % p->groups;
    for (int misses = 0; misses < MOST_MISSES && search->work < search->limit;) {
        int worst, against;
        const int64_t gap = choose_pair(p, search, share, rest, misses > 0, &worst, &against);
        if (gap == 0)
            return;
        search->side = misses < FIRST_MISSES ? USUAL_SIDE : LW_HALF;
        /* nothing may get further off than the worst is now */
        const int64_t target = gap > 0 && rest > 0 ? share + 1 : share;
        const int64_t low = share - llabs(gap) + 1, high = share + (rest > 0) + llabs(gap) - 1;
        misses = lw_pair_step(p, search, worst, against, target, low, high) ? 0 : misses + 1;
    }
}

/* Divides group a anew with group b, both to end within the limits. */
static bool halve(lw_partition *p, lw_search *search, int a, int b, int64_t floor, int64_t ceiling)
{
    const int64_t both = p->sum[a] + p->sum[b];
    if (a == b || both / 2 < floor || (both + 1) / 2 > ceiling)
        return false;
    return lw_pair_step(p, search, a, b, both / 2, floor, ceiling);
}

/* The same with a few likely partners first: the far end, then some at random, then everyone. */
static bool halve_with_some(lw_partition *p, lw_search *search, int a, int far, int64_t floor, int64_t ceiling)
{
    enum { SOME = 40 };
    if (halve(p, search, a, far, floor, ceiling))
        return true;
    for (int k = 0; k < SOME && search->work < search->limit; k++)
        if (halve(p, search, a, (int)lw_rng_below(&search->rng, (uint64_t)p->groups), floor, ceiling))
            return true;
    for (int g = 0; g < p->groups && search->work < search->limit; g++)
        if (halve(p, search, a, g, floor, ceiling))
            return true;
    return false;
}

/* Divides the lowest group anew with one of the others so that both end above it. */
static bool lift(lw_partition *p, lw_search *search)
{
    const int low = lw_partition_lowest(p);
    search->work += p->groups / 4;
    return halve_with_some(p, search, low, lw_partition_highest(p), p->sum[low] + 1, INT64_MAX);
}

/* Divides the highest group anew so that both end below it and none below the lowest. */
static bool lower(lw_partition *p, lw_search *search)
{
    const int high = lw_partition_highest(p), low = lw_partition_lowest(p);
    search->work += p->groups / 4;
    return halve_with_some(p, search, high, low, p->sum[low], p->sum[high] - 1);
}

enum { TOGETHER = 4, FEW = 24, MANY = 30, PART_NODES = 20000 };

/* Which of the chosen groups holds item i; -1: none. */
static int place_of(const lw_partition *p, int i, const int *chosen, int count)
{
    for (int k = 0; k < count; k++)
        if (p->group[i] == chosen[k])
            return k;
    return -1;
}

/* Complete search over a part; true when its lowest sum rose, or its highest fell at the same lowest. */
static bool improve_part(lw_partition *part, lw_search *search, lw_error *err)
{
    bool proven;
    lw_partition_settle(part);
    const int64_t low = part->sum[lw_partition_lowest(part)], high = part->sum[lw_partition_highest(part)];
    if (!lw_partition_exact(part, search, PART_NODES, &proven, err))
        return false;
    const int64_t new_low = part->sum[lw_partition_lowest(part)], new_high = part->sum[lw_partition_highest(part)];
    return new_low > low || (new_low == low && new_high < high);
}

/* The part of p made of some groups as a problem of its own, solved completely; true when it got better. */
static bool solve_part(lw_partition *p, lw_search *search, const int *chosen, int count, lw_error *err)
{
    lw_partition part;
    const size_t used = search->arena->used;
    int64_t *value = lw_arena_take(search->arena, (size_t)p->n, sizeof *value, err);
    int *item = lw_arena_take(search->arena, (size_t)p->n, sizeof *item, err);
    if (!value || !item)
        return false;
    int n = 0;
    for (int i = 0; i < p->n; i++) /* keeps the falling order */
        if (place_of(p, i, chosen, count) >= 0) {
            value[n] = p->value[i];
            item[n++] = i;
        }
    search->work += p->n;
    bool better = false;
    if (lw_partition_make(&part, value, n, count, p->each, search->arena, err)) {
        for (int i = 0; i < n; i++)
            part.group[i] = place_of(p, item[i], chosen, count);
        better = improve_part(&part, search, err);
        for (int i = 0; i < n && better; i++)
            p->group[item[i]] = chosen[part.group[i]];
        if (better)
            lw_partition_settle(p);
    }
    search->arena->used = used;
    return better;
}

/* One of the ends and a few other groups, drawn at random, solved together. */
static bool regroup(lw_partition *p, lw_search *search, int end, lw_error *err)
{
    int chosen[TOGETHER] = {end};
    const int64_t usual = (p->n + p->groups - 1) / p->groups;
    int count = (int)(FEW / usual);
    count = count > TOGETHER ? TOGETHER : count < 3 ? 3 : count;
    count = count > p->groups ? p->groups : count;
    for (int k = 1; k < count;) {
        const int g = (int)lw_rng_below(&search->rng, (uint64_t)p->groups);
        bool fresh = true;
        for (int j = 0; j < k; j++)
            fresh = fresh && chosen[j] != g;
        if (fresh)
            chosen[k++] = g;
    }
    return solve_part(p, search, chosen, count, err);
}

bool lw_partition_improve(lw_partition *p, lw_search *search, lw_error *err)
{
    if (p->groups < 2)
        return true;
    if (p->sum[lw_partition_lowest(p)] < search->enough)
        settle(p, search);
    search->side = USUAL_SIDE;
    const int patience = 3 * p->n <= MANY * p->groups ? 200 : 1; /* regrouping is for few cells in a group */
    int misses = 0;
    while (misses < patience && search->work < search->limit) {
        const int64_t low = p->sum[lw_partition_lowest(p)], high = p->sum[lw_partition_highest(p)];
        if (high - low <= search->slack || low >= search->enough)
            break;
        if ((misses == 0 && (lift(p, search) || lower(p, search))) ||
            regroup(p, search, misses % 3 == 2 ? lw_partition_highest(p) : lw_partition_lowest(p), err)) {
            misses = 0;
            continue;
        }
        if (err->family != LW_OK)
            return false;
        misses++;
    }
    return true;
}
