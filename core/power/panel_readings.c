/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A panel without label, from what a meter reads in the sun: the curve at the conditions of the readings goes
 * through Isc, Voc and the loaded points; its parameters are carried back to 1000 W/m2 and 25 degC by De Soto's
 * translation the other way round. One loaded point bends the knee by the series resistance at n = 1 (which also gives
 * the usual -0.34 % per kelvin of Voc); a second one chooses n; with none the fill factor is taken as a used panel's
 * usual one.
 */
#include "diode.h"
#include "lanewick/panel.h"
#include "lanewick/roots.h"
#include "lanewick/units.h"

#include <math.h>

static const double usual_fill = 0.72; /* of used crystalline panels (common practice, 0.65..0.78) */

static bool check_loads(const lw_panel_readings *r, lw_error *err)
{
    for (int i = 0; i < 2; i++) {
        if (r->load_ohm[i] == 0.0)
            continue;
        const char *name = i ? "load_2_v" : "load_1_v";
        const double a = r->load_v[i] / r->load_ohm[i];
        if (!(r->load_ohm[i] > 0.0) || !(r->load_v[i] > 0.0) || r->load_v[i] >= r->voc_v || a >= r->isc_a)
            return lw_fail(err, LW_WRONG_INPUT, name,
                           "%g V over %g ohm means %.3f A; a loaded reading must lie below both voc_v (%g V) and isc_a "
                           "(%g A).",
                           r->load_v[i], r->load_ohm[i], a, r->voc_v, r->isc_a);
        if (r->load_v[i] < 0.5 * r->voc_v)
            return lw_fail(err, LW_WRONG_INPUT, name,
                           "%g V is less than half of voc_v, where the curve is flat and tells nothing of the knee; "
                           "take a resistor of about voc_v / isc_a, here %.3g ohm or somewhat more.",
                           r->load_v[i], r->voc_v / r->isc_a);
    }
    return true;
}

static bool check(const lw_panel_readings *r, lw_error *err)
{
    if (!lw_in_range(err, "voc_v", r->voc_v, 0.3, 1000.0, "V") ||
        !lw_in_range(err, "isc_a", r->isc_a, 1e-3, 100.0, "A") ||
        !lw_in_range(err, "irradiance_w_m2", r->irradiance_w_m2, 200.0, 1400.0, "W/m2") ||
        !lw_in_range(err, "irradiance_band_pct", r->irradiance_band_pct, 0.0, 50.0, "%") ||
        !lw_in_range(err, "cell_c", r->cell_c, -20.0, 100.0, "degC") ||
        !lw_in_range(err, "cell_band_k", r->cell_band_k, 0.0, 30.0, "K"))
        return false;
    if (r->cells < 1 || r->cells > 1000)
        return lw_fail(err, LW_WRONG_INPUT, "cells", "cells is %d; a panel has 1 to 1000 cells in series.", r->cells);
    const double per_cell = r->voc_v / r->cells;
    if (per_cell < 0.3 || per_cell > 1.3)
        return lw_fail(
            err, LW_WRONG_INPUT, "cells",
            "voc_v of %g V over %d cells is %.2f V a cell; it lies between 0.3 and 1.3 V. Count the cells again.",
            r->voc_v, r->cells, per_cell);
    return check_loads(r, err);
}

typedef struct readings {
    const lw_panel_readings *r;
    double thermal_v, shunt_ohm;
} readings;

/* Current at the second point above what was read, for a curve of ideality n through the first. */
static double second_above(double n, const void *payload)
{
    const readings *p = payload;
    lw_diode d = {0};
    if (!lw_diode_through_point(p->r->voc_v, p->r->isc_a, p->r->load_v[0], p->r->load_v[0] / p->r->load_ohm[0],
                                n * p->thermal_v, p->shunt_ohm, &d))
        return 1.0;
    return lw_diode_current_a(&d, p->r->load_v[1]) - p->r->load_v[1] / p->r->load_ohm[1];
}

static bool by_fill(const readings *p, lw_diode *d)
{
    /* A point on the knee with the usual fill factor: 0.82 Voc. */
    const double v = 0.82 * p->r->voc_v;
    return lw_diode_through_point(p->r->voc_v, p->r->isc_a, v, usual_fill * p->r->isc_a / 0.82, p->thermal_v,
                                  p->shunt_ohm, d);
}

static bool at_readings(const readings *p, lw_diode *d)
{
    const lw_panel_readings *r = p->r;
    if (r->load_ohm[0] == 0.0)
        return by_fill(p, d);
    double n = 1.0;
    if (r->load_ohm[1] > 0.0 && !lw_root(second_above, p, 0.85, 1.8, 1e-6, &n, NULL))
        n = fabs(second_above(0.85, p)) < fabs(second_above(1.8, p)) ? 0.85 : 1.8;
    return lw_diode_through_point(r->voc_v, r->isc_a, r->load_v[0], r->load_v[0] / r->load_ohm[0], n * p->thermal_v,
                                  p->shunt_ohm, d);
}

/* Back to standard conditions. */
static lw_diode standard(const lw_diode *d, const lw_panel_readings *r)
{
    const double sun = r->irradiance_w_m2 / 1000.0;
    lw_diode s = *d;
    s.cells = r->cells;
    s.ideality_v *= (25.0 + lw_zero_celsius_k) / (r->cell_c + lw_zero_celsius_k);
    s.saturation_a /= lw_saturation_share(r->cell_c);
    s.shunt_ohm *= sun;
    s.photo_a = d->photo_a / sun / (1.0 + 0.0005 * (r->cell_c - 25.0));
    s.isc_temp_a_per_k = 0.0005 * s.photo_a;
    return s;
}

bool lw_panel_from_readings(const lw_panel_readings *readings_in, lw_panel_measured *out, lw_error *err)
{
    const lw_panel_readings *r = readings_in;
    if (!check(r, err))
        return false;
    const double thermal_v = 8.617333e-5 * (r->cell_c + lw_zero_celsius_k) * r->cells;
    const readings p = {r, thermal_v, 50.0 * r->voc_v / r->isc_a};
    lw_diode there = {0};
    if (!at_readings(&p, &there))
        return lw_fail(
            err, LW_WRONG_INPUT, "load_1_v",
            "No diode curve passes through these readings; take them again within a few minutes of steady sun.");
    out->diode = standard(&there, r);
    const lw_diode_point max = lw_diode_max_power(&out->diode);
    out->label = (lw_panel_label){.voc_v = lw_diode_open_v(&out->diode),
                                  .isc_a = lw_diode_short_a(&out->diode),
                                  .vmp_v = max.v,
                                  .imp_a = max.a,
                                  .isc_temp_a_per_k = out->diode.isc_temp_a_per_k,
                                  .voc_temp_v_per_k = NAN,
                                  .cells = r->cells};
    const int points = (r->load_ohm[0] > 0.0) + (r->load_ohm[1] > 0.0);
    static const double fill_pct[3] = {6.0, 2.5, 1.5}; /* how well the knee is known (own estimate) */
    const double meter_pct = 1.5, cell_pct = 0.43 * r->cell_band_k;
    const double sd = 0.01 * sqrt(r->irradiance_band_pct * r->irradiance_band_pct + cell_pct * cell_pct +
                                  fill_pct[points] * fill_pct[points] + meter_pct * meter_pct);
    out->max_w = max.w;
    out->max_w_low = max.w * exp(-1.645 * sd);
    out->max_w_high = max.w * exp(1.645 * sd);
    return true;
}
