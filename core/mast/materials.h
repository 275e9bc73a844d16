/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The materials of masts, one a file.
 */
#ifndef LANEWICK_MATERIALS_H
#define LANEWICK_MATERIALS_H

#include "lanewick/mast.h"

extern const lw_mast_material lw_mast_steel, lw_mast_steel_unmarked;
extern const lw_mast_material lw_mast_aluminium;
extern const lw_mast_material lw_mast_pvc;
extern const lw_mast_material lw_mast_timber, lw_mast_timber_c24, lw_mast_timber_c30;
extern const lw_mast_material lw_mast_bamboo;

#endif
