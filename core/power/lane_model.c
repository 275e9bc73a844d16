/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A system's constants in the form that the lanes need: broken lines as sums of hinges, the panel's maximum power
 * as a polynomial in ln S and T fitted to the exact curve (form of Huld et al. 2010, Solar Energy 84, 324), the
 * saturation current's logarithm as a cubic in temperature.
 */
#include "lanes.h"

#include "diode.h"

#include <math.h>
#include <string.h>

static void hinges_from(const double *x, const double *y, int n, lw_hinges *out)
{
    memset(out, 0, sizeof *out);
    out->low = (float)x[0];
    out->high = (float)x[n - 1];
    out->y0 = (float)y[0];
    out->n = (n - 1 + LW_HINGE_TURN - 1) / LW_HINGE_TURN * LW_HINGE_TURN;
    double before = 0.0;
    for (int k = 0; k + 1 < n; k++) {
        const double slope = (y[k + 1] - y[k]) / (x[k + 1] - x[k]);
        out->at[k] = (float)x[k];
        out->bend[k] = (float)(slope - before);
        before = slope;
    }
}

/* Pack voltage against share of charge; groups that differ are read off at even steps of charge. */
static void pack_lines(const lw_model *model, lw_lane_model *out)
{
    const lw_pack_model *pack = &model->pack;
    double share[LW_OCV_POINTS], v[LW_OCV_POINTS], weak_v[LW_OCV_POINTS];
    int weak = 0, n = 0;
    for (int g = 0; g < pack->series; g++)
        if (pack->lift_ah[g] == 0.0)
            weak = g;
    const double top = pack->full_ah / pack->capacity_ah[weak];
    for (int i = 0; i < pack->ocv.n; i++) {
        if (pack->ocv.charge[i] < top - 1e-9 || i == 0)
            share[n++] = pack->ocv.charge[i] / top;
    }
    if (n < LW_OCV_POINTS)
        share[n++] = 1.0;
    else
        share[n - 1] = 1.0;
    for (int i = 0; i < n; i++) {
        v[i] = lw_pack_open_v(pack, share[i] * pack->full_ah);
        weak_v[i] = lw_ocv_at(&pack->ocv, share[i] * top);
    }
    hinges_from(share, v, n, &out->open_v);
    hinges_from(weak_v, share, n, &out->cell_charge);
    for (int i = 1; i < n; i++)
        if (share[i] > 0.5)
            out->steepest = fmaxf(out->steepest, (float)((v[i] - v[i - 1]) / (share[i] - share[i - 1])));
    /* The highest floor: full draw through a pack at -25 degC; colder packs are looked at each hour. */
    const double coldest_v =
        model->system->battery.cutoff_v + model->floor_draw_a * pack->r_ohm[weak] * lw_cell_resistance_share(-25.0);
    out->floor_bound = (float)fmax(0.45, lw_ocv_charge(&pack->ocv, coldest_v) / top);
    out->weak_r_ohm = (float)pack->r_ohm[weak];
}

/* Solves the 7 normal equations in place by elimination with pivoting. */
static void solve(double a[7][8])
{
    for (int i = 0; i < 7; i++) {
        int pivot = i;
        for (int r = i + 1; r < 7; r++)
            if (fabs(a[r][i]) > fabs(a[pivot][i]))
                pivot = r;
        for (int c = 0; c < 8; c++) {
            const double kept = a[i][c];
            a[i][c] = a[pivot][c];
            a[pivot][c] = kept;
        }
        for (int r = 0; r < 7; r++) {
            if (r == i || a[i][i] == 0.0)
                continue;
            const double factor = a[r][i] / a[i][i];
            for (int c = i; c < 8; c++)
                a[r][c] -= factor * a[i][c];
        }
    }
}

static void power_surface(const lw_model *model, float p[7])
{
    const lw_panel *panel = &model->system->panel;
    memset(p, 0, 7 * sizeof *p);
    if (panel->kind == LW_PANEL_RATED) {
        p[0] = (float)model->array_w;
        p[1] = (float)(model->array_w * panel->power_temp_per_k);
        return;
    }
    double a[7][8] = {{0.0}};
    for (int i = 0; i <= 14; i++)
        for (int j = 0; j <= 8; j++) {
            const double sun = 0.02 * pow(1.3 / 0.02, i / 14.0), cell_c = -15.0 + 11.5 * j;
            const double t = cell_c - 25.0, l = log(sun), y = lw_array_max_w(model, 1000.0 * sun, cell_c) / sun;
            const double x[7] = {1.0, t, t * t, l, l * t, l * l, l * l * t};
            for (int r = 0; r < 7; r++) {
                for (int c = 0; c < 7; c++)
                    a[r][c] += sun * x[r] * x[c];
                a[r][7] += sun * x[r] * y;
            }
        }
    solve(a);
    for (int i = 0; i < 7; i++)
        p[i] = a[i][i] != 0.0 ? (float)(a[i][7] / a[i][i]) : 0.0F;
}

