/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the stages of this room share.
 */
#ifndef LANEWICK_PLAN_DESIGN_H
#define LANEWICK_PLAN_DESIGN_H

#include "lanewick/cell_class.h"
#include "lanewick/plan.h"

/* NULL for cells of unknown class. */
const lw_cell_class *lw_shelf_cell_class(const lw_shelf_cell *cell);

#endif
