/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The weights of a whole mast for its check as a column.
 */
#ifndef LANEWICK_MAST_WEIGHTS_H
#define LANEWICK_MAST_WEIGHTS_H

#include "lanewick/mast_check.h"

/* Fills weight_kg, column_kg, lean_nm and standing_nm of `load` with what hangs above `from_m`, seen from there;
 * load->height_m counts from there too. */
void lw_mast_weigh(const lw_mast_wish *wish, double from_m, lw_mast_load *load);

#endif
