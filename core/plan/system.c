/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From a brief and a design to the electrical system that the night simulation runs. See lanewick/plan.h.
 */
#include "lanewick/lamp_build.h"

#include "lanewick/ageing.h"
#include "lanewick/stats.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Typical loss of crystalline panels, per year of age (common practice 0.5..0.8 %). */
static const double panel_loss_per_year = 0.007;
/* Rest of what is always there: charger standby, self-discharge 3 % a month: core/power defaults. */

int lw_plan_spans(const lw_lamp_kind *lamp, bool trimmed, double least_late_level, lw_span out[LW_MAX_SPANS])
{
    int n = 0;
    if (trimmed && lamp->span_count == 1) {
        /* One level all night: the second half of the night is turned down. */
        const lw_span *whole = &lamp->span[0];
        const lw_moment middle = {LW_AT_NIGHT_SHARE, 0.5};
        out[n++] = (lw_span){whole->from, middle, whole->level};
        out[n++] = (lw_span){middle, whole->until, fmin(whole->level, least_late_level)};
        return n;
    }
    for (size_t i = 0; i < lamp->span_count; i++) {
        out[n] = lamp->span[i];
        if (trimmed && out[n].from.kind != LW_AT_DUSK && out[n].until.kind != LW_AT_DAWN)
            out[n].level = fmin(out[n].level, least_late_level);
        n++;
    }
    return n;
}

/* Of a switch that is part of the driver, one standard deviation at each end of the night (common practice). */
static const double driver_scatter_min = 4.0;

/* A switch made by hand: its longer burning, its draw. */
static void set_switch(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design, lw_load *load)
{
    const lw_switch_burn *burn = &lamp->burn;
    const bool lfp = brief->shelf.cell[design->cell].voltage_class == LW_SHELF_LFP;
    load->dusk_offset_min = -0.5 * burn->longer_min;
    load->dusk_scatter_min = 0.5 * burn->spread_min;
    load->standby_a += lamp->switch_standby_a[lfp][design->series];
}

static void set_load(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design, lw_load *load)
{
    static const lw_driver_kind kinds[] = {[LW_SHELF_CONSTANT_CURRENT] = LW_DRIVER_CONSTANT_CURRENT,
                                           [LW_SHELF_RESISTOR] = LW_DRIVER_RESISTOR,
                                           [LW_SHELF_BUCK] = LW_DRIVER_BUCK,
                                           [LW_SHELF_BOOST] = LW_DRIVER_BOOST};
    const lw_shelf_driver *driver = &brief->shelf.driver[design->driver];
    const lw_cell_class *class = lw_shelf_cell_class(&brief->shelf.cell[design->cell]);
    *load = lw_load_default();
    load->head_w = lamp->head_w;
    load->driver.kind = isnan(driver->head_v) ? LW_DRIVER_CONSTANT_POWER : kinds[driver->kind];
    load->driver.efficiency = driver->efficiency;
    load->driver.head_v = isnan(driver->head_v) ? 0.0 : driver->head_v;
    load->driver.dropout_v = 0.3;
    load->driver.reference_v = design->series * class->nominal_v;
    load->span_count = lw_plan_lamp_spans(brief, lamp, design->trimmed, load->spans);
    load->standby_a = driver->standby_a + brief->shelf.charger[design->charger].standby_a;
    load->other_count = (int)lamp->load_count;
    memcpy(load->others, lamp->load, lamp->load_count * sizeof lamp->load[0]);
    load->dusk_altitude_deg = brief->want.dusk_sun_deg;
    load->dusk_scatter_min = driver_scatter_min;
    if (brief->want.hand_switch)
        set_switch(brief, lamp, design, load);
    load->dim_count = brief->want.dims ? 1 : 0;
    load->dims[0] = brief->want.dim;
}

static void set_charger(const lw_shelf_charger *shelf, const lw_design *design, double wire_ohm, lw_charger *out)
{
    static const lw_charger_kind kinds[] = {[LW_SHELF_DIRECT] = LW_CHARGER_DIRECT,
                                            [LW_SHELF_LINEAR] = LW_CHARGER_LINEAR,
                                            [LW_SHELF_TRACKING] = LW_CHARGER_TRACKING};
    *out = lw_charger_default(kinds[shelf->kind]);
    out->blocking_v = shelf->drop_v;
    out->wire_ohm = wire_ohm;
    out->full_v = design->series * shelf->end_v_per_cell;
    out->most_a = isfinite(shelf->most_a) ? shelf->most_a : 0.0;
    out->efficiency = (lw_curve){.n = 1, .x = {0.0}, .y = {shelf->efficiency}};
    out->standby_w = 0.0; /* counted as current in the load */
    out->charge_cutoff = true;
    out->input_limit_v = shelf->most_input_v;
}

/* Groups as sorted cells leave them: their capacities lie at the expected places of a sample of the spread of group
 * sums (Blom 1958, Statistical Estimates and Transformed Beta-Variables), the weakest first. */
static void set_groups(const lw_shelf_cell *cell, const lw_design *design, lw_battery *battery)
{
    const double sd = cell->capacity_sd_pct / 100.0 / sqrt(design->parallel);
    for (int i = 0; i < design->series && design->series > 1; i++) {
        const double z = lw_normal_quantile((i + 1 - 0.375) / (design->series + 0.25));
        battery->groups[i].capacity_ah *= fmax(0.3, 1.0 + sd * z);
    }
}

