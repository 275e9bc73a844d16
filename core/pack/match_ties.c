/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Like resistances in a group, where it costs no strength: two cells of equal worth (or, within the tolerance, nearly
 * equal) change places when the squared differences of resistance inside the two groups get smaller, or stay and a
 * group has fewer markings. With R the sum and n the count of a group, that is when the sum of R^2 / n grows.
 */
#include "lot.h"

#include <math.h>
#include <string.h>

enum { REACH = 64, ROUNDS = 20 };

typedef struct ties {
    const lw_lot *lot;
    int *group;
    int *count;
    int64_t *sum, low, high; /* sums and the limits they must keep */
    double *ohm;             /* sum of resistances */
} ties;

static const lw_lot_cell *cell(const ties *t, int i)
{
    return &t->lot->ask->cells[t->lot->cell[i]];
}

static double share(double sum, int count)
{
    return sum * sum / count;
}

/* Gain in likeness when cells i and j change places; j may be left out (group -1). */
static double gain(const ties *t, int i, int j)
{
    const int g = t->group[i], h = t->group[j];
    const double d = cell(t, j)->resistance_mohm - cell(t, i)->resistance_mohm;
    if (h < 0) { /* squared distance from the others of the group, before and after */
        const int others = t->count[g] - 1;
        if (others == 0)
            return 0.0;
        const double mean = (t->ohm[g] - cell(t, i)->resistance_mohm) / others;
        const double was = cell(t, i)->resistance_mohm - mean, is = cell(t, j)->resistance_mohm - mean;
        return was * was - is * is;
    }
    return share(t->ohm[g] + d, t->count[g]) - share(t->ohm[g], t->count[g]) + share(t->ohm[h] - d, t->count[h]) -
           share(t->ohm[h], t->count[h]);
}

static bool allowed(const ties *t, int i, int j)
{
    const int g = t->group[i], h = t->group[j];
    const int64_t d = t->lot->worth[j] - t->lot->worth[i];
    const int64_t a = t->sum[g] + d, b = h < 0 ? t->low : t->sum[h] - d;
    return d == 0 || (a >= t->low && a <= t->high && b >= t->low && b <= t->high);
}

/* Cells of i's marking in group g, without cell i itself. */
static int same_marking(const ties *t, int i, int g, int but)
{
    int count = 0;
    for (int k = 0; k < t->lot->n; k++)
        count += t->group[k] == g && k != i && k != but && strcmp(cell(t, k)->marking, cell(t, i)->marking) == 0;
    return count;
}

/* Would the exchange bring each cell to more of its own marking? Asked only when resistances do not care. */
static bool fewer_markings(const ties *t, int i, int j)
{
    const int g = t->group[i], h = t->group[j];
    if (h < 0 || strcmp(cell(t, i)->marking, cell(t, j)->marking) == 0)
        return false;
    const int now = (same_marking(t, i, g, j) == 0) + (same_marking(t, j, h, i) == 0);
    const int then = (same_marking(t, i, h, j) == 0) + (same_marking(t, j, g, i) == 0);
    return then < now;
}

static void exchange(ties *t, int i, int j)
{
    const int g = t->group[i], h = t->group[j];
    const double d = cell(t, j)->resistance_mohm - cell(t, i)->resistance_mohm;
    const int64_t worth = t->lot->worth[j] - t->lot->worth[i];
    t->group[i] = h;
    t->group[j] = g;
    t->sum[g] += worth;
    t->ohm[g] += d;
    if (h >= 0) {
        t->sum[h] -= worth;
        t->ohm[h] -= d;
    }
}

static bool one_round(ties *t, int64_t window)
{
    bool changed = false;
    const int n = t->lot->n;
    for (int a = 0; a < n; a++)
        for (int b = a + 1; b < n && b - a <= REACH && t->lot->worth[a] - t->lot->worth[b] <= window; b++) {
            const int i = t->group[a] >= 0 ? a : b, j = i == a ? b : a;
            if (t->group[i] < 0 || t->group[i] == t->group[j] || !allowed(t, i, j))
                continue;
            const double more = gain(t, i, j);
            const double little = 1e-9 * (1.0 + t->ohm[t->group[i]]);
            if (more > little || (n <= 2000 && fabs(more) <= little && fewer_markings(t, i, j))) {
                exchange(t, i, j);
                changed = true;
            }
        }
    return changed;
}

bool lw_match_ties(const lw_lot *lot, int *group, int groups, lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used;
    ties t = {.lot = lot};
    t.group = group;
    t.count = lw_arena_take(arena, (size_t)groups, sizeof *t.count, err);
    t.sum = lw_arena_take(arena, (size_t)groups, sizeof *t.sum, err);
    t.ohm = lw_arena_take(arena, (size_t)groups, sizeof *t.ohm, err);
    if (!t.count || !t.sum || !t.ohm)
        return false;
    for (int i = 0; i < lot->n; i++) {
        if (group[i] < 0)
            continue;
        t.count[group[i]]++;
        t.sum[group[i]] += lot->worth[i];
        t.ohm[group[i]] += cell(&t, i)->resistance_mohm;
    }
    t.low = t.high = t.sum[0];
    for (int g = 1; g < groups; g++) {
        t.low = t.sum[g] < t.low ? t.sum[g] : t.low;
        t.high = t.sum[g] > t.high ? t.sum[g] : t.high;
    }
    const int64_t given = (int64_t)(lot->ask->tolerance_pct / 100.0 * (double)t.low);
    t.low -= given;
    t.high += given;
    for (int round = 0; round < ROUNDS && one_round(&t, given > 0 ? t.high - t.low : 0); round++)
        ;
    arena->used = used;
    return true;
}
