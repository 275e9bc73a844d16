/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A planned lamp as one circuit, and its charging over the year: see lanewick/lamp_build.h.
 */
#include "lanewick/lamp_build.h"

#include "lanewick/led.h"

#include <math.h>

static const double panel_lead_m = 5.0, pack_lead_m = 0.5, head_lead_m = 5.0, board_ohm = 0.05;
static const double volts_per_k = 0.0034, panel_above_air_k = 28.0, shunt_ohm = 3000.0;

static void set_source(const lw_shelf *shelf, const lw_design *design, lw_lamp_circuit *out)
{
    const lw_shelf_panel *panel = &shelf->panel[design->panel];
    const lw_shelf_charger *charger = &shelf->charger[design->charger];
    const lw_shelf_cell *cell = &shelf->cell[design->cell];
    out->panel.cells = panel->cells;
    out->panel.voc_v = panel->voc_v;
    out->panel.vmp_v = panel->vmp_v;
    out->panel.isc_a = design->panels * panel->isc_a;
    out->panel.imp_a = design->panels * panel->imp_a;
    out->panel.shunt_ohm = shunt_ohm / design->panels;
    out->panel.blocking_diode = charger->kind == LW_SHELF_DIRECT && charger->drop_v >= 0.2;
    out->charger.switching = charger->kind == LW_SHELF_TRACKING;
    out->charger.limit_a = isfinite(charger->most_a) ? charger->most_a : 1.3 * out->panel.isc_a;
    /* the diode of a direct charger stands for itself */
    out->charger.dropout_v = fmax(0.05, out->panel.blocking_diode ? charger->drop_v - 0.35 : charger->drop_v);
    out->charger.efficiency = fmin(0.99, fmax(0.5, charger->efficiency));
    out->charger.tolerance_pct = 1.0;
    out->charger.end_v = isnan(charger->end_v_per_cell) ? 0.0 : charger->end_v_per_cell;
    out->pack.voltage_class = lw_charge_class_of(cell);
    out->pack.series = design->series;
    out->pack.parallel = design->parallel;
    out->pack.cell_ohm = fmax(0.002, cell->resistance_ohm);
}

static void set_head(const lw_shelf_driver *driver, const lw_head_board *head, double empty_v, lw_lamp_circuit *out)
{
    static const lw_head_driver drivers[] = {[LW_SHELF_CONSTANT_CURRENT] = LW_HEAD_LINEAR,
                                             [LW_SHELF_RESISTOR] = LW_HEAD_DIRECT,
                                             [LW_SHELF_BUCK] = LW_HEAD_BUCK,
                                             [LW_SHELF_BOOST] = LW_HEAD_BOOST};
    const lw_led led = lw_led_typical();
    out->head.strings = head->strings;
    out->head.leds = head->series;
    out->head.vf_v = head->string_v / head->series;
    out->head.led_a = head->led_a;
    out->head.led_max_a = fmax(head->rated_a, head->led_a);
    out->head.slope_ohm = led.slope_ohm;
    out->head.ballast_ohm = fmax(0.01, head->resistor_ohm);
    out->head.driver = drivers[driver->kind];
    out->head.driver_efficiency = fmin(0.99, fmax(0.3, driver->efficiency));
    out->head.driver_start_v = fmax(0.5, 0.9 * empty_v);
}

static void set_switch(const lw_brief *brief, const lw_dusk_board *dusk, lw_lamp_circuit *out)
{
    const lw_switch_parts *parts = &brief->shelf.switch_parts;
    const lw_switch_values *v = &dusk->values;
    out->dusk.r10_ohm = sqrt(parts->r10_low_ohm * parts->r10_high_ohm);
    out->dusk.gamma = 0.5 * (parts->gamma_low + parts->gamma_high);
    out->dusk.resistor_ohm = v->resistor_ohm;
    out->dusk.r1_ohm = v->r1_ohm;
    out->dusk.r2_ohm = v->r2_ohm;
    out->dusk.r3_ohm = v->r3_ohm;
    out->dusk.supply_ma = 1e3 * parts->supply_a;
    out->dusk.sensor = v->sensor;
    out->dusk.vbe_v = 0.5 * (parts->vbe_low_v + parts->vbe_high_v);
    out->dusk.gain = sqrt(parts->gain_low * parts->gain_high);
}

