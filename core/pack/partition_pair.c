/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Complete search over up to 28 items: all subset sums of each half in rising order, by number of items, then one run
 * from both ends for each split of the number (Horowitz and Sahni 1974, J. ACM 21, 277). And the step built on it:
 * divide two groups anew.
 */
#include "partition.h"

#include <stdlib.h>

/* Adds item x (bit) to sorted lists: out[c] = merge(in[c], in[c - 1] + x). With one list for any number of items,
 * lists = 1 and the list merges with itself. */
static int merge_lists(const lw_subset *a, int na, const lw_subset *b, int nb, int64_t x, uint32_t bit, lw_subset *out)
{
    int i = 0, j = 0, k = 0;
    while (i < na || j < nb) {
        if (j >= nb || (i < na && a[i].sum <= b[j].sum + x)) {
            out[k++] = a[i++];
        } else {
            out[k].sum = b[j].sum + x;
            out[k++].mask = b[j++].mask | bit;
        }
    }
    return k;
}

/* All subsets of value[0..h), sorted by number of items and then by sum; returns the finished list. */
static const lw_subset *by_count(lw_subset *a, lw_subset *b, int *start, const int64_t *value, int h)
{
    int size[LW_HALF + 2] = {1};
    a[0] = (lw_subset){0, 0};
    for (int k = 0; k < h; k++) {
        int in = 0, out = 0, previous = 0;
        for (int c = 0; c <= k + 1; c++) {
            const int na = c <= k ? size[c] : 0, nb = c > 0 ? previous : 0;
            const int made = merge_lists(a + in, na, a + in - nb, nb, value[k], UINT32_C(1) << k, b + out);
            in += na;
            out += made;
            previous = na;
            size[c] = made;
        }
        lw_subset *swap = a;
        a = b;
        b = swap;
    }
    int at = 0;
    for (int c = 0; c <= h; c++) {
        start[c] = at;
        at += size[c];
    }
    start[h + 1] = at;
    return a;
}

static const lw_subset *any_count(lw_subset *a, lw_subset *b, int *start, const int64_t *value, int h)
{
    int size = 1;
    a[0] = (lw_subset){0, 0};
    for (int k = 0; k < h; k++) {
        size = merge_lists(a, size, a, size, value[k], UINT32_C(1) << k, b);
        lw_subset *swap = a;
        a = b;
        b = swap;
    }
    start[0] = 0;
    start[1] = size;
    return a;
}

/* Nearest to target of one from each sorted list. */
static void meet(const lw_subset *a, int na, const lw_subset *b, int nb, int shift, int64_t target, lw_subset *best)
{
    int64_t least = best->mask ? llabs(best->sum - target) : INT64_MAX;
    int i = 0, j = nb - 1;
    while (i < na && j >= 0 && least > 0) {
        const int64_t sum = a[i].sum + b[j].sum, off = llabs(sum - target);
        if (off < least) {
            least = off;
            *best = (lw_subset){sum, a[i].mask | b[j].mask << shift};
        }
        if (sum < target)
            i++;
        else
            j--;
    }
}

lw_subset lw_nearest_subset(lw_pair_room *room, const int64_t *value, int m, int take, int64_t target)
{
    const int left = m / 2, right = m - left;
    lw_subset best = {0, 0};
    int *sa = room->start[0], *sb = room->start[1];
    if (take < 0) {
        const lw_subset *a = any_count(room->list[0], room->list[1], sa, value, left);
        const lw_subset *b = any_count(room->list[2], room->list[3], sb, value + left, right);
        meet(a, sa[1], b, sb[1], left, target, &best);
        return best;
    }
    const lw_subset *a = by_count(room->list[0], room->list[1], sa, value, left);
    const lw_subset *b = by_count(room->list[2], room->list[3], sb, value + left, right);
    for (int c = take > right ? take - right : 0; c <= left && c <= take; c++)
        meet(a + sa[c], sa[c + 1] - sa[c], b + sb[take - c], sb[take - c + 1] - sb[take - c], left, target, &best);
    return best;
}

/* Up to room items of group g, taken at random when it has more; the others stay where they are. */
static int gather(const lw_partition *p, lw_search *search, int g, int room, int *pool)
{
    int taken = 0, seen = 0;
    for (int i = p->head[g]; i >= 0; i = p->next[i], seen++) {
        if (taken < room) {
            pool[taken++] = i;
            continue;
        }
        const uint64_t at = lw_rng_below(&search->rng, (uint64_t)seen + 1); /* Vitter 1985, algorithm R */
        if (at < (uint64_t)room)
            pool[at] = i;
    }
    return taken;
}

/* Moves the pool's chosen items to a and the others to b, then re-links both chains in place. */
static void apply(lw_partition *p, int a, int b, const int *pool, int m, uint32_t mask)
{
    for (int k = 0; k < m; k++)
        p->group[pool[k]] = mask >> k & 1 ? a : b;
    /* walk both chains once and sort each member to its new chain */
    int heads[2] = {-1, -1};
    int64_t sums[2] = {0, 0};
    for (int side = 0; side < 2; side++)
        for (int i = p->head[side ? b : a], next; i >= 0; i = next) {
            next = p->next[i];
            const int to = p->group[i] == b;
            p->next[i] = heads[to];
            heads[to] = i;
            sums[to] += p->value[i];
        }
    p->head[a] = heads[0];
    p->head[b] = heads[1];
    p->sum[a] = sums[0];
    p->sum[b] = sums[1];
}

static int members(const lw_partition *p, int g)
{
    int count = 0;
    for (int i = p->head[g]; i >= 0; i = p->next[i])
        count++;
    return count;
}

bool lw_pair_step(lw_partition *p, lw_search *search, int a, int b, int64_t target, int64_t floor, int64_t ceiling)
{
    const int side = search->side;
    const int all_a = members(p, a), all_b = members(p, b);
    const int room_a = 2 * side - (all_b < side ? all_b : side), room_b = 2 * side - (all_a < side ? all_a : side);
    int pool[2 * LW_POOL];
    const int na = gather(p, search, a, all_b < side ? room_a : side < all_a ? side : all_a, pool);
    const int nb = gather(p, search, b, room_b < 2 * side - na ? room_b : 2 * side - na, pool + na);
    int64_t value[2 * LW_POOL] = {0}, now = 0;
    for (int k = 0; k < na + nb; k++) {
        value[k] = p->value[pool[k]];
        now += k < na ? value[k] : 0;
    }
    const int64_t fixed = p->sum[a] - now, both = p->sum[a] + p->sum[b];
    const lw_subset best = lw_nearest_subset(search->room, value, na + nb, p->each ? na : -1, target - fixed);
    search->work += 4 * (INT64_C(1) << (na + nb) / 2) + all_a + all_b;
    const int64_t new_a = fixed + best.sum, new_b = both - new_a;
    if (best.mask == 0 || new_a < floor || new_b < floor || new_a > ceiling || new_b > ceiling)
        return false;
    apply(p, a, b, pool, na + nb, best.mask);
    return true;
}
