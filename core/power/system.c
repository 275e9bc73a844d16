/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A whole system: usual values, and the checks that need more than one part.
 */
#include "lanewick/system.h"

#include <math.h>
#include <stdio.h>

lw_system lw_system_default(void)
{
    return (lw_system){.name = "lamp",
                       .sun_method = LW_SUN_ALMANAC,
                       .plane = lw_plane_default(0.0),
                       .facing_equator = true,
                       .panel = lw_panel_default(),
                       .charger = lw_charger_default(LW_CHARGER_TRACKING),
                       .battery = lw_battery_bucket(0.0),
                       .box = lw_box_default(),
                       .load = lw_load_default(),
                       .dark_limit = 0.01,
                       .steps_per_hour = 1};
}

static bool check_panel(const lw_panel *p, lw_error *err)
{
    if (p->kind == LW_PANEL_RATED &&
        (!lw_in_range(err, "panel.rated_w", p->rated_w, 0.0, 100000.0, "W") ||
         !lw_in_range(err, "panel.power_temp_per_k", p->power_temp_per_k, -0.01, 0.0, "per K")))
        return false;
    if (!lw_in_range(err, "panel.series", p->series, 1.0, 20.0, "") ||
        !lw_in_range(err, "panel.parallel", p->parallel, 1.0, 100.0, "") ||
        !lw_in_range(err, "panel.factor", p->factor, 0.0, 2.0, "") ||
        !lw_in_range(err, "panel.clean_share", p->clean_share, 0.0, 1.0, ""))
        return false;
    return !p->dusty || lw_dust_check(&p->dust, err);
}

static bool check_efficiency(const lw_curve *c, lw_error *err)
{
    for (int i = 0; i < c->n; i++) {
        if (!lw_in_range(err, "charger.efficiency", c->y[i], 0.0, 1.0, "") ||
            !lw_in_range(err, "charger.efficiency", c->x[i], 0.0, 1e6, "W"))
            return false;
        if (i > 0 && c->x[i] <= c->x[i - 1])
            return lw_fail(err, LW_WRONG_INPUT, "charger.efficiency",
                           "The points of charger.efficiency must stand in order of rising power; point %d does not.",
                           i + 1);
    }
    return true;
}

static bool check_charger(const lw_charger *c, lw_error *err)
{
    return lw_in_range(err, "charger.blocking_v", c->blocking_v, 0.0, 5.0, "V") &&
           lw_in_range(err, "charger.wire_ohm", c->wire_ohm, 0.0, 100.0, "ohm") &&
           lw_in_range(err, "charger.full_v", c->full_v, 0.0, 120.0, "V") &&
           lw_in_range(err, "charger.most_a", c->most_a, 0.0, 200.0, "A") &&
           lw_in_range(err, "charger.input_floor_v", c->input_floor_v, 0.0, 120.0, "V") &&
           lw_in_range(err, "charger.wire_share", c->wire_share, 0.0, 1.0, "") &&
           lw_in_range(err, "charger.tracking_share", c->tracking_share, 0.0, 1.0, "") &&
           lw_in_range(err, "charger.start_w", c->start_w, 0.0, 1000.0, "W") &&
           lw_in_range(err, "charger.standby_w", c->standby_w, 0.0, 100.0, "W") &&
           lw_in_range(err, "charger.input_limit_v", c->input_limit_v, 0.0, 1000.0, "V") &&
           check_efficiency(&c->efficiency, err);
}

static bool check_groups(const lw_battery *b, lw_error *err)
{
    if (b->series < 1 || b->series > LW_MAX_SERIES)
        return lw_fail(err, LW_WRONG_INPUT, "battery.series", "battery.series is %d; a pack has 1 to %d groups.",
                       b->series, LW_MAX_SERIES);
    for (int g = 0; g < b->series; g++) {
        char field[64];
        (void)snprintf(field, sizeof field, "battery.groups[%d].capacity_ah", g + 1);
        if (!lw_in_range(err, field, b->groups[g].capacity_ah, 0.01, 10000.0, "Ah"))
            return false;
        (void)snprintf(field, sizeof field, "battery.groups[%d].r0_ohm", g + 1);
        if (!lw_in_range(err, field, b->groups[g].r0_ohm, 0.0, 10.0, "ohm"))
            return false;
        (void)snprintf(field, sizeof field, "battery.groups[%d].r1_ohm", g + 1);
        if (!lw_in_range(err, field, b->groups[g].r1_ohm, 0.0, 10.0, "ohm"))
            return false;
        (void)snprintf(field, sizeof field, "battery.groups[%d].missing_ah", g + 1);
        if (!lw_in_range(err, field, b->groups[g].missing_ah, 0.0, 0.9 * b->groups[g].capacity_ah, "Ah"))
            return false;
    }
    return true;
}

