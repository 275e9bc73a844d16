/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What hangs on a mast, as the column sees it: see mast_weights.h.
 */
#include "mast_weights.h"
#include "lanewick/units.h"

static const double panel_aside_m = 0.05; /* at least: bracket and frame (common practice) */

void lw_mast_weigh(const lw_mast_wish *wish, double from_m, lw_mast_load *load)
{
    const lw_mast_part *const parts[] = {&wish->panel, &wish->box, &wish->head};
    const double aside_m[] = {panel_aside_m, 0.0, wish->head_arm_m};
    load->weight_kg = load->column_kg = load->lean_nm = load->standing_nm = 0.0;
    for (int i = 0; i < 3; i++) {
        const double up_m = parts[i]->height_m - from_m, weight_n = lw_gravity_m_s2 * parts[i]->kg;
        if (up_m <= 0.0)
            continue;
        load->weight_kg += parts[i]->kg;
        load->column_kg += parts[i]->kg * lw_column_share(up_m, load->height_m);
        load->lean_nm += lw_mast_lean * weight_n * up_m;
        load->standing_nm += weight_n * aside_m[i];
    }
}
