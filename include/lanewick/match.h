/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Placing tested cells in the series groups of packs. In order: the weakest group as strong as possible, then the
 * groups alike, then cells of like resistance in a group, then few markings in a group. Charge counts in whole
 * microampere-hours, ties go by id: the same cells give the same groups on any machine. docs/models/pack-matching.md.
 *
 * Refused (LW_REFUSED): a cell whose verdict is scrap, unsure or untested; voltage classes mixed; a class unknown.
 */
#ifndef LANEWICK_MATCH_H
#define LANEWICK_MATCH_H

#include "lanewick/arena.h"
#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

enum { LW_MATCH_MAX_CELLS = 200000 };

typedef struct lw_lot_cell {
    const char *id;
    double capacity_ah;        /* > 0 */
    double capacity_sd_ah;     /* standard uncertainty; 0: not known */
    double resistance_mohm;    /* 0: not known */
    const char *voltage_class; /* 4v2, 4v35, lfp, unknown; "" not told */
    const char *verdict;       /* sound, tired, unsure, scrap, untested; "" not told */
    const char *marking;       /* "" not told */
} lw_lot_cell;

typedef struct lw_match_ask {
    const lw_lot_cell *cells;
    size_t n;
    int series;           /* groups in series of one pack */
    int packs;            /* built at once, 1 or more */
    int parallel;         /* cells of every group; 0: free counts */
    double confidence;    /* of the guaranteed capacity, 0.5..0.999; counts only where cells carry an uncertainty */
    double tolerance_pct; /* of the weakest group that may be given up for like resistances; 0: nothing */
    uint64_t seed;
} lw_match_ask;

typedef struct lw_match {
    int groups;                  /* series * packs; group g belongs to pack g / series */
    int *group;                  /* [n] group of each cell, -1 left out */
    double *capacity_ah;         /* [groups] sum of the stated capacities */
    double *guaranteed_ah;       /* [groups] reached with the confidence: sum - z sqrt(sum of sd^2); NULL without sd */
    double *group_mohm;          /* [groups] cells in parallel; 0 when one is not known */
    double weakest_ah, bound_ah; /* smallest of capacity_ah; no placing can pass the bound */
    double guaranteed_weakest_ah, guaranteed_bound_ah; /* 0 without sd */
    double spread_pct;                                 /* (strongest - weakest) / mean of capacity_ah */
    double resistance_spread_pct; /* greatest (max - min) / mean inside a group, 0 when not known */
    int used, left_out;
    bool proven; /* the weakest group (in what was optimised) is proven the strongest possible */
} lw_match;

/* Arena: about 200 bytes a cell and 1.2 MB. */
LW_MUST_CHECK bool lw_match_cells(const lw_match_ask *ask, lw_arena *arena, lw_match *out, lw_error *err);

/* The most packs of series groups with at least need_ah each (at the confidence, where cells carry an uncertainty). */
typedef struct lw_count {
    int packs, upper_bound; /* no placing gives more packs than the bound */
    lw_match match;         /* of the packs found; packs = 0: match.groups = 0 */
} lw_count;
LW_MUST_CHECK bool lw_count_packs(const lw_match_ask *ask, double need_ah, lw_arena *arena, lw_count *out,
                                  lw_error *err);

#endif