static bool check_ocv(const lw_ocv *o, lw_error *err)
{
    if (o->n < 2 || o->n > LW_OCV_POINTS || o->charge[0] != 0.0 || o->charge[o->n - 1] != 1.0)
        return lw_fail(err, LW_WRONG_INPUT, "battery.ocv",
                       "battery.ocv needs 2 to %d points whose charge runs from 0 to 1.", LW_OCV_POINTS);
    for (int i = 0; i < o->n; i++) {
        if (!lw_in_range(err, "battery.ocv", o->v[i], 0.5, 5.0, "V a cell"))
            return false;
        if (i > 0 && !(o->charge[i] > o->charge[i - 1] && o->v[i] > o->v[i - 1]))
            return lw_fail(err, LW_WRONG_INPUT, "battery.ocv",
                           "Charge and voltage of battery.ocv must both rise from point to point; point %d does not.",
                           i + 1);
    }
    return true;
}

static bool check_cells(const lw_battery *b, lw_error *err)
{
    const lw_ocv *o = &b->ocv;
    if (!check_groups(b, err) || !check_ocv(o, err))
        return false;
    if (!lw_in_range(err, "battery.rc_seconds", b->rc_seconds, 0.0, 36000.0, "s") ||
        !lw_in_range(err, "battery.charge_efficiency_ah", b->charge_efficiency_ah, 0.5, 1.0, "") ||
        !lw_in_range(err, "battery.cutoff_v", b->cutoff_v, 0.0, o->v[o->n - 1], "V a cell") ||
        !lw_in_range(err, "battery.others_cutoff_v", b->others_cutoff_v, 0.0, b->cutoff_v, "V a cell") ||
        !lw_in_range(err, "battery.ceiling_v", b->ceiling_v, 0.0, 4.35, "V a cell"))
        return false;
    if (b->ceiling_v > 0.0 && b->ceiling_v <= fmax(b->cutoff_v, o->v[0]))
        return lw_fail(
            err, LW_WRONG_INPUT, "battery.ceiling_v",
            "battery.ceiling_v is %g V a cell; it must be above cutoff_v (%g V) and above the empty cell (%g V).",
            b->ceiling_v, b->cutoff_v, o->v[0]);
    return true;
}

static bool check_battery(const lw_battery *b, lw_error *err)
{
    if (!lw_in_range(err, "battery.self_discharge_month", b->self_discharge_month, 0.0, 0.9, "") ||
        !lw_in_range(err, "battery.capacity_factor", b->capacity_factor, 0.01, 2.0, "") ||
        !lw_in_range(err, "battery.resistance_factor", b->resistance_factor, 0.0, 20.0, "") ||
        !lw_in_range(err, "battery.start_share", b->start_share, 0.0, 1.0, "") ||
        !lw_in_range(err, "battery.charge_low_c", b->charge_low_c, -60.0, 60.0, "degC") ||
        !lw_in_range(err, "battery.charge_high_c", b->charge_high_c, b->charge_low_c, 120.0, "degC"))
        return false;
    if (b->kind == LW_BATTERY_CELLS)
        return check_cells(b, err);
    return lw_in_range(err, "battery.capacity_wh", b->capacity_wh, 0.001, 1e6, "Wh") &&
           lw_in_range(err, "battery.charge_efficiency", b->charge_efficiency, 0.1, 1.0, "") &&
           lw_in_range(err, "battery.discharge_efficiency", b->discharge_efficiency, 0.1, 1.0, "");
}

