/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The packed open voltage curves (data/cells/README.md).
 */
#ifndef LANEWICK_CURVE_TABLE_H
#define LANEWICK_CURVE_TABLE_H

#include "lanewick/cell_test.h"

extern const lw_cell_curve lw_curve_nmc, lw_curve_lco, lw_curve_ni, lw_curve_lfp;

#endif
