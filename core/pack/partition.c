/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Groups of whole numbers: space, sums, chains, and the two seeds. See partition.h.
 */
#include "partition.h"

#include <string.h>

bool lw_partition_make(lw_partition *p, const int64_t *value, int n, int groups, int each, lw_arena *arena,
                       lw_error *err)
{
    *p = (lw_partition){.value = value, .n = n, .groups = groups, .each = each};
    p->group = lw_arena_take(arena, (size_t)n, sizeof *p->group, err);
    p->next = lw_arena_take(arena, (size_t)n, sizeof *p->next, err);
    p->sum = lw_arena_take(arena, (size_t)groups, sizeof *p->sum, err);
    p->head = lw_arena_take(arena, (size_t)groups, sizeof *p->head, err);
    if (!p->group || !p->next || !p->sum || !p->head)
        return false;
    for (int i = 0; i < n; i++)
        p->group[i] = -1;
    p->bound = INT64_MAX;
    return true;
}

void lw_partition_settle(lw_partition *p)
{
    for (int g = 0; g < p->groups; g++) {
        p->sum[g] = 0;
        p->head[g] = -1;
    }
    for (int i = p->n - 1; i >= 0; i--) {
        const int g = p->group[i];
        p->sum[g] += p->value[i];
        p->next[i] = p->head[g];
        p->head[g] = i;
    }
}

int lw_partition_lowest(const lw_partition *p)
{
    int best = 0;
    for (int g = 1; g < p->groups; g++)
        if (p->sum[g] < p->sum[best])
            best = g;
    return best;
}

int lw_partition_highest(const lw_partition *p)
{
    int best = 0;
    for (int g = 1; g < p->groups; g++)
        if (p->sum[g] > p->sum[best])
            best = g;
    return best;
}

void lw_partition_greedy(lw_partition *p)
{
    int *count = p->head; /* borrowed until the chains are made */
    for (int g = 0; g < p->groups; g++) {
        p->sum[g] = 0;
        count[g] = 0;
    }
    for (int i = 0; i < p->n; i++) {
        int best = -1;
        for (int g = 0; g < p->groups; g++)
            if ((!p->each || count[g] < p->each) && (best < 0 || p->sum[g] < p->sum[best]))
                best = g;
        p->group[i] = best;
        p->sum[best] += p->value[i];
        count[best]++;
    }
    lw_partition_settle(p);
}

/* One partial answer of the differencing method: its group sums, falling, relative to the smallest, and for each the
 * root of the chain of items. */
typedef struct partial {
    int64_t *sum; /* [groups] */
    int *first, *last;
} partial;

/* Merges b into a: largest sums of one against smallest of the other, then sorts and takes the smallest off. */
static void merge(partial *a, const partial *b, int groups, int *next)
{
    for (int g = 0; g < groups; g++) {
        const int other = groups - 1 - g;
        a->sum[g] += b->sum[other];
        if (b->first[other] < 0)
            continue;
        if (a->first[g] < 0)
            a->first[g] = b->first[other];
        else
            next[a->last[g]] = b->first[other];
        a->last[g] = b->last[other];
    }
    for (int g = 1; g < groups; g++) { /* insertion sort: two sorted runs, short */
        const int64_t sum = a->sum[g];
        const int first = a->first[g], last = a->last[g];
        int k = g;
        for (; k > 0 && a->sum[k - 1] < sum; k--) {
            a->sum[k] = a->sum[k - 1];
            a->first[k] = a->first[k - 1];
            a->last[k] = a->last[k - 1];
        }
        a->sum[k] = sum;
        a->first[k] = first;
        a->last[k] = last;
    }
    for (int g = 0; g < groups; g++)
        a->sum[g] -= a->sum[groups - 1];
}

/* Heap of partials by spread (sum[0]), largest on top; ties: the lower number first. */
static bool above(const partial *all, int a, int b)
{
    const int64_t spread_a = all[a].sum[0], spread_b = all[b].sum[0];
    return spread_a != spread_b ? spread_a > spread_b : a < b;
}

static void sift(const partial *all, int *heap, int size, int k)
{
    for (;;) {
        int top = k;
        for (int child = 2 * k + 1; child <= 2 * k + 2 && child < size; child++)
            if (above(all, heap[child], heap[top]))
                top = child;
        if (top == k)
            return;
        const int swap = heap[k];
        heap[k] = heap[top];
        heap[top] = swap;
        k = top;
    }
}

static void run_differencing(lw_partition *p, partial *all, int *heap)
{
    int size = p->n;
    for (int k = size / 2; k >= 0; k--)
        sift(all, heap, size, k);
    while (size > 1) {
        const int a = heap[0];
        heap[0] = heap[--size];
        sift(all, heap, size, 0);
        merge(&all[a], &all[heap[0]], p->groups, p->next);
        heap[0] = a;
        sift(all, heap, size, 0);
    }
    for (int g = 0; g < p->groups; g++)
        for (int i = all[heap[0]].first[g], last = all[heap[0]].last[g]; i >= 0; i = i == last ? -1 : p->next[i])
            p->group[i] = g;
    lw_partition_settle(p);
}

bool lw_partition_differencing(lw_partition *p, lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used, n = (size_t)p->n, groups = (size_t)p->groups;
    partial *all = lw_arena_take(arena, n, sizeof *all, err);
    int64_t *sums = lw_arena_take(arena, n * groups, sizeof *sums, err);
    int *ends = lw_arena_take(arena, 2 * n * groups, sizeof *ends, err);
    int *heap = lw_arena_take(arena, n, sizeof *heap, err);
    if (!all || !sums || !ends || !heap)
        return false;
    memset(ends, 0xff, 2 * n * groups * sizeof *ends); /* -1 */
    for (size_t i = 0; i < n; i++) {
        all[i] = (partial){sums + i * groups, ends + 2 * i * groups, ends + (2 * i + 1) * groups};
        all[i].sum[0] = p->value[i];
        all[i].first[0] = all[i].last[0] = (int)i;
        heap[i] = (int)i;
    }
    run_differencing(p, all, heap);
    arena->used = used;
    return true;
}
