/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lists of tested cells on the shelf of a brief, and the packs that they make.
 */
#ifndef LANEWICK_PLAN_CRATE_H
#define LANEWICK_PLAN_CRATE_H

#include "plan_work.h"

#include "lanewick/match.h"

typedef struct lw_crates lw_crates;

/* Reads the lists that shelf.cells[] names or holds and puts count, capacity and resistance into the brief; what may
 * not be used is told in plan->left_out. NULL on error; lw_crates_free(). */
lw_crates *lw_crates_read(const lw_plan_request *request, lw_plan *plan, lw_error *err);
void lw_crates_free(lw_crates *crates);

/* Divides each list into so many grades of like number, strongest cells first, each an entry of the shelf: lamps of
 * strong cells need fewer of them than lamps of a mixture. false: no list is long enough, or the shelf is full. */
bool lw_crates_grade(lw_crates *crates, lw_plan *plan, int grades);
/* A lamp that is short of cells: how many of it there should be, and what each group of its pack needs. */
typedef struct lw_need {
    int cell; /* entry of the shelf as it is graded now */
    int series, most_parallel, lamps;
    double group_ah;
} lw_need;
/* Grades of the crate, each of lamps with as many cells in a group as its mean strength asks for, that make the most
 * such lamps (*lamps). */
bool lw_crates_grade_for(lw_crates *crates, lw_plan *plan, const lw_need *need, int *lamps);
/* Where a lamp misses the wish with its real pack, the shelf's cells become as strong as its weakest group has them.
 * false: the packs are as strong as was thought. */
bool lw_crates_as_packed(const lw_crates *crates, lw_plan *plan);

/* The cells of an entry of the shelf as it is graded now; n = 0: not listed. */
typedef struct lw_grade {
    lw_arena *arena; /* with room for matching */
    const lw_lot_cell *cells;
    size_t n;
} lw_grade;
lw_grade lw_crates_of(lw_crates *crates, int cell);

/* Packs of the very cells for the chosen lamps, and the outcome of each design anew. */
LW_MUST_CHECK bool lw_work_real_packs(lw_plan_work *work, lw_crates *crates, lw_error *err);

/* Sizes and packs for all lamps, so that as many as possible keep the wish: the plan's kinds and packs. */
LW_MUST_CHECK bool lw_work_light_most(lw_plan_work *work, lw_crates *crates, lw_error *err);

#endif
