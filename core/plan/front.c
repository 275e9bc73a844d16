/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The alternatives worth showing: along rising cost, fewer and fewer dark nights. See lanewick/plan.h.
 */
#include "lanewick/plan.h"

/* Insertion sort by cost, then by dark nights: the lists are short and often nearly sorted. */
static void sort(lw_candidate *c, size_t n)
{
    for (size_t i = 1; i < n; i++) {
        const lw_candidate one = c[i];
        size_t k = i;
        for (; k > 0 && (c[k - 1].cost_minor > one.cost_minor ||
                         (c[k - 1].cost_minor == one.cost_minor && c[k - 1].outcome.dark.mean > one.outcome.dark.mean));
             k--)
            c[k] = c[k - 1];
        c[k] = one;
    }
}

/* Removes the least telling entry of the middle: the one whose neighbours are nearest to one another in dark nights,
 * further from the first that keeps the wish counting as nearer. */
static void thin(lw_candidate *c, size_t *n, size_t keeper)
{
    size_t worst = 0;
    double least = 0.0;
    for (size_t i = 1; i + 1 < *n; i++) {
        if (i == keeper)
            continue;
        const double away = (double)(i > keeper ? i - keeper : keeper - i);
        const double gap = (c[i - 1].outcome.dark.mean - c[i + 1].outcome.dark.mean + 0.05) / away;
        if (worst == 0 || gap < least) {
            worst = i;
            least = gap;
        }
    }
    if (worst == 0)
        worst = *n - 1;
    for (size_t i = worst; i + 1 < *n; i++)
        c[i] = c[i + 1];
    (*n)--;
}

size_t lw_plan_front(lw_candidate *candidates, size_t n, size_t room)
{
    size_t kept = 0;
    sort(candidates, n);
    for (size_t i = 0; i < n; i++)
        if (kept == 0 || candidates[i].outcome.dark.mean < candidates[kept - 1].outcome.dark.mean)
            candidates[kept++] = candidates[i];
    while (kept > room) {
        size_t keeper = 0;
        while (keeper + 1 < kept && !candidates[keeper].keeps)
            keeper++;
        thin(candidates, &kept, keeper);
    }
    return kept;
}
