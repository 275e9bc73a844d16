/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A system's constants, worked out once before its steps.
 */
#include "model.h"

#include <math.h>
#include <string.h>

void lw_model_prepare(const lw_system *system, lw_model *out)
{
    memset(out, 0, sizeof *out);
    const lw_battery *battery = &system->battery;
    const lw_panel *panel = &system->panel;
    out->system = system;
    if (panel->kind == LW_PANEL_DIODE)
        out->array = lw_diode_array(&panel->diode, panel->series, panel->parallel);
    lw_panel whole = *panel;
    whole.factor = 1.0; /* an aged panel is one that gets less light: see the drive */
    out->array_w = lw_panel_standard_w(&whole);
    out->draw = lw_load_draw(&system->load);
    out->full_light_w = out->draw.power_w > 0.0 ? out->draw.power_w : system->load.head_w;
    if (battery->kind == LW_BATTERY_BUCKET)
        return;
    lw_pack_prepare(battery, &out->pack);
    out->nominal_v = lw_battery_nominal_v(battery);
    const double top_v = battery->ceiling_v > 0.0 ? battery->ceiling_v : battery->ocv.v[battery->ocv.n - 1];
    out->full_v = system->charger.full_v > 0.0 ? system->charger.full_v : battery->series * top_v;
    const double low_v = battery->series * battery->cutoff_v;
    const double span = (low_v - out->draw.zero_v) / (out->draw.full_v - out->draw.zero_v);
    if (low_v > 0.0)
        out->floor_draw_a = fmin(out->draw.most, fmax(0.0, span)) * (out->draw.power_w / low_v + out->draw.current_a);
}

double lw_array_max_w(const lw_model *model, double light_w_m2, double cell_c)
{
    const lw_panel *panel = &model->system->panel;
    if (light_w_m2 <= 0.0)
        return 0.0;
    if (panel->kind == LW_PANEL_RATED)
        return fmax(0.0, model->array_w * light_w_m2 / 1000.0 * (1.0 + panel->power_temp_per_k * (cell_c - 25.0)));
    const lw_diode d = lw_diode_at(&model->array, light_w_m2, cell_c);
    return lw_diode_max_power(&d).w;
}

double lw_tracked_w(const lw_charger *charger, double panel_w)
{
    if (panel_w < charger->start_w || panel_w <= 0.0)
        return 0.0;
    const double at_charger_w = panel_w * charger->wire_share * charger->tracking_share;
    return at_charger_w * lw_curve_at(&charger->efficiency, at_charger_w);
}

double lw_dim_factor(const lw_load *load, double charge_share)
{
    for (int i = 0; i < load->dim_count; i++)
        if (charge_share < load->dims[i].below_share)
            return load->dims[i].factor;
    return 1.0;
}

double lw_store_full(const lw_model *model)
{
    const lw_battery *battery = &model->system->battery;
    return battery->kind == LW_BATTERY_BUCKET ? battery->capacity_wh * battery->capacity_factor : model->pack.full_ah;
}

void lw_store_step(const lw_model *model, lw_store *store, const lw_step_in *in, lw_step_out *out)
{
    if (model->system->battery.kind == LW_BATTERY_BUCKET)
        lw_bucket_step(model, store, in, out);
    else
        lw_cells_step(model, store, in, out);
}