static bool check_box(const lw_box *b, lw_error *err)
{
    if (b->follows_air)
        return true;
    return lw_in_range(err, "box.sunlit_m2", b->sunlit_m2, 0.0, 10.0, "m2") &&
           lw_in_range(err, "box.absorptance", b->absorptance, 0.0, 1.0, "") &&
           lw_in_range(err, "box.surface_m2", b->surface_m2, 1e-4, 100.0, "m2") &&
           lw_in_range(err, "box.loss_w_m2k", b->loss_w_m2k, 0.5, 100.0, "W/m2K") &&
           lw_in_range(err, "box.vent_w_k", b->vent_w_k, 0.0, 100.0, "W/K") &&
           lw_in_range(err, "box.heat_capacity_j_k", b->heat_capacity_j_k, 0.0, 1e7, "J/K") &&
           lw_in_range(err, "box.charger_heat_share", b->charger_heat_share, 0.0, 1.0, "") &&
           lw_in_range(err, "box.night_heat_w", b->night_heat_w, 0.0, 1000.0, "W");
}

/* What goes together: parts without a voltage, then voltages. */
static bool check_kinds(const lw_system *s, lw_error *err)
{
    const bool bucket = s->battery.kind == LW_BATTERY_BUCKET;
    if (bucket && s->charger.kind != LW_CHARGER_TRACKING)
        return lw_fail(err, LW_WRONG_INPUT, "charger.kind",
                       "An energy bucket has no voltage, so a direct or linear charger cannot be computed with it; "
                       "use charger.kind tracking or battery.kind cells.");
    if (s->panel.kind == LW_PANEL_RATED && s->charger.kind != LW_CHARGER_TRACKING)
        return lw_fail(err, LW_WRONG_INPUT, "panel",
                       "A panel given by its watts alone has no voltage, so a direct or linear charger cannot be "
                       "computed with it; give panel.label or panel.diode.");
    if (bucket && (s->load.driver.kind != LW_DRIVER_CONSTANT_POWER || s->load.standby_a > 0.0))
        return lw_fail(
            err, LW_WRONG_INPUT, s->load.standby_a > 0.0 ? "load.standby_a" : "load.driver.kind",
            "An energy bucket has no voltage: the driver must be constant_power and standby must be given in "
            "watts (load.standby_w).");
    return true;
}

static bool check_voltages(const lw_system *s, lw_error *err)
{
    if (s->battery.kind == LW_BATTERY_BUCKET)
        return true;
    const double top_v = s->battery.series * s->battery.ocv.v[s->battery.ocv.n > 0 ? s->battery.ocv.n - 1 : 0];
    if (s->load.driver.kind == LW_DRIVER_BOOST && s->load.driver.head_v < top_v)
        return lw_fail(err, LW_WRONG_INPUT, "load.driver.head_v",
                       "A boost driver cannot hold a head of %g V below a pack of up to %.2f V: the head would burn at "
                       "full charge. Use buck, or more LEDs in series.",
                       s->load.driver.head_v, top_v);
    if (s->charger.full_v > s->battery.series * 4.35)
        return lw_fail(
            err, LW_WRONG_INPUT, "charger.full_v",
            "charger.full_v is %g V for %d groups in series, %.2f V a cell; no cell of the classes known here "
            "bears that.",
            s->charger.full_v, s->battery.series, s->charger.full_v / s->battery.series);
    return true;
}

bool lw_system_check(const lw_system *system, lw_error *err)
{
    const lw_tolerances *t = &system->tolerances;
    return lw_plane_check(&system->plane, err) && check_panel(&system->panel, err) &&
           check_charger(&system->charger, err) && check_battery(&system->battery, err) &&
           check_box(&system->box, err) && lw_load_check(&system->load, err) && check_kinds(system, err) &&
           check_voltages(system, err) && lw_in_range(err, "tolerances.panel_pct", t->panel_pct, 0.0, 50.0, "%") &&
           lw_in_range(err, "tolerances.capacity_pct", t->capacity_pct, 0.0, 50.0, "%") &&
           lw_in_range(err, "tolerances.resistance_pct", t->resistance_pct, 0.0, 100.0, "%") &&
           lw_in_range(err, "tolerances.load_pct", t->load_pct, 0.0, 50.0, "%") &&
           lw_in_range(err, "dark_limit", system->dark_limit, 0.0, 1.0, "") &&
           lw_in_range(err, "steps_per_hour", system->steps_per_hour, 1.0, 12.0, "");
}
