/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One step of the energy bucket. Order: self-discharge; the panel feeds the need directly; what is over charges;
 * the rest of the need comes from the store; what is missing is counted against the light first.
 */
#include "model.h"

#include <math.h>

static bool too_cold_or_hot(const lw_model *model, double pack_c)
{
    const lw_battery *b = &model->system->battery;
    return pack_c < b->charge_low_c || pack_c > b->charge_high_c;
}

void lw_bucket_step(const lw_model *model, lw_store *store, const lw_step_in *in, lw_step_out *out)
{
    const lw_system *s = model->system;
    const lw_battery *b = &s->battery;
    const double full = b->capacity_wh * b->capacity_factor;
    store->charge *= 1.0 - b->self_discharge_month / 720.0 * in->hours;
    const double dim = lw_dim_factor(&s->load, full > 0.0 ? store->charge / full : 0.0);
    const double asked_wh = in->level_h * model->full_light_w, light_wh = asked_wh * dim;
    const double other_wh = in->other_w * in->hours, need_wh = light_wh + other_wh;
    const double panel_wh = lw_tracked_w(&s->charger, lw_array_max_w(model, in->light_w_m2, in->cell_c)) * in->hours;
    const double direct_wh = fmin(panel_wh, need_wh);
    const bool outside = too_cold_or_hot(model, in->pack_c);
    const double surplus_wh = s->charger.charge_cutoff && outside ? 0.0 : panel_wh - direct_wh;
    const double in_wh = fmax(0.0, fmin(surplus_wh * b->charge_efficiency, full - store->charge));
    store->charge += in_wh;
    const double rest_wh = need_wh - direct_wh;
    const double given_wh = fmin(rest_wh, store->charge * b->discharge_efficiency);
    const double taken_wh = given_wh / b->discharge_efficiency;
    store->charge = fmax(0.0, store->charge - taken_wh);
    const double short_wh = rest_wh - given_wh, light_short_wh = fmin(short_wh, light_wh);
    *out = (lw_step_out){.panel_wh = panel_wh,
                         .spilled_wh = panel_wh - direct_wh - in_wh / b->charge_efficiency,
                         .load_wh = need_wh - short_wh,
                         .other_missing_wh = short_wh - light_short_wh,
                         .taken = taken_wh,
                         .blocked = outside && panel_wh > direct_wh + 1e-9};
    out->dimmed_wh = s->load.dimmed_counts_missing ? 0.0 : asked_wh - light_wh;
    out->wanted_wh = asked_wh - out->dimmed_wh;
    out->missing_wh = out->wanted_wh - (light_wh - light_short_wh);
}
