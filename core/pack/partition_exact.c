/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Complete search: the first open group takes the largest item left and some others, with a sum in the window
 * [lowest, total - (open groups - 1) lowest]; then the next group (Korf 2009, IJCAI, sequential partitioning). From a
 * good start the window is narrow and few subsets fall into it. The last two groups are divided by the complete search
 * of partition_pair.c.
 */
#include "partition.h"

#include <string.h>

typedef struct hunt {
    const lw_partition *p;
    lw_search *search;
    int64_t lowest, highest; /* every sum must lie between */
    int64_t nodes, node_limit;
    int *group;    /* [n] answer being built */
    int *items;    /* [groups][n] items open at each depth, falling */
    int64_t *tail; /* [groups][n + 1] sums of items from k on */
} hunt;

typedef struct frame {
    int depth, left; /* groups still open, this one included */
    const int *items;
    const int64_t *tail; /* tail[k]: sum of items[k..n) */
    int n;
    int64_t high; /* of this group's sum */
    int *taken;
} frame;

static bool place(hunt *h, int depth, int n);

/* The two last groups at once. */
static bool place_two(hunt *h, const frame *f)
{
    int64_t value[LW_POOL] = {0};
    for (int k = 0; k < f->n; k++)
        value[k] = h->p->value[f->items[k]];
    const int64_t total = f->tail[0];
    const lw_subset best = lw_nearest_subset(h->search->room, value, f->n, h->p->each ? h->p->each : -1, total / 2);
    h->nodes += (INT64_C(1) << f->n / 2) / 16 + 1;
    const int64_t other = total - best.sum;
    const bool fits = best.sum >= h->lowest && other >= h->lowest && best.sum <= h->highest && other <= h->highest;
    for (int k = 0; k < f->n && fits; k++)
        h->group[f->items[k]] = f->depth + (best.mask >> k & 1 ? 0 : 1);
    return fits;
}

static bool close_group(hunt *h, const frame *f, int taken)
{
    int *rest = h->items + (size_t)(f->depth + 1) * (size_t)h->p->n;
    int64_t *tail = h->tail + (size_t)(f->depth + 1) * (size_t)(h->p->n + 1);
    int n = 0;
    for (int k = 0, t = 0; k < f->n; k++) {
        if (t < taken && f->taken[t] == k) {
            h->group[f->items[k]] = f->depth;
            t++;
        } else {
            rest[n++] = f->items[k];
        }
    }
    tail[n] = 0;
    for (int k = n - 1; k >= 0; k--)
        tail[k] = tail[k + 1] + h->p->value[rest[k]];
    return place(h, f->depth + 1, n);
}

/* Chooses among items from.. of the frame; taken so far, with this sum. */
static bool choose(hunt *h, const frame *f, int from, int taken, int64_t sum)
{
    if (++h->nodes > h->node_limit)
        return false;
    const int need = h->p->each ? h->p->each - taken : 0;
    if (h->p->each ? need == 0 : sum >= h->lowest) {
        if (close_group(h, f, taken))
            return true;
        if (h->p->each)
            return false;
    }
    const int last = h->p->each ? f->n - need : f->n - 1;
    for (int k = from; k <= last; k++) {
        const int64_t most = h->p->each ? f->tail[k] - f->tail[k + need] : f->tail[k];
        if (sum + most < h->lowest)
            return false;
        /* least that can still come: this item and the smallest ones */
        const int64_t least = h->p->value[f->items[k]] + (need > 1 ? f->tail[f->n - need + 1] : 0);
        if (sum + least > f->high)
            continue;
        f->taken[taken] = k;
        if (choose(h, f, k + 1, taken + 1, sum + h->p->value[f->items[k]]))
            return true;
    }
    return false;
}

static bool place(hunt *h, int depth, int n)
{
    frame f = {.depth = depth, .left = h->p->groups - depth, .n = n};
    f.items = h->items + (size_t)depth * (size_t)h->p->n;
    f.tail = h->tail + (size_t)depth * (size_t)(h->p->n + 1);
    const int64_t high = f.tail[0] - (f.left - 1) * h->lowest;
    f.high = high < h->highest ? high : h->highest;
    if (f.high < h->lowest || n < f.left)
        return false;
    if (f.left == 1) {
        for (int k = 0; k < n; k++)
            h->group[f.items[k]] = depth;
        return f.tail[0] <= h->highest;
    }
    if (f.left == 2 && n <= LW_POOL)
        return place_two(h, &f);
    lw_error err = {0};
    const size_t used = h->search->arena->used;
    f.taken = lw_arena_take(h->search->arena, (size_t)n, sizeof *f.taken, &err);
    if (!f.taken) {
        h->nodes = h->node_limit + 1; /* counts as given up */
        return false;
    }
    f.taken[0] = 0; /* the largest item left belongs to this group: groups have no order */
    const bool found = f.high >= h->p->value[f.items[0]] && choose(h, &f, 1, 1, h->p->value[f.items[0]]);
    h->search->arena->used = used;
    return found;
}

/* One hunt through the window; the answer goes to p when there is one. */
static bool search_window(hunt *h, lw_partition *p)
{
    h->tail[p->n] = 0;
    for (int k = p->n - 1; k >= 0; k--) {
        h->items[k] = k;
        h->tail[k] = h->tail[k + 1] + p->value[k];
    }
    if (!place(h, 0, p->n))
        return false;
    memcpy(p->group, h->group, (size_t)p->n * sizeof *p->group);
    lw_partition_settle(p);
    return true;
}

bool lw_partition_exact(lw_partition *p, lw_search *search, int64_t node_limit, bool *proven, lw_error *err)
{
    const size_t used = search->arena->used, n = (size_t)p->n, depth = (size_t)p->groups + 1;
    hunt h = {.p = p, .search = search, .node_limit = node_limit};
    h.group = lw_arena_take(search->arena, n, sizeof *h.group, err);
    h.items = lw_arena_take(search->arena, depth * n, sizeof *h.items, err);
    h.tail = lw_arena_take(search->arena, depth * (n + 1), sizeof *h.tail, err);
    if (!h.group || !h.items || !h.tail)
        return false;
    h.highest = INT64_MAX;
    do
        h.lowest = p->sum[lw_partition_lowest(p)] + 1;
    while (h.lowest <= p->bound && search_window(&h, p));
    *proven = h.nodes <= h.node_limit;
    bool narrower = *proven;
    while (narrower) {
        h.lowest = p->sum[lw_partition_lowest(p)];
        h.highest = p->sum[lw_partition_highest(p)] - 1;
        narrower = h.lowest <= h.highest && search_window(&h, p);
    }
    search->work += h.nodes;
    search->arena->used = used;
    return true;
}
