/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dusk switch, charge limits and mast of a planned lamp: see lanewick/lamp_build.h.
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

/* Weights and areas by common practice: 170 W and 12 kg a square metre of panel, 150 Wh a kilogram of cells, a box of
 * 0.3 x 0.35 m. */
static lw_mast_wish wish_of(const lw_brief *brief, const lw_design *design, double tilt_deg)
{
    const double area_m2 = lw_design_panel_w(&brief->shelf, design) / 170.0, height_m = 4.0;
    const double cells_kg = lw_design_pack_wh(&brief->shelf, design) / 150.0;
    lw_mast_wish wish = lw_mast_wish_default();
    wish.wind_given = true;
    wish.wind.label = LW_WIND_GUST_DESIGN;
    wish.wind.terrain = LW_EXPOSURE_D;
    wish.wind.speed_m_s = brief->place.gust_m_s;
    wish.height_m = height_m;
    wish.panel.area_m2 = area_m2;
    wish.panel.height_m = height_m + 0.2;
    wish.panel.kg = 12.0 * area_m2;
    wish.panel_width_m = sqrt(area_m2);
    wish.panel_tilt_deg = tilt_deg;
    wish.box.area_m2 = 0.105;
    wish.box.height_m = 2.6;
    wish.box.kg = 2.0 + cells_kg;
    wish.head.area_m2 = 0.04;
    wish.head.height_m = height_m - 0.35;
    wish.head.kg = 0.8;
    wish.head_arm_m = 0.5;
    wish.pipe = (lw_tube){42.4, 2.6};
    wish.soil_pa_per_m = 23560.0;
    wish.age_years = brief->want.planned_years;
    wish.hole_mm = 10.0;
    return wish;
}

bool lw_lamp_mast_of(const lw_brief *brief, const lw_design *design, double tilt_deg, lw_mast_wish *wish,
                     lw_mast_result *out)
{
    static const lw_tube tubes[] = {{42.4, 2.6}, {48.3, 3.2},  {60.3, 3.2},  {76.1, 3.2},
                                    {88.9, 3.2}, {114.3, 3.6}, {139.7, 4.0}, {168.3, 4.5}};
    if (isnan(brief->place.gust_m_s))
        return false;
    *wish = wish_of(brief, design, tilt_deg);
    for (size_t i = 0; i < sizeof tubes / sizeof tubes[0]; i++) {
        wish->pipe = tubes[i];
        wish->collar_m = 0.3 + tubes[i].diameter_mm / 1000.0;
        if (lw_mast_check(wish, out, NULL) && (out->verdict == LW_MAST_STANDS || out->verdict == LW_MAST_ENGINEER))
            return true;
    }
    return false;
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
    out->mast_stands = lw_lamp_mast_of(brief, &kind->design, plan->tilt_deg, &out->mast_wish, &out->mast);
    scratch->used = used;
}
