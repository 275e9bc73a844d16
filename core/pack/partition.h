/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dividing whole numbers into groups so that the smallest sum is as large as possible and then the largest as small
 * as possible: the integer heart of matching. Whole numbers, so that a result is exact and repeats on any machine.
 * docs/models/pack-matching.md.
 */
#ifndef LANEWICK_PARTITION_H
#define LANEWICK_PARTITION_H

#include "lanewick/arena.h"
#include "lanewick/rng.h"

#include <stdbool.h>
#include <stdint.h>

typedef struct lw_partition {
    const int64_t *value; /* [n], falling */
    int n, groups;
    int each;         /* items of every group; 0: free counts. n = groups * each when not 0 */
    int *group;       /* [n] 0..groups-1 */
    int64_t *sum;     /* [groups] */
    int *head, *next; /* members of a group as a chain, -1 at its end */
    int64_t bound;    /* no division has a greater smallest sum */
} lw_partition;

/* Space for the answer; every item starts without a group. */
LW_MUST_CHECK bool lw_partition_make(lw_partition *p, const int64_t *value, int n, int groups, int each,
                                     lw_arena *arena, lw_error *err);
/* Sums and chains from group[]. */
void lw_partition_settle(lw_partition *p);
int lw_partition_lowest(const lw_partition *p);
int lw_partition_highest(const lw_partition *p);

/* The greatest smallest sum that can exist: total / groups, tightened by counting where groups have few items. */
int64_t lw_group_bound(const int64_t *x, int n, int groups, int each);
/* Whether counting allows so many groups of at least need, in falling x. */
bool lw_groups_possible(const int64_t *x, int n, int64_t need, int64_t groups);

/* Seeds. Greedy (Graham 1969): largest first into the lightest group that has room. Differencing (Karmarkar and Karp
 * 1982): merge the two partial answers of largest spread, largest sums against smallest; free counts only. */
void lw_partition_greedy(lw_partition *p);
LW_MUST_CHECK bool lw_partition_differencing(lw_partition *p, lw_arena *arena, lw_error *err);

/* --- complete search over a few items (Horowitz and Sahni 1974) ------------------------------------------------ */

enum { LW_HALF = 14, LW_POOL = 2 * LW_HALF };

typedef struct lw_subset {
    int64_t sum;
    uint32_t mask;
} lw_subset;
typedef struct lw_pair_room {
    lw_subset list[4][1 << LW_HALF];
    int start[2][LW_HALF + 2]; /* where the subsets of c items begin; last: end */
} lw_pair_room;
/* The subset of value[0..m) (m <= LW_POOL) with take items (-1: any) whose sum lies nearest to target. */
lw_subset lw_nearest_subset(lw_pair_room *room, const int64_t *value, int m, int take, int64_t target);

/* --- improvement ----------------------------------------------------------------------------------------------- */

typedef struct lw_search {
    lw_pair_room *room;
    lw_rng rng;
    int64_t enough;      /* stop when the smallest sum reaches it */
    int64_t slack;       /* or when the sums differ by no more than this */
    int64_t work, limit; /* list entries and nodes; stops beyond limit */
    int side;            /* items of each group that a pair step looks at, up to LW_HALF */
    lw_arena *arena;
} lw_search;

/* Divides groups a and b anew so that a's sum comes nearest to target, when better(...) of the two sums says so:
 * true when it changed something. */
bool lw_pair_step(lw_partition *p, lw_search *search, int a, int b, int64_t target, int64_t floor, int64_t ceiling);

/* Local search until nothing helps or the work is used up. */
LW_MUST_CHECK bool lw_partition_improve(lw_partition *p, lw_search *search, lw_error *err);

/* Complete search from a good start: each group in turn is a subset with a sum in the window that still allows a better
 * answer. True when the smallest sum is proven best; gives up after node_limit nodes. */
LW_MUST_CHECK bool lw_partition_exact(lw_partition *p, lw_search *search, int64_t node_limit, bool *proven,
                                      lw_error *err);

/* All of it: seed, local search, restarts from a shaken best answer within the work limit, complete search where that
 * can finish. enough: stop as soon as the smallest sum reaches it (INT64_MAX: go on to the best). proven: the smallest
 * sum is the greatest possible. */
LW_MUST_CHECK bool lw_partition_solve(lw_partition *p, uint64_t seed, int64_t enough, lw_arena *arena, bool *proven,
                                      lw_error *err);

#endif
