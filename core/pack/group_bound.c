/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whether n whole numbers can make so many groups of at least need, by counting: groups of at most k numbers can be
 * only a(k), because a of them hold at best the k a largest (each counted up to the need); so at least groups - a(k)
 * have more than k numbers, and the sum of that over k must not pass n. From it the greatest weakest group that can
 * exist.
 */
#include "partition.h"

/* The most groups of at most k numbers, as far as most. */
static int64_t few(const int64_t *x, int n, int64_t need, int k, int64_t most)
{
    int64_t sum = 0, groups = 0;
    for (int i = 0; i < n; i++) {
        sum += x[i] < need ? x[i] : need;
        const int64_t full = (i + 1) / k;
        if ((i + 1) % k == 0 && sum >= need * full)
            groups = full;
        if (groups >= most)
            return groups;
    }
    /* more groups than n / k share all the numbers */
    return sum / need > n / k ? sum / need : groups;
}

bool lw_groups_possible(const int64_t *x, int n, int64_t need, int64_t groups)
{
    int64_t cells = groups; /* k = 0: every group has at least one */
    for (int k = 1; k <= n && cells <= n; k++) {
        const int64_t a = few(x, n, need, k, groups);
        if (a >= groups)
            break;
        cells += groups - a;
    }
    return cells <= n;
}

/* With pairs the largest goes with the smallest, and so on inwards: the weakest pair is then the strongest possible. */
static int64_t pairs(const int64_t *x, int n)
{
    int64_t weakest = INT64_MAX;
    for (int i = 0; i < n / 2; i++)
        weakest = x[i] + x[n - 1 - i] < weakest ? x[i] + x[n - 1 - i] : weakest;
    return weakest;
}

int64_t lw_group_bound(const int64_t *x, int n, int groups, int each)
{
    enum { FEW_IN_GROUP = 30, MOST = 20000 };
    int64_t total = 0;
    for (int i = 0; i < n; i++)
        total += x[i];
    int64_t high = total / groups;
    if (each == 2)
        return pairs(x, n) < high ? pairs(x, n) : high;
    if (each > 0 || n > MOST || n > FEW_IN_GROUP * groups || high < 1)
        return high;
    int64_t low = 0; /* possible; high may be */
    while (low < high) {
        const int64_t middle = low + (high - low + 1) / 2;
        if (lw_groups_possible(x, n, middle, groups))
            low = middle;
        else
            high = middle - 1;
    }
    return low;
}
