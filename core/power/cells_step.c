/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One step of a pack of cells: open voltage from the charge, R0 and one RC pair (exact over the step), the
 * charger's current, the load's current, the weakest group's end. Order as in the bucket.
 */
#include "model.h"

#include <math.h>

typedef struct state {
    double open_v;  /* open voltage less what the RC pair still carries */
    double r_ohm;   /* acting over this step */
    double r_share; /* growth of resistance by temperature */
} state;

/* Amperes into the pack side from a power: P = I (e + I R). */
static double power_to_a(double w, const state *s)
{
    return w > 0.0 ? 2.0 * w / (s->open_v + sqrt(s->open_v * s->open_v + 4.0 * s->r_ohm * w)) : 0.0;
}

static double panel_a(const lw_model *model, const lw_step_in *in, const state *s)
{
    const lw_charger *c = &model->system->charger;
    if (in->light_w_m2 <= 0.0)
        return 0.0;
    if (c->kind == LW_CHARGER_TRACKING)
        return power_to_a(lw_tracked_w(c, lw_array_max_w(model, in->light_w_m2, in->cell_c)), s);
    const lw_diode bare = lw_diode_at(&model->array, in->light_w_m2, in->cell_c);
    lw_diode d = bare;
    d.series_ohm += c->wire_ohm + s->r_ohm;
    double a = lw_diode_current_a(&d, s->open_v + c->blocking_v);
    if (c->kind == LW_CHARGER_LINEAR)
        a = fmin(a, lw_diode_current_a(&bare, c->input_floor_v));
    return fmax(0.0, a);
}

/* Amperes from the panel before the end of charge, or, in the simple form, with the end of charge judged by the
 * voltage at the start of the step. */
static double limited_a(const lw_model *model, double a, const state *s)
{
    const lw_charger *c = &model->system->charger;
    if (c->most_a > 0.0)
        a = fmin(a, c->most_a);
    if (!c->end_by_start)
        return a;
    const double room_v = model->full_v - s->open_v;
    if (room_v <= 0.0)
        return 0.0;
    return s->r_ohm > 0.0 ? fmin(a, room_v / s->r_ohm) : a;
}

/* The end of charge: with surplus_a flowing in, open voltage plus drop may not have passed full_v when the step is
 * over; the open voltage rises by rise_v with all of it. */
static double end_of_charge_ah(const lw_model *model, const lw_store *store, double surplus_ah, double hours,
                               const state *s)
{
    if (model->system->charger.end_by_start || surplus_ah <= 0.0)
        return surplus_ah;
    const double rise_v = lw_pack_open_v(&model->pack, store->charge + surplus_ah) - s->open_v;
    const double drop_v = s->r_ohm * surplus_ah / hours;
    const double room_v = fmax(0.0, model->full_v - s->open_v);
    return rise_v + drop_v > room_v ? surplus_ah * room_v / (rise_v + drop_v) : surplus_ah;
}

/* Currents of the light (at its mean level over the step) and of all the rest. */
static void load_a(const lw_model *model, const lw_step_in *in, double dim, const state *s, double *light,
                   double *light_share, double *other)
{
    const lw_draw *draw = &model->draw;
    const double level = in->level_h / in->hours * dim;
    double v = s->open_v;
    for (int turn = 0; turn < 2; turn++) {
        const double share = fmin(draw->most, fmax(0.0, (v - draw->zero_v) / (draw->full_v - draw->zero_v)));
        *light = level * share * (draw->power_w / v + draw->current_a);
        *light_share = fmin(1.0, share);
        *other = in->other_w / v + model->system->load.standby_a;
        if (model->system->battery.load_at_open_v)
            return;
        v = fmax(0.5 * s->open_v, s->open_v - s->r_ohm * (*light + *other));
    }
}

static state acting(const lw_model *model, const lw_store *store, const lw_step_in *in)
{
    const lw_battery *b = &model->system->battery;
    state s = {.r_share = b->temperature_effects ? lw_cell_resistance_share(in->pack_c) : 1.0};
    const double decay = b->rc_seconds > 0.0 ? exp(-3600.0 * in->hours / b->rc_seconds) : 0.0;
    s.r_ohm = (model->pack.r0_ohm + model->pack.r1_ohm * (1.0 - decay)) * s.r_share;
    s.open_v = fmax(0.1, lw_pack_open_v(&model->pack, store->charge) - store->rc_v * decay);
    return s;
}

static double floor_ah(const lw_model *model, const lw_step_in *in, double dim, double r_share)
{
    const lw_battery *b = &model->system->battery;
    const double level = fmin(1.0, in->level_h / in->hours) * dim;
    const double empty = lw_pack_floor_ah(&model->pack, b->cutoff_v, model->floor_draw_a * level, r_share);
    const double cold = b->temperature_effects ? (1.0 - lw_cell_capacity_share(in->pack_c)) * model->pack.full_ah : 0.0;
    return fmax(empty, cold);
}

