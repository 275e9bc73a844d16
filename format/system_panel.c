/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The panel, charger and box of a system document.
 */
#include "system_read.h"

#include <math.h>

static void read_label(lw_doc *doc, lw_panel *out)
{
    lw_doc part = lw_doc_part(doc, "label", false);
    const lw_doc_or none = {NAN, "", NULL};
    const lw_panel_label label = {.voc_v = lw_doc_number(&part, "voc_v", 0.3, 1000.0, "V"),
                                  .isc_a = lw_doc_number(&part, "isc_a", 1e-3, 100.0, "A"),
                                  .vmp_v = lw_doc_number(&part, "vmp_v", 0.1, 1000.0, "V"),
                                  .imp_a = lw_doc_number(&part, "imp_a", 1e-4, 100.0, "A"),
                                  .cells = (int)lw_doc_number(&part, "cells", 1.0, 1000.0, ""),
                                  .isc_temp_a_per_k = lw_doc_number_or(&part, "isc_temp_a_per_k", -1.0, 1.0, none),
                                  .voc_temp_v_per_k = lw_doc_number_or(&part, "voc_temp_v_per_k", -10.0, 0.0, none)};
    lw_error err = {0};
    if (lw_doc_done(&part) && !lw_panel_from_label(&label, &out->diode, &out->fit, &err))
        lw_doc_fail(&part, err.field, "cannot be right. %s", err.message);
}

static void read_diode(lw_doc *doc, lw_diode *out)
{
    lw_doc part = lw_doc_part(doc, "diode", false);
    out->photo_a = lw_doc_number(&part, "photo_a", 1e-3, 100.0, "A");
    out->saturation_a = lw_doc_number(&part, "saturation_a", 1e-30, 1.0, "A");
    out->ideality_v = lw_doc_number(&part, "ideality_v", 0.005, 100.0, "V");
    out->series_ohm = lw_doc_number(&part, "series_ohm", 0.0, 1000.0, "ohm");
    out->shunt_ohm = lw_doc_number(&part, "shunt_ohm", 0.1, 1e9, "ohm");
    out->isc_temp_a_per_k =
        lw_doc_number_or(&part, "isc_temp_a_per_k", -1.0, 1.0, (lw_doc_or){0.0005 * out->photo_a, "A/K", NULL});
    out->cells = lw_doc_integer_or(&part, "cells", 0, 1000, (lw_doc_or){0.0, "", NULL});
    (void)lw_doc_done(&part);
}

static void read_dust(lw_doc *doc, lw_panel *out)
{
    lw_doc part = lw_doc_part(doc, "dust", false);
    lw_dust *d = &out->dust;
    lw_system_number(&part, "loss_per_day", 0.0, 0.05, "", &d->loss_per_day);
    lw_system_number(&part, "most", 0.0, 0.9, "", &d->most);
    lw_system_number(&part, "wash_rain_mm", 0.1, 100.0, "mm", &d->wash_rain_mm);
    d->clean_every_days =
        lw_doc_integer_or(&part, "clean_every_days", 0, 365, (lw_doc_or){d->clean_every_days, "days", NULL});
    (void)lw_doc_done(&part);
}

void lw_system_read_panel(lw_doc *system, lw_panel *out)
{
    lw_doc doc = lw_doc_part(system, "panel", true);
    const bool label = lw_doc_has(&doc, "label"), diode = lw_doc_has(&doc, "diode"),
               watts = lw_doc_has(&doc, "rated_w");
    if (label + diode + watts != 1)
        lw_doc_fail(&doc, "label", "or diode or rated_w: exactly one of the three must be given.");
    out->kind = watts ? LW_PANEL_RATED : LW_PANEL_DIODE;
    if (watts) {
        out->rated_w = lw_doc_number(&doc, "rated_w", 0.0, 100000.0, "W");
        lw_system_number(&doc, "power_temp_per_k", -0.01, 0.0, "per K", &out->power_temp_per_k);
    } else if (label) {
        read_label(&doc, out);
    } else {
        read_diode(&doc, &out->diode);
    }
    out->series = lw_doc_integer_or(&doc, "series", 1, 20, (lw_doc_or){1.0, "", NULL});
    out->parallel = lw_doc_integer_or(&doc, "parallel", 1, 100, (lw_doc_or){1.0, "", NULL});
    lw_system_number(&doc, "factor", 0.0, 2.0, "", &out->factor);
    lw_system_number(&doc, "clean_share", 0.0, 1.0, "", &out->clean_share);
    out->dusty = lw_doc_has(&doc, "dust");
    if (out->dusty)
        read_dust(&doc, out);
    (void)lw_doc_done(&doc);
}

