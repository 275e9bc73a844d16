/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cells as numbers to divide: inner steps of matching and counting.
 */
#ifndef LANEWICK_LOT_H
#define LANEWICK_LOT_H

#include "lanewick/match.h"
#include "partition.h"

/* The cells in falling order of worth; ties by id. */
typedef struct lw_lot {
    const lw_match_ask *ask;
    int n;
    int *cell;       /* [n] place in ask->cells */
    int64_t *worth;  /* [n] what is divided: capacity, less the cell's share of the margin for uncertainty [units] */
    int64_t unit;    /* uAh that divide every worth: readings rounded to mAh are divided as mAh */
    double fixed_ah; /* margin of a group that no choice of cells changes */
    bool uncertain;  /* some cell carries an uncertainty */
    double z;        /* deviations of the confidence */
} lw_lot;

/* Checks and refusals. */
LW_MUST_CHECK bool lw_lot_check(const lw_match_ask *ask, lw_error *err);
/* Orders the cells for groups in which usual_group cells stand (may be a fraction). */
LW_MUST_CHECK bool lw_lot_make(const lw_match_ask *ask, double usual_group, lw_arena *arena, lw_lot *lot,
                               lw_error *err);
int64_t lw_uah(double ah);

/* Capacity that a group of these sums reaches with the confidence. */
double lw_lot_guaranteed(const lw_lot *lot, double sum_ah, double variance);

/* Fills the result from group[] of the lot's order (-1 left out). */
LW_MUST_CHECK bool lw_match_fill(const lw_lot *lot, const int *group, int groups, lw_arena *arena, lw_match *out,
                                 lw_error *err);
/* Bounds on the weakest group. */
LW_MUST_CHECK bool lw_match_bounds(const lw_match_ask *ask, const lw_lot *lot, int groups, lw_arena *arena,
                                   lw_match *out, lw_error *err);

/* Takes out of every group what it can spare and still hold floor. group[]: of the lot's order. */
void lw_lot_trim(const lw_lot *lot, int *group, int64_t *sum, int *count, int64_t floor);

/* Exchanges of cells that leave the groups as strong as they are (within the tolerance) and make resistances inside
 * them more alike, then markings fewer. Cells left out take part. */
LW_MUST_CHECK bool lw_match_ties(const lw_lot *lot, int *group, int groups, lw_arena *arena, lw_error *err);

#endif