/* The others end with the light, or lower, at the protection board, where a driver ends only its own light. */
static double others_floor_ah(const lw_model *model, const lw_step_in *in, double light_floor_ah, double other_a,
                              double r_share)
{
    const lw_battery *b = &model->system->battery;
    if (!(b->others_cutoff_v > 0.0))
        return light_floor_ah;
    const double empty = lw_pack_floor_ah(&model->pack, b->others_cutoff_v, other_a, r_share);
    const double cold = b->temperature_effects ? (1.0 - lw_cell_capacity_share(in->pack_c)) * model->pack.full_ah : 0.0;
    return fmin(light_floor_ah, fmax(empty, cold));
}

/* Charge that the step takes: the panel and the pack serve the others first, down to their own floor. */
static double take_ah(double charge_ah, double floor_ah, double others_floor_ah, double rest_ah, double others_rest_ah)
{
    if (others_floor_ah >= floor_ah)
        return fmin(rest_ah, fmax(0.0, charge_ah - floor_ah));
    const double others_ah = fmin(others_rest_ah, fmax(0.0, charge_ah - others_floor_ah));
    return others_ah + fmin(rest_ah - others_rest_ah, fmax(0.0, charge_ah - others_ah - floor_ah));
}

void lw_cells_step(const lw_model *model, lw_store *store, const lw_step_in *in, lw_step_out *out)
{
    const lw_system *s = model->system;
    const lw_battery *b = &s->battery;
    store->charge *= 1.0 - b->self_discharge_month / 720.0 * in->hours;
    const state now = acting(model, store, in);
    const double dim = lw_dim_factor(&s->load, store->charge / model->pack.full_ah);
    const double could_a = panel_a(model, in, &now);
    const double from_panel_a = limited_a(model, could_a, &now);
    double light_a, light_share, other_a;
    load_a(model, in, dim, &now, &light_a, &light_share, &other_a);
    const double panel_ah = from_panel_a * in->hours, need_ah = (light_a + other_a) * in->hours;
    const double direct_ah = fmin(panel_ah, need_ah);
    const bool outside = in->pack_c < b->charge_low_c || in->pack_c > b->charge_high_c;
    const double could_ah = s->charger.charge_cutoff && outside ? 0.0 : panel_ah - direct_ah;
    const double surplus_ah = end_of_charge_ah(model, store, could_ah, in->hours, &now);
    const double in_ah = fmax(0.0, fmin(surplus_ah * b->charge_efficiency_ah, model->pack.full_ah - store->charge));
    store->charge += in_ah;
    const double rest_ah = need_ah - direct_ah;
    const double floor = floor_ah(model, in, dim, now.r_share);
    const double others_rest_ah = fmax(0.0, other_a * in->hours - direct_ah);
    const double taken_ah =
        take_ah(store->charge, floor, others_floor_ah(model, in, floor, other_a, now.r_share), rest_ah, others_rest_ah);
    store->charge -= taken_ah;
    const double net_a = (taken_ah - in_ah) / in->hours;
    const double r1_ohm = model->pack.r1_ohm * now.r_share;
    const double decay = b->rc_seconds > 0.0 ? exp(-3600.0 * in->hours / b->rc_seconds) : 0.0;
    store->rc_v = store->rc_v * decay + net_a * r1_ohm * (1.0 - decay);

    const double light_ah = light_a * in->hours, short_ah = rest_ah - taken_ah;
    const double light_short_ah = fmin(short_ah, light_ah);
    const double kept = light_ah > 0.0 ? 1.0 - light_short_ah / light_ah : 1.0;
    const double weight = b->counts_charge ? model->nominal_v / now.open_v : 1.0;
    const double asked_wh = in->level_h * model->full_light_w * weight;
    *out = (lw_step_out){.panel_ah = could_a * in->hours,
                         .panel_wh = could_a * in->hours * now.open_v,
                         .spilled_wh = (could_a * in->hours - direct_ah - in_ah / b->charge_efficiency_ah) * now.open_v,
                         .load_wh = (need_ah - short_ah) * now.open_v,
                         .other_missing_wh = (short_ah - light_short_ah) * now.open_v,
                         .dimmed_wh = s->load.dimmed_counts_missing ? 0.0 : asked_wh * (1.0 - dim),
                         .taken = taken_ah,
                         .blocked = outside && panel_ah > direct_ah + 1e-9};
    out->wanted_wh = asked_wh - out->dimmed_wh;
    out->missing_wh = fmax(0.0, out->wanted_wh - asked_wh * dim * light_share * kept);
}