static void read_efficiency(lw_doc *doc, lw_curve *out)
{
    if (doc->object && json_is_array(json_object_get(doc->object, "efficiency"))) {
        out->n = lw_system_pairs(doc, "efficiency", LW_CURVE_POINTS, out->x, out->y);
        if (out->n == 0)
            lw_doc_fail(doc, "efficiency", "must be a number or a list of pairs [watts at the charger, share].");
        return;
    }
    lw_system_number(doc, "efficiency", 0.0, 1.0, "", &out->y[0]);
}

void lw_system_read_charger(lw_doc *system, lw_charger *out)
{
    lw_doc doc = lw_doc_part(system, "charger", true);
    *out = lw_charger_default((lw_charger_kind)lw_doc_choice(&doc, "kind", "direct|linear|tracking", -1, NULL));
    if (out->kind == LW_CHARGER_TRACKING) {
        lw_system_number(&doc, "wire_share", 0.0, 1.0, "", &out->wire_share);
        lw_system_number(&doc, "tracking_share", 0.0, 1.0, "", &out->tracking_share);
        read_efficiency(&doc, &out->efficiency);
        lw_system_number(&doc, "start_w", 0.0, 1000.0, "W", &out->start_w);
    } else {
        lw_system_number(&doc, "blocking_v", 0.0, 5.0, "V", &out->blocking_v);
        lw_system_number(&doc, "wire_ohm", 0.0, 100.0, "ohm", &out->wire_ohm);
    }
    if (out->kind == LW_CHARGER_LINEAR)
        lw_system_number(&doc, "input_floor_v", 0.0, 120.0, "V", &out->input_floor_v);
    lw_system_number(&doc, "full_v", 0.0, 120.0, "V", &out->full_v);
    lw_system_number(&doc, "most_a", 0.0, 200.0, "A", &out->most_a);
    lw_system_number(&doc, "standby_w", 0.0, 100.0, "W", &out->standby_w);
    lw_system_number(&doc, "input_limit_v", 0.0, 1000.0, "V", &out->input_limit_v);
    out->end_by_start = lw_doc_choice(&doc, "end_judged_at", "end_of_step|start_of_step", 0, NULL) == 1;
    out->charge_cutoff = lw_doc_flag_or(&doc, "charge_cutoff", true, NULL);
    (void)lw_doc_done(&doc);
}

void lw_system_read_box(lw_doc *system, lw_box *out)
{
    if (system->object && json_is_string(json_object_get(system->object, "box"))) {
        out->follows_air = lw_doc_choice(system, "box", "air", 0, NULL) == 0;
        return;
    }
    lw_doc doc = lw_doc_part(system, "box", false);
    lw_system_number(&doc, "sunlit_m2", 0.0, 10.0, "m2", &out->sunlit_m2);
    lw_system_number(&doc, "absorptance", 0.0, 1.0, "", &out->absorptance);
    lw_system_number(&doc, "surface_m2", 1e-4, 100.0, "m2", &out->surface_m2);
    lw_system_number(&doc, "loss_w_m2k", 0.5, 100.0, "W/m2K", &out->loss_w_m2k);
    lw_system_number(&doc, "vent_w_k", 0.0, 100.0, "W/K", &out->vent_w_k);
    lw_system_number(&doc, "heat_capacity_j_k", 0.0, 1e7, "J/K", &out->heat_capacity_j_k);
    lw_system_number(&doc, "charger_heat_share", 0.0, 1.0, "", &out->charger_heat_share);
    lw_system_number(&doc, "night_heat_w", 0.0, 1000.0, "W", &out->night_heat_w);
    (void)lw_doc_done(&doc);
}
