/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What no placing can pass. The k largest cells stand in at most k groups, so the others share what is left:
 * weakest <= (total - k largest) / (groups - k), for every k. With equal counts the group of the smallest cell holds
 * at best the largest others. For the guaranteed value the root of the variance is replaced by a chord below it.
 */
#include "lot.h"

#include <math.h>
#include <stdlib.h>

static int falling_number(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x < y) - (x > y);
}

/* Bound for numbers in falling order that are all divided; m of them. */
static double bound_of(const double *x, int m, int groups, int each)
{
    double total = 0.0;
    for (int i = 0; i < m; i++)
        total += x[i];
    double bound = total / groups;
    for (int k = 0; k + 1 < groups && k + 1 < m; k++) {
        total -= x[k];
        bound = fmin(bound, total / (groups - k - 1));
    }
    if (each > 0) {
        double last = x[m - 1];
        for (int k = 0; k + 1 < each; k++)
            last += x[k];
        bound = fmin(bound, last);
    }
    return bound;
}

/* Chord of sqrt between the least and the greatest variance a group can have: sqrt(v) >= at + slope v there. */
static void chord(const double *sd_falling, int n, int each, double *at, double *slope)
{
    double most = 0.0, least = 0.0;
    for (int k = 0; k < (each > 0 ? each : n); k++)
        most += sd_falling[k] * sd_falling[k];
    for (int k = 0; k < (each > 0 ? each : 1); k++)
        least += sd_falling[n - 1 - k] * sd_falling[n - 1 - k];
    *slope = most > least ? (sqrt(most) - sqrt(least)) / (most - least) : 0.0;
    *at = sqrt(least) - *slope * least;
}

bool lw_match_bounds(const lw_match_ask *ask, const lw_lot *lot, int groups, lw_arena *arena, lw_match *out,
                     lw_error *err)
{
    const size_t used = arena->used, n = ask->n;
    double *x = lw_arena_take(arena, n, sizeof *x, err);
    if (!x)
        return false;
    const int m = ask->parallel > 0 ? groups * ask->parallel : (int)n;
    for (size_t i = 0; i < n; i++)
        x[i] = (double)lw_uah(ask->cells[i].capacity_ah);
    qsort(x, n, sizeof *x, falling_number);
    /* whole mAh when every reading is */
    const double unit = !lot->uncertain && lot->unit % 1000 == 0 ? 1000.0 : 1.0;
    int64_t *whole = lw_arena_take(arena, n, sizeof *whole, err);
    if (!whole)
        return false;
    for (size_t i = 0; i < n; i++)
        whole[i] = (int64_t)x[i];
    const double counted = (double)lw_group_bound(whole, m, groups, ask->parallel);
    out->bound_ah = floor(fmin(counted, bound_of(x, m, groups, ask->parallel)) / unit) * unit / 1e6;
    if (lot->uncertain) {
        double at, slope;
        for (size_t i = 0; i < n; i++)
            x[i] = ask->cells[i].capacity_sd_ah;
        qsort(x, n, sizeof *x, falling_number);
        chord(x, (int)n, ask->parallel, &at, &slope);
        for (size_t i = 0; i < n; i++) {
            const double sd = ask->cells[i].capacity_sd_ah;
            x[i] = fmax(0.0, ask->cells[i].capacity_ah - lot->z * slope * sd * sd);
        }
        qsort(x, n, sizeof *x, falling_number);
        out->guaranteed_bound_ah = fmin(out->bound_ah, bound_of(x, m, groups, ask->parallel) - lot->z * at);
    }
    arena->used = used;
    return true;
}
