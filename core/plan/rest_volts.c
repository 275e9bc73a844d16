/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The volts of a planned pack at dusk and at dawn: see lanewick/lamp_build.h.
 */
#include "lanewick/lamp_build.h"

#include <math.h>

lw_pack_rest lw_pack_rest_of(const lw_brief *brief, const lw_plan_kind *kind)
{
    const lw_design *design = &kind->design;
    const lw_ocv *ocv = &lw_shelf_cell_class(&brief->shelf.cell[design->cell])->ocv;
    const lw_charge_limits limits = lw_charge_card_of(brief, design).cell;
    const double full = lw_ocv_charge(ocv, limits.full_v), s = design->series;
    double least_wh = INFINITY, most_wh = 0.0;
    for (int m = 0; m < LW_MONTHS; m++) {
        least_wh = fmin(least_wh, kind->outcome.load_month_wh[m]);
        most_wh = fmax(most_wh, kind->outcome.load_month_wh[m]);
    }
    /* a night takes a fifth more or less than the mean: schedule, own switch, scatter of the cells (common practice) */
    least_wh *= 0.8;
    most_wh *= 1.2;
    /* parts of the charge with which charging ends, as the nights count it */
    const double whole_wh = full * lw_design_pack_wh(&brief->shelf, design);
    const double lowest = kind->outcome.lowest_charge_share;
    const double evening = fmin(1.0, lowest + most_wh / whole_wh);
    const double morning = fmax(lowest, 1.0 - least_wh / whole_wh);
    return (lw_pack_rest){.dusk_low_v = s * lw_ocv_at(ocv, full * evening),
                          .dusk_high_v = s * limits.full_worst_v,
                          .dawn_low_v = s * lw_ocv_at(ocv, full * lowest),
                          .dawn_high_v = s * lw_ocv_at(ocv, full * morning)};
}
