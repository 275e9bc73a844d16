/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The list of materials, in the order of LW_MAST_MATERIAL_WORDS.
 */
#include "materials.h"

static const lw_mast_material *const materials[] = {
    &lw_mast_steel,  &lw_mast_steel_unmarked, &lw_mast_aluminium,  &lw_mast_pvc,
    &lw_mast_timber, &lw_mast_timber_c24,     &lw_mast_timber_c30, &lw_mast_bamboo,
};

const lw_mast_material *lw_mast_material_at(size_t place)
{
    return place < sizeof materials / sizeof materials[0] ? materials[place] : NULL;
}