bool lw_plan_circuit_of(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design,
                        const lw_dusk_board *dusk, lw_lamp_circuit *out, lw_error *err)
{
    lw_head_board head;
    lw_wiring wiring;
    const lw_shelf *shelf = &brief->shelf;
    const double empty_v = lw_design_cutoff_v(shelf, design);
    if (!lw_head_board_of(brief, lamp, design, &head, err) || !lw_plan_wiring(brief, lamp, design, &wiring, err))
        return false;
    *out = lw_lamp_circuit_default();
    set_source(shelf, design, out);
    set_head(&shelf->driver[design->driver], &head, design->series * empty_v, out);
    out->pack.empty_v = empty_v;
    out->dusk.fet_gate_v = design->series == 1 ? 2.5 : 4.5; /* the types that their packs need */
    if (dusk->there)
        set_switch(brief, dusk, out);
    out->protection.board_ohm = board_ohm;
    out->protection.trip_a = fmax(2.0, 3.0 * fmax(wiring.night_a, wiring.charge_a));
    out->protection.fuse_a = wiring.fuse_a;
    out->protection.fuse_kind = LW_FUSE_BLADE;
    out->protection.reverse = brief->build.reverse;
    out->panel_wire = (lw_lamp_wire){panel_lead_m, wiring.panel_mm2};
    out->pack_wire = (lw_lamp_wire){pack_lead_m, wiring.pack_mm2};
    out->head_wire = (lw_lamp_wire){head_lead_m, wiring.head_mm2};
    return lw_lamp_circuit_check(out, err);
}

/* Current of the panel at v volts, its curve bent so that it passes its three label points shifted by warmth. */
static double panel_amps(const lw_shelf_panel *panel, double shift_v, double v)
{
    const double bend_v = (panel->voc_v - panel->vmp_v) / log(panel->isc_a / (panel->isc_a - panel->imp_a));
    const double amps = panel->isc_a - (panel->isc_a - panel->imp_a) * exp((v - shift_v - panel->vmp_v) / bend_v);
    return fmax(0.0, 0.9 * amps); /* 900 W/m2 */
}

static lw_charge_month month_of(const lw_brief *brief, const lw_climate *climate, const lw_design *design, int m)
{
    const lw_shelf_panel *panel = &brief->shelf.panel[design->panel];
    const lw_shelf_charger *charger = &brief->shelf.charger[design->charger];
    const lw_cell_class *class = lw_cell_class_find(lw_shelf_class_text(brief->shelf.cell[design->cell].voltage_class));
    const double cell_c = climate->t_mean_c[m] + 0.5 * climate->t_range_c[m] + panel_above_air_k;
    const double shift_v = -volts_per_k * panel->voc_v * (cell_c - 25.0);
    const double end_v = design->series * (isnan(charger->end_v_per_cell) ? 4.2 : charger->end_v_per_cell);
    lw_charge_month month = {.panel_v = panel->vmp_v + shift_v - charger->drop_v, .pack_v = end_v};
    if (charger->kind == LW_SHELF_TRACKING) {
        const double pack_v = design->series * (class ? class->nominal_v : 3.7);
        const double watts = 0.9 * panel->imp_a * (panel->vmp_v + shift_v);
        month.amps = charger->efficiency * design->panels * watts / pack_v;
    } else {
        month.amps = design->panels * panel_amps(panel, shift_v, end_v + charger->drop_v);
    }
    month.amps = fmin(month.amps, charger->most_a);
    return month;
}

lw_charge_year lw_charge_year_of(const lw_brief *brief, const lw_climate *climate, const lw_design *design)
{
    const lw_shelf *shelf = &brief->shelf;
    const lw_shelf_panel *panel = &shelf->panel[design->panel];
    const lw_shelf_charger *charger = &shelf->charger[design->charger];
    const lw_shelf_cell *cell = &shelf->cell[design->cell];
    const bool tracks = charger->kind == LW_SHELF_TRACKING;
    lw_charge_year year = {.fills = true,
                           .ice_ohm = lw_thermistor_ohm(10e3, 3950.0, 0.0),
                           .hot_ohm = lw_thermistor_ohm(10e3, 3950.0, 45.0),
                           .long_life_v = lw_charge_limits_for(lw_charge_class_of(cell), true, 0.0).full_v};
    for (int m = 0; m < 12; m++) {
        year.month[m] = month_of(brief, climate, design, m);
        /* a tracking charger turns the panel's volts into the pack's; below a third of them no common one does */
        const double need_v = tracks ? year.month[m].pack_v / 3.0 : year.month[m].pack_v;
        year.fills = year.fills && year.month[m].panel_v >= need_v;
    }
    /* without a diode the full pack feeds the old panel's shunt; with one, the diode's leak when warm */
    const bool open = charger->kind == LW_SHELF_DIRECT && charger->drop_v < 0.2;
    year.back_ma = open ? 1e3 * fmin(year.month[0].pack_v, 0.8 * panel->voc_v) * design->panels / shunt_ohm : 0.05;
    if (design->series > 1)
        year.bleed_h = 0.01 * design->parallel * cell->capacity_ah / 0.05;
    return year;
}