static bool set_battery(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design, const lw_worn *worn,
                        lw_battery *out, lw_error *err)
{
    const lw_shelf_cell *cell = &brief->shelf.cell[design->cell];
    const lw_shelf_charger *charger = &brief->shelf.charger[design->charger];
    const lw_cell_class *class = lw_shelf_cell_class(cell);
    if (!lw_battery_pack(class, design->series, design->parallel, cell->capacity_ah, cell->resistance_ohm, out, err))
        return false;
    set_groups(cell, design, out);
    out->capacity_factor = worn->capacity_factor;
    out->resistance_factor = worn->resistance_factor;
    out->ceiling_v = charger->end_v_per_cell;
    const double board_v = design->board >= 0 ? brief->shelf.board[design->board].low_v : class->cutoff_v;
    out->cutoff_v = lw_design_cutoff_v(&brief->shelf, design);
    /* A driver's stop ends its light; what else is on the pack goes on down to the board. */
    out->others_cutoff_v = lamp->load_count > 0 && out->cutoff_v > board_v ? board_v : 0.0;
    /* A charger without a cut-off passes the limits only where the box model never leaves 0..45 degC. */
    out->charge_low_c = isnan(charger->cold_stop_c) ? 0.0 : fmax(0.0, charger->cold_stop_c);
    out->charge_high_c = isnan(charger->hot_stop_c) ? 45.0 : fmin(45.0, charger->hot_stop_c);
    return true;
}

static bool set_panel(const lw_brief *brief, const lw_design *design, double factor, lw_panel *out, lw_error *err)
{
    const lw_shelf_panel *panel = &brief->shelf.panel[design->panel];
    const lw_panel_label label = {panel->voc_v, panel->isc_a, panel->vmp_v, panel->imp_a, NAN, NAN, panel->cells};
    *out = lw_panel_default();
    out->kind = LW_PANEL_DIODE;
    out->parallel = design->panels;
    out->series = 1;
    out->factor = factor;
    out->clean_share = 1.0;
    out->dusty = brief->place.dust_loss_per_day > 0.0;
    out->dust = (lw_dust){brief->place.dust_loss_per_day, brief->place.dust_most_loss, brief->place.dust_wash_mm,
                          brief->place.dust_cleaned_days};
    lw_error why = {0};
    if (lw_panel_from_label(&label, &out->diode, &out->fit, &why))
        return true;
    return lw_fail(err, LW_WRONG_INPUT, "shelf.panels", "shelf.panels[%d] (%s): %s", design->panel + 1, panel->name,
                   why.message);
}

bool lw_plan_system(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design, const lw_worn *worn,
                    double tilt_deg, double facing_deg, lw_system *out, lw_error *err)
{
    const lw_build *build = &brief->build;
    *out = lw_system_default();
    (void)snprintf(out->name, sizeof out->name, "%.79s", lamp->name);
    out->plane.tilt_deg = tilt_deg;
    out->plane.facing_deg = facing_deg;
    out->facing_equator = false;
    out->plane.albedo = brief->place.albedo;
    out->plane.sky = LW_SKY_HAY_DAVIES;
    memcpy(out->plane.horizon_deg, brief->place.horizon_deg, sizeof out->plane.horizon_deg);
    set_load(brief, lamp, design, &out->load);
    set_charger(&brief->shelf.charger[design->charger], design, build->wire_ohm, &out->charger);
    out->box = lw_box_default();
    out->box.sunlit_m2 = build->box_sun_share * 0.04; /* what a box of 20 x 15 x 12 cm turns to the sun */
    out->box.absorptance = build->box_absorbs;
    const lw_shelf_cell *cell = &brief->shelf.cell[design->cell];
    out->tolerances = (lw_tolerances){.panel_pct = brief->shelf.panel[design->panel].tolerance_pct,
                                      .capacity_pct = cell->capacity_sd_pct / sqrt(design->parallel),
                                      .resistance_pct = 15.0 / sqrt(design->parallel),
                                      .load_pct = hypot(3.0, brief->want.hand_switch ? lamp->burn.load_pct : 0.0)};
    return set_battery(brief, lamp, design, worn, &out->battery, err) &&
           set_panel(brief, design, worn->panel_factor, &out->panel, err) && lw_system_check(out, err);
}

lw_worn lw_worn_after(const lw_cell_class *class, double ceiling_v, double health, const lw_nights_summary *life,
                      double year)
{
    const double age = fmax(0.0, year - 0.5), cycles = (double)life->full_cycles / 365.0;
    const double charge = (double)life->mean_charge_share * lw_ocv_charge(&class->ocv, ceiling_v);
    lw_worn worn = {1.0, 1.0, pow(1.0 - panel_loss_per_year, age)};
    const lw_stress stress = {.cell_c = (double)life->pack_mean_c,
                              .mean_v = lw_ocv_at(&class->ocv, charge),
                              .mean_charge = charge,
                              .cycle_mean_v = lw_ocv_at(&class->ocv, charge),
                              .depth = fmin(1.0, cycles),
                              .cycles_per_day = cycles,
                              .rate_per_h = fmin(0.5, cycles / 8.0)};
    lw_fade_ahead(class == &lw_class_lfp ? LW_AGEING_LFP : LW_AGEING_NMC, &stress, health, age, &worn.capacity_factor,
                  &worn.resistance_factor);
    return worn;
}

lw_worn lw_plan_worn(const lw_shelf *shelf, const lw_design *design, const lw_nights_summary *life, double year)
{
    const lw_shelf_cell *cell = &shelf->cell[design->cell];
    return lw_worn_after(lw_shelf_cell_class(cell), shelf->charger[design->charger].end_v_per_cell, cell->health, life,
                         year);
}
