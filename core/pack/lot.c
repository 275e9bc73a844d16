/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cells as numbers to divide. A group of capacities with standard uncertainties reaches M - z sqrt(V) with the
 * confidence. This is not a sum over cells, but close to the usual variance of a group, Vm, it is:
 * M - z sqrt(V) >= sum of (m - z s^2 / (2 sqrt(Vm))) - z sqrt(Vm) / 2. So each cell is worth m - z s^2 / (2 sqrt(Vm)).
 */
#include "lot.h"

#include "lanewick/stats.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

int64_t lw_uah(double ah)
{
    return (int64_t)llround(ah * 1e6);
}

static bool refuse(lw_error *err, const char *field, const lw_lot_cell *cell, const char *why)
{
    return lw_fail(err, LW_REFUSED, field, "Cell %.40s %s", cell->id, why);
}

/* The same word, capitals or not. */
static bool same(const char *a, const char *b)
{
    while (*a && tolower((unsigned char)*a) == tolower((unsigned char)*b)) {
        a++;
        b++;
    }
    return *a == *b;
}

static bool check_verdict(const lw_lot_cell *cell, lw_error *err)
{
    const char *v = cell->verdict;
    if (!v[0] || same(v, "sound") || same(v, "tired"))
        return true;
    if (same(v, "scrap"))
        return refuse(err, "verdict", cell, "is scrap; take it out of the list: no pack may hold it.");
    if (same(v, "unsure") || same(v, "untested"))
        return refuse(err, "verdict", cell, "is not yet judged; finish its tests or take it out of the list.");
    return lw_fail(err, LW_WRONG_INPUT, "verdict",
                   "Cell %.40s has the verdict \"%.20s\"; it must be sound, tired, unsure, scrap or untested.",
                   cell->id, v);
}

static bool check_class(const lw_match_ask *ask, const lw_lot_cell *cell, lw_error *err)
{
    const char *first = ask->cells[0].voltage_class, *class = cell->voltage_class;
    const bool known = !class[0] || same(class, "4v2") || same(class, "4v35") || same(class, "lfp");
    if (same(class, "unknown"))
        return refuse(err, "voltage_class", cell, "is of unknown voltage class; no pack may hold it.");
    if (!known)
        return lw_fail(err, LW_WRONG_INPUT, "voltage_class",
                       "Cell %.40s has the voltage class \"%.20s\"; it must be 4v2, 4v35, lfp or unknown.", cell->id,
                       class);
    if (!same(first, class))
        return lw_fail(
            err, LW_REFUSED, "voltage_class",
            "Voltage classes are mixed: %.40s is \"%.10s\", %.40s is \"%.10s\". A pack holds one class only; "
            "match each class by itself.",
            ask->cells[0].id, first[0] ? first : "not told", cell->id, class[0] ? class : "not told");
    return true;
}

static bool check_cell(const lw_match_ask *ask, const lw_lot_cell *cell, lw_error *err)
{
    if (!(cell->capacity_ah >= 1e-6 && cell->capacity_ah <= 1e7))
        return lw_fail(err, LW_WRONG_INPUT, "capacity_ah",
                       "Cell %.40s has a capacity of %g Ah; it must be more than 0.", cell->id, cell->capacity_ah);
    if (!(cell->capacity_sd_ah >= 0.0 && cell->capacity_sd_ah <= 1e7))
        return lw_fail(err, LW_WRONG_INPUT, "capacity_sd_ah", "Cell %.40s: capacity_sd_ah is %g; it must be 0 or more.",
                       cell->id, cell->capacity_sd_ah);
    if (!(cell->resistance_mohm >= 0.0 && cell->resistance_mohm <= 1e6))
        return lw_fail(err, LW_WRONG_INPUT, "resistance_mohm",
                       "Cell %.40s: resistance_mohm is %g; it must be 0 or more.", cell->id, cell->resistance_mohm);
    return check_verdict(cell, err) && check_class(ask, cell, err);
}

