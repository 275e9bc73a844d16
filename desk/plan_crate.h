/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lists of tested cells on the shelf of a brief, and the packs that they make.
 */
#ifndef LANEWICK_PLAN_CRATE_H
#define LANEWICK_PLAN_CRATE_H

#include "plan_work.h"

typedef struct lw_crates lw_crates;

/* Reads the lists that shelf.cells[] names and puts count, capacity and resistance into the brief; what may not be
 * used is told in plan->left_out. NULL on error; lw_crates_free(). */
lw_crates *lw_crates_read(const char *folder, lw_plan *plan, lw_error *err);
void lw_crates_free(lw_crates *crates);

/* Packs of the very cells for the chosen lamps, and the outcome of each design anew. */
LW_MUST_CHECK bool lw_work_real_packs(lw_plan_work *work, lw_crates *crates, lw_error *err);

#endif
