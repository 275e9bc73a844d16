/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The base of a whole mast: depth of a buried foot, or the block, plate and bolts that hold it.
 */
#ifndef LANEWICK_MAST_BASE_H
#define LANEWICK_MAST_BASE_H

#include "lanewick/mast_check.h"

/* Needs bending, arm_m, lift_n and, for a plate, total_kg of the result. A base that does not hold is told by the
 * notes; LW_REFUSED: no depth holds, a plate under a pole that cannot be welded to it. */
LW_MUST_CHECK bool lw_mast_base(const lw_mast_wish *wish, lw_mast_result *out, lw_error *err);

#endif