static bool check_wish(const lw_match_ask *ask, lw_error *err)
{
    if (ask->series < 1 || ask->series > 100000)
        return lw_fail(err, LW_WRONG_INPUT, "series", "series is %d; it must lie between 1 and 100000.", ask->series);
    if (ask->parallel < 0 || ask->packs < 1)
        return lw_fail(err, LW_WRONG_INPUT, ask->packs < 1 ? "packs" : "parallel",
                       "parallel is %d and packs is %d; give whole numbers from 1.", ask->parallel, ask->packs);
    return lw_in_range(err, "confidence", ask->confidence, 0.5, 0.999, "") &&
           lw_in_range(err, "tolerance", ask->tolerance_pct, 0.0, 10.0, "%");
}

bool lw_lot_check(const lw_match_ask *ask, lw_error *err)
{
    if (ask->n == 0)
        return lw_fail(err, LW_WRONG_INPUT, "cells", "There are no cells.");
    if (ask->n > LW_MATCH_MAX_CELLS)
        return lw_fail(err, LW_WRONG_INPUT, "cells", "There are %zu cells; the most at once is %d.", ask->n,
                       LW_MATCH_MAX_CELLS);
    if (!check_wish(ask, err))
        return false;
    for (size_t i = 0; i < ask->n; i++)
        if (!check_cell(ask, &ask->cells[i], err))
            return false;
    return true;
}

typedef struct ranked {
    int64_t worth;
    const char *id;
    int cell;
} ranked;

static int by_worth(const void *a, const void *b)
{
    const ranked *x = a, *y = b;
    if (x->worth != y->worth)
        return x->worth < y->worth ? 1 : -1;
    const int ids = strcmp(x->id, y->id);
    return ids ? ids : x->cell - y->cell;
}

/* The greatest number that divides all (Euclid), at least 1. */
static int64_t common_unit(const int64_t *x, int n)
{
    int64_t unit = 0;
    for (int i = 0; i < n && unit != 1; i++) {
        int64_t a = x[i];
        while (a != 0) {
            const int64_t rest = unit % a;
            unit = a;
            a = rest;
        }
    }
    return unit > 0 ? unit : 1;
}

bool lw_lot_make(const lw_match_ask *ask, double usual_group, lw_arena *arena, lw_lot *lot, lw_error *err)
{
    *lot = (lw_lot){.ask = ask, .n = (int)ask->n, .z = lw_normal_quantile(ask->confidence)};
    lot->cell = lw_arena_take(arena, ask->n, sizeof *lot->cell, err);
    lot->worth = lw_arena_take(arena, ask->n, sizeof *lot->worth, err);
    const size_t used = arena->used;
    ranked *all = lw_arena_take(arena, ask->n, sizeof *all, err);
    if (!lot->cell || !lot->worth || !all)
        return false;
    double variance = 0.0;
    for (size_t i = 0; i < ask->n; i++)
        variance += ask->cells[i].capacity_sd_ah * ask->cells[i].capacity_sd_ah;
    lot->uncertain = variance > 0.0;
    const double usual = sqrt(variance / (double)ask->n * usual_group);
    const double margin = lot->uncertain ? lot->z / (2.0 * usual) : 0.0;
    for (size_t i = 0; i < ask->n; i++) {
        const lw_lot_cell *cell = &ask->cells[i];
        const double worth = cell->capacity_ah - margin * cell->capacity_sd_ah * cell->capacity_sd_ah;
        all[i] = (ranked){worth > 0.0 ? lw_uah(worth) : 0, cell->id, (int)i};
    }
    qsort(all, ask->n, sizeof *all, by_worth);
    for (size_t i = 0; i < ask->n; i++) {
        lot->cell[i] = all[i].cell;
        lot->worth[i] = all[i].worth;
    }
    lot->fixed_ah = lot->uncertain ? 0.5 * lot->z * usual : 0.0;
    lot->unit = common_unit(lot->worth, lot->n);
    for (size_t i = 0; i < ask->n; i++)
        lot->worth[i] /= lot->unit;
    arena->used = used;
    return true;
}

double lw_lot_guaranteed(const lw_lot *lot, double sum_ah, double variance)
{
    return sum_ah - lot->z * sqrt(variance);
}

void lw_lot_trim(const lw_lot *lot, int *group, int64_t *sum, int *count, int64_t floor)
{
    for (int i = 0; i < lot->n; i++) { /* the most worthy spare cell first */
        const int g = group[i];
        if (g < 0 || count[g] < 2 || sum[g] - lot->worth[i] < floor)
            continue;
        group[i] = -1;
        sum[g] -= lot->worth[i];
        count[g]--;
    }
}
