/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The whole way from numbers to groups: seeds, local search, restarts, complete search. The work limit counts list
 * entries and nodes, never time, so that a result is the same on any machine.
 */
#include "partition.h"

#include <string.h>

static const int64_t work_base = 6000000, work_per_item = 4000, work_few = 12000000, work_best = 40000000;
static const int64_t nodes_few = 20000000, nodes_some = 3000000;
enum { FEW_ITEMS = 30, SOME_ITEMS = 64, MANY_ITEMS = 500, DIFFERENCING_CELLS = 1000000 };

static int64_t lowest(const lw_partition *p)
{
    return p->sum[lw_partition_lowest(p)];
}

static int64_t highest(const lw_partition *p)
{
    return p->sum[lw_partition_highest(p)];
}

static bool better(int64_t low, int64_t high, int64_t than_low, int64_t than_high)
{
    return low > than_low || (low == than_low && high < than_high);
}

/* Nothing is left to gain, or no more is wanted. */
static bool done(const lw_partition *p, const lw_search *search)
{
    return highest(p) - lowest(p) <= search->slack || lowest(p) >= search->enough;
}

/* Exchanges a few items between the lowest group and others, and between others. */
static void shake(lw_partition *p, lw_search *search)
{
    const uint64_t n = (uint64_t)p->n;
    const int swaps = 2 + (int)lw_rng_below(&search->rng, 4);
    for (int k = 0; k < swaps; k++) {
        int i = (int)lw_rng_below(&search->rng, n);
        const int j = (int)lw_rng_below(&search->rng, n);
        if (k == 0)
            i = p->head[lw_partition_lowest(p)];
        const int swap = p->group[i];
        p->group[i] = p->group[j];
        p->group[j] = swap;
    }
    lw_partition_settle(p);
    search->work += 2 * p->n;
}

static bool restarts(lw_partition *p, lw_search *search, lw_error *err)
{
    const size_t used = search->arena->used;
    int *best = lw_arena_take(search->arena, (size_t)p->n, sizeof *best, err);
    if (!best)
        return false;
    memcpy(best, p->group, (size_t)p->n * sizeof *best);
    int64_t low = lowest(p), high = highest(p);
    while (search->work < search->limit && !done(p, search)) {
        shake(p, search);
        if (!lw_partition_improve(p, search, err))
            return false;
        if (better(low, high, lowest(p), highest(p))) {
            memcpy(p->group, best, (size_t)p->n * sizeof *best);
            lw_partition_settle(p);
            continue;
        }
        low = lowest(p);
        high = highest(p);
        memcpy(best, p->group, (size_t)p->n * sizeof *best);
    }
    search->arena->used = used;
    return true;
}

/* Greedy or, with free counts, differencing when that is better. */
static bool seed_groups(lw_partition *p, lw_arena *arena, lw_error *err)
{
    lw_partition_greedy(p);
    if (p->each || (int64_t)p->n * p->groups > DIFFERENCING_CELLS)
        return true;
    const size_t used = arena->used;
    int *greedy = lw_arena_take(arena, (size_t)p->n, sizeof *greedy, err);
    if (!greedy)
        return false;
    memcpy(greedy, p->group, (size_t)p->n * sizeof *greedy);
    const int64_t low = lowest(p), high = highest(p);
    if (!lw_partition_differencing(p, arena, err))
        return false;
    if (better(low, high, lowest(p), highest(p))) {
        memcpy(p->group, greedy, (size_t)p->n * sizeof *greedy);
        lw_partition_settle(p);
    }
    arena->used = used;
    return true;
}

static lw_search begin(const lw_partition *p, uint64_t seed, int64_t enough, lw_arena *arena)
{
    lw_search search = {.rng = lw_rng_stream(seed, (uint64_t)p->n, (uint64_t)p->groups),
                        .arena = arena,
                        .enough = enough,
                        .slack = 1}; /* sums that differ by one are as good as can be */
    if (p->n > MANY_ITEMS) {
        int64_t all = 0;
        for (int i = 0; i < p->n; i++)
            all += p->value[i];
        search.limit = work_base + work_per_item * p->n;
        search.slack += all / p->groups / 1000000; /* many items may differ by a millionth */
    } else {
        search.limit = p->n >= 10 * p->groups && enough == INT64_MAX ? work_best : work_few;
    }
    return search;
}

/* Few items are solved at once; for some, restarts first make the window of the complete search narrow. */
static bool finish(lw_partition *p, lw_search *search, bool *proven, lw_error *err)
{
    if (p->n <= FEW_ITEMS && !done(p, search) && !lw_partition_exact(p, search, nodes_few, proven, err))
        return false;
    if (!*proven && !restarts(p, search, err))
        return false;
    const bool some = p->n > FEW_ITEMS && p->n <= SOME_ITEMS && !done(p, search);
    return !some || lw_partition_exact(p, search, nodes_some, proven, err);
}

bool lw_partition_solve(lw_partition *p, uint64_t seed, int64_t enough, lw_arena *arena, bool *proven, lw_error *err)
{
    *proven = false;
    const size_t used = arena->used;
    lw_search search = begin(p, seed, enough, arena);
    p->bound = lw_group_bound(p->value, p->n, p->groups, p->each);
    search.room = lw_arena_take(arena, 1, sizeof *search.room, err);
    if (!search.room || !seed_groups(p, arena, err) || !lw_partition_improve(p, &search, err) ||
        !finish(p, &search, proven, err))
        return false;
    *proven = *proven || highest(p) - lowest(p) <= 1 || lowest(p) >= p->bound;
    arena->used = used;
    return true;
}
