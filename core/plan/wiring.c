/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wires and fuse of a planned lamp: see lanewick/wiring.h.
 */
#include "lanewick/wiring.h"

#include "lanewick/charging.h"
#include "lanewick/fuse.h"
#include "lanewick/lamp_build.h"
#include "lanewick/wire.h"

#include <math.h>

static const double box_c = LW_BOX_C, mast_c = LW_MAST_C;
static const double pack_lead_m = 0.5, mast_lead_m = 5.0;

/* Into the pack in full sun: a tracking charger passes power, the others the panel's current. */
static double charge_current_a(const lw_shelf *shelf, const lw_design *design, double pack_v)
{
    const lw_shelf_panel *panel = &shelf->panel[design->panel];
    const lw_shelf_charger *charger = &shelf->charger[design->charger];
    const double sun_a = charger->kind == LW_SHELF_TRACKING
                             ? charger->efficiency * design->panels * panel->watts / pack_v
                             : design->panels * panel->isc_a;
    return fmin(sun_a, charger->most_a);
}

/* 3 % at most, 1.25 times Isc without harm (IEC 60364-7-712, from memory: no fuse guards it), and no more resistance at
 * 20 degC than the nights were computed with (build.wire_ohm). */
static double panel_lead_mm2(const lw_brief *brief, const lw_design *design)
{
    const lw_shelf_panel *panel = &brief->shelf.panel[design->panel];
    const double amps = design->panels * panel->isc_a;
    const double by_drop = lw_wire_section_mm2(mast_lead_m, 1.25 * amps, 1.25 * 0.03 * panel->vmp_v, mast_c);
    return fmax(by_drop, lw_wire_section_mm2(mast_lead_m, amps, brief->build.wire_ohm * amps, 20.0));
}

/* The thinnest head lead through which a short of the head still drives two and a half times the fuse (common
 * practice), so that fuse or board ends it; 0 when the pack alone cannot, which the lamp's circuit then refuses. */
static double short_lead_mm2(const lw_design *design, const lw_shelf_cell *cell, double full_v, const lw_wiring *w)
{
    static const double board_and_joints_ohm = 0.15;
    const double pack_ohm = design->series * cell->resistance_ohm / design->parallel;
    const double room_ohm = full_v / (2.5 * w->fuse_a) - pack_ohm - board_and_joints_ohm;
    return room_ohm > 0.0 ? lw_wire_section_mm2(mast_lead_m, w->head_a, room_ohm * w->head_a, mast_c) : 0.0;
}

/* The thinnest lead that the fuse guards. */
static double guarded_mm2(double fuse_a)
{
    return lw_wire_section_mm2(mast_lead_m, fuse_a, LW_ELV_LIMIT_V, box_c);
}

/* Blade fuses as they are sold (ISO 8820-3, from memory); 0 beyond them. */
static double blade_at_least_a(double amps)
{
    static const double blades_a[] = {1.0, 2.0, 3.0, 4.0, 5.0, 7.5, 10.0, 15.0, 20.0, 25.0, 30.0};
    for (size_t i = 0; i < sizeof blades_a / sizeof blades_a[0]; i++)
        if (blades_a[i] >= amps)
            return blades_a[i];
    return 0.0;
}

bool lw_plan_wiring(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design, lw_wiring *out,
                    lw_error *err)
{
    const lw_shelf *shelf = &brief->shelf;
    const lw_shelf_cell *cell = &shelf->cell[design->cell];
    const lw_charge_limits limits = lw_charge_limits_for(lw_charge_class_of(cell), false, 0.0);
    const double empty_v = design->series * limits.empty_v, full_v = design->series * limits.full_v;
    const double driver = fmax(0.5, shelf->driver[design->driver].efficiency);
    double watts = lamp->head_w / driver;
    for (size_t i = 0; i < lamp->load_count; i++)
        watts += lamp->load[i].power_w;
    out->night_a = watts / empty_v;
    out->charge_a = charge_current_a(shelf, design, empty_v);
    out->short_a = design->parallel * limits.full_v / fmax(cell->resistance_ohm, 0.005);
    const double most_a = fmax(out->night_a, out->charge_a);
    lw_head_board board;
    const bool worked = lw_head_board_of(brief, lamp, design, &board, NULL);
    out->head_a = worked ? board.strings * board.led_a : lamp->head_w / driver / empty_v;
    out->head_mm2 = lw_wire_section_mm2(mast_lead_m, out->head_a, 0.03 * (worked ? board.string_v : empty_v), mast_c);
    out->panel_mm2 = panel_lead_mm2(brief, design);
    /* the leads must also carry what the fuse lets through for ever */
    out->fuse_a = blade_at_least_a(1.25 * most_a / lw_fuse_derating(box_c));
    out->pack_mm2 = lw_wire_section_mm2(pack_lead_m, fmax(out->fuse_a, most_a), 0.01 * full_v, box_c);
    if (out->fuse_a > 0.0)
        out->head_mm2 = fmax(out->head_mm2, fmax(short_lead_mm2(design, cell, full_v, out), guarded_mm2(out->fuse_a)));
    lw_fuse_choice choice;
    if (!lw_fuse_choose(most_a, box_c, out->pack_mm2, &choice, err))
        return false;
    return (out->fuse_a > 0.0 && out->fuse_a <= choice.wire_a) ||
           lw_fail(err, LW_REFUSED, "fuse", "No blade fuse from %.3g A fits a lead that carries %.3g A.",
                   choice.least_a, choice.wire_a);
}