/* ln I0 as a cubic in T - 25, through four temperatures (Newton's divided differences, spread out). */
static void saturation_line(const lw_diode *d, float c[4])
{
    static const double at[4] = {-45.0, -10.0, 20.0, 55.0};
    double y[4];
    for (int i = 0; i < 4; i++)
        y[i] = log(d->saturation_a * lw_saturation_share(at[i] + 25.0));
    for (int order = 1; order < 4; order++)
        for (int i = 3; i >= order; i--)
            y[i] = (y[i] - y[i - 1]) / (at[i] - at[i - order]);
    double poly[4] = {y[3], 0.0, 0.0, 0.0};
    for (int i = 2; i >= 0; i--) {
        for (int k = 3; k > 0; k--)
            poly[k] = poly[k - 1] - at[i] * poly[k];
        poly[0] = y[i] - at[i] * poly[0];
    }
    for (int k = 0; k < 4; k++)
        c[k] = (float)poly[k];
}

static void panel_part(const lw_model *model, lw_lane_model *out)
{
    const lw_charger *c = &model->system->charger;
    out->tracking = c->kind == LW_CHARGER_TRACKING;
    out->diode = model->system->panel.kind == LW_PANEL_DIODE;
    power_surface(model, out->power);
    if (out->diode) {
        const lw_diode *d = &model->array;
        out->photo_a = (float)d->photo_a;
        out->isc_temp = (float)(d->isc_temp_a_per_k / d->photo_a);
        out->ideality_v = (float)d->ideality_v;
        out->series_ohm = (float)d->series_ohm;
        out->shunt_s = isfinite(d->shunt_ohm) ? (float)(1.0 / d->shunt_ohm) : 0.0F;
        saturation_line(d, out->log_i0);
    }
    out->blocking_v = (float)c->blocking_v;
    out->wire_ohm = (float)c->wire_ohm;
    out->floor_v = c->kind == LW_CHARGER_LINEAR ? (float)c->input_floor_v : 0.0F;
    out->charger_share = (float)(c->wire_share * c->tracking_share);
    out->start_w = (float)c->start_w;
    out->most_a = c->most_a > 0.0 ? (float)c->most_a : 1e9F;
    if (c->efficiency.n > 1)
        hinges_from(c->efficiency.x, c->efficiency.y, c->efficiency.n, &out->efficiency);
    else
        out->efficiency = (lw_hinges){.low = 0.0F, .high = 0.0F, .y0 = (float)c->efficiency.y[0]};
    out->blocks = c->charge_cutoff;
    out->end_by_start = c->end_by_start;
}

static void load_part(const lw_model *model, lw_lane_model *out)
{
    const lw_load *load = &model->system->load;
    const lw_draw *draw = &model->draw;
    out->light_w = (float)model->full_light_w;
    out->draw_w = (float)draw->power_w;
    out->draw_a = (float)draw->current_a;
    out->zero_v = (float)draw->zero_v;
    out->inverse_span = (float)(1.0 / (draw->full_v - draw->zero_v));
    out->most = (float)draw->most;
    out->by_voltage = draw->zero_v > 0.0;
    out->floor_draw_a = (float)model->floor_draw_a;
    out->cutoff_v = (float)model->system->battery.cutoff_v;
    out->others_cutoff_v = (float)model->system->battery.others_cutoff_v;
    out->standby_a = (float)load->standby_a;
    out->dim_count = load->dim_count;
    for (int i = 0; i < load->dim_count; i++) {
        out->dim_below[i] = (float)load->dims[i].below_share;
        out->dim_factor[i] = (float)load->dims[i].factor;
    }
    out->dims_missing = load->dimmed_counts_missing;
}

void lw_lane_model_prepare(const lw_model *model, lw_lane_model *out)
{
    static const double cold_c[] = {-20.0, -10.0, 0.0, 10.0, 25.0};
    const lw_battery *b = &model->system->battery;
    memset(out, 0, sizeof *out);
    panel_part(model, out);
    load_part(model, out);
    out->full = (float)lw_store_full(model);
    out->keep = (float)(1.0 - b->self_discharge_month / 720.0);
    out->low_c = (float)b->charge_low_c;
    out->high_c = (float)b->charge_high_c;
    out->start_share = (float)b->start_share;
    out->dark_limit = (float)model->system->dark_limit;
    out->cells = b->kind == LW_BATTERY_CELLS;
    out->in_share = (float)(out->cells ? b->charge_efficiency_ah : b->charge_efficiency);
    out->out_share = (float)(out->cells ? 1.0 : b->discharge_efficiency);
    out->inverse_in = 1.0F / out->in_share;
    out->inverse_out = 1.0F / out->out_share;
    if (!out->cells)
        return;
    pack_lines(model, out);
    out->follows_temperature = b->temperature_effects;
    out->open_load = b->load_at_open_v;
    out->cutoff = b->cutoff_v > 0.0;
    out->others_lower = b->others_cutoff_v > 0.0;
    out->counts_charge = b->counts_charge;
    out->nominal_v = (float)model->nominal_v;
    out->r_ohm = (float)(model->pack.r0_ohm + model->pack.r1_ohm);
    out->full_v = (float)model->full_v;
    double share[5];
    for (int i = 0; i < 5; i++)
        share[i] = lw_cell_capacity_share(cold_c[i]);
    hinges_from(cold_c, share, 5, &out->cold);
}
