/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dusk switch and charge limits of a planned lamp: see lanewick/lamp_build.h.
 */
#include "lanewick/lamp_build.h"

#include <math.h>

lw_charge_class lw_charge_class_of(const lw_shelf_cell *cell)
{
    return cell->voltage_class == LW_SHELF_LFP ? LW_CHARGE_LFP : LW_CHARGE_4V2;
}

lw_charge_card lw_charge_card_of(const lw_brief *brief, const lw_design *design)
{
    const lw_shelf_charger *charger = &brief->shelf.charger[design->charger];
    lw_charge_card card = {.series = design->series,
                           .cell =
                               lw_charge_limits_for(lw_charge_class_of(&brief->shelf.cell[design->cell]), false, 0.01),
                           .cold_stop_c = charger->cold_stop_c,
                           .hot_stop_c = charger->hot_stop_c,
                           .ice_ohm = lw_thermistor_ohm(10e3, 3950.0, 0.0),
                           .room_ohm = lw_thermistor_ohm(10e3, 3950.0, 25.0),
                           .hot_ohm = lw_thermistor_ohm(10e3, 3950.0, 45.0)};
    lw_charge_limits_end_at(&card.cell, lw_design_cutoff_v(&brief->shelf, design));
    if (!isnan(charger->end_v_per_cell)) {
        card.cell.recharge_v += charger->end_v_per_cell - card.cell.full_v;
        card.cell.full_v = charger->end_v_per_cell;
        card.cell.full_worst_v = fmin(1.01 * charger->end_v_per_cell, card.cell.hard_v);
    }
    return card;
}

void lw_lamp_build_of(const lw_plan *plan, const lw_plan_kind *kind, lw_arena *scratch, lw_lamp_build *out)
{
    const lw_brief *brief = &plan->brief;
    const lw_lamp_kind *lamp = &brief->want.lamp[kind->kind];
    const size_t used = scratch->used;
    *out = (lw_lamp_build){0};
    out->has_head = lw_head_board_of(brief, lamp, &kind->design, &out->head, NULL);
    out->has_wiring = lw_plan_wiring(brief, lamp, &kind->design, &out->wiring, NULL);
    out->has_dusk = lw_dusk_board_of(brief, lamp, &kind->design, scratch, &out->dusk, NULL);
    out->charge = lw_charge_card_of(brief, &kind->design);
    out->rest = lw_pack_rest_of(brief, kind);
    scratch->used = used;
}
