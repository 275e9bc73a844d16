/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dusk switch and charge limits of a planned lamp: see lanewick/lamp_build.h.
 */
#include "lanewick/lamp_build.h"

#include "lanewick/eseries.h"

#include <math.h>

enum { DRAWS = 2000 };

static lw_charge_class class_of(const lw_brief *brief, const lw_design *design)
{
    return brief->shelf.cell[design->cell].voltage_class == LW_SHELF_LFP ? LW_CHARGE_LFP : LW_CHARGE_4V2;
}

bool lw_dusk_board_of(const lw_brief *brief, const lw_design *design, lw_arena *scratch, lw_dusk_board *out,
                      lw_error *err)
{
    const lw_charge_limits limits = lw_charge_limits_for(class_of(brief, design), false, 0.0);
    double low, high;
    *out = (lw_dusk_board){.r10_ohm = 15e3, .gamma = 0.6, .r1_ohm = 100e3, .r2_ohm = 100e3, .r3_ohm = 220e3};
    out->wanted_lx = fmin(lw_sun_lux(brief->want.dusk_sun_deg, 1.0), 300.0);
    lw_comparator_levels(out->r1_ohm, out->r2_ohm, out->r3_ohm, &low, &high);
    out->resistor_ohm = lw_eseries_round(lw_ldr_ohm(out->r10_ohm, out->gamma, out->wanted_lx) * low / (1.0 - low),
                                         LW_E12, LW_ROUND_NEAREST);
    out->pack_v = design->series * (class_of(brief, design) == LW_CHARGE_LFP ? 3.28 : 3.70);
    out->on_v = low * out->pack_v;
    out->off_v = high * out->pack_v;
    const lw_dusk_parts parts = {.r10_low_ohm = 10e3,
                                 .r10_high_ohm = 20e3,
                                 .gamma_low = 0.5,
                                 .gamma_high = 0.7,
                                 .resistor_ohm = out->resistor_ohm,
                                 .r1_ohm = out->r1_ohm,
                                 .r2_ohm = out->r2_ohm,
                                 .r3_ohm = out->r3_ohm,
                                 .tolerance = 0.05,
                                 .offset = 0.005 / (design->series * limits.empty_v)};
    return lw_dusk_tolerance(&parts, DRAWS, 1, scratch, &out->on, &out->off, err);
}

lw_charge_card lw_charge_card_of(const lw_brief *brief, const lw_design *design)
{
    const lw_shelf_charger *charger = &brief->shelf.charger[design->charger];
    lw_charge_card card = {.series = design->series,
                           .cell = lw_charge_limits_for(class_of(brief, design), false, 0.01),
                           .cold_stop_c = charger->cold_stop_c,
                           .hot_stop_c = charger->hot_stop_c,
                           .ice_ohm = lw_thermistor_ohm(10e3, 3950.0, 0.0),
                           .room_ohm = lw_thermistor_ohm(10e3, 3950.0, 25.0),
                           .hot_ohm = lw_thermistor_ohm(10e3, 3950.0, 45.0)};
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
    out->has_dusk = lw_dusk_board_of(brief, &kind->design, scratch, &out->dusk, NULL);
    out->charge = lw_charge_card_of(brief, &kind->design);
    scratch->used = used;
}
