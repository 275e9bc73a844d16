/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Five parameters from a label: De Soto, Klein & Beckman (2006), Solar Energy 80, 78.
 *
 * For a given a and Rs the conditions at short circuit, open circuit and (Vmp, Imp) are linear in IL, I0 and
 * 1/Rsh, so only two unknowns are left, ln a and ln Rs, for the slope at the maximum and the open voltage at
 * another temperature: damped Newton from several starts. A label that no five parameters fit keeps three
 * conditions with n = 1.2 and no shunt.
 */
#include "diode.h"
#include "lanewick/panel.h"
#include "lanewick/units.h"

#include <math.h>

static const double other_c = 35.0; /* temperature of the fifth condition; De Soto allow 1 to 10 K up */

const char *lw_panel_fit_text(lw_panel_fit fit)
{
    switch (fit) {
    case LW_FIT_FIVE:
        return "all five conditions of the label hold";
    case LW_FIT_THREE:
        return "the label is not consistent with any five-parameter curve: n = 1.2 without shunt keeps Isc, Voc and "
               "the point (Vmp, Imp), the temperature coefficient of Voc is the model's";
    case LW_FIT_STEEP:
        return "the label's knee is sharper than silicon gives (fill factor very high): a curve without series "
               "resistance keeps Isc, Voc and the point (Vmp, Imp); treat the label with suspicion";
    }
    return "";
}

static bool check(const lw_panel_label *l, double isc_temp, double voc_temp, lw_error *err)
{
    if (!lw_in_range(err, "voc_v", l->voc_v, 0.3, 1000.0, "V") ||
        !lw_in_range(err, "isc_a", l->isc_a, 1e-3, 100.0, "A"))
        return false;
    if (!lw_in_range(err, "vmp_v", l->vmp_v, 0.1, 1000.0, "V") ||
        !lw_in_range(err, "imp_a", l->imp_a, 1e-4, 100.0, "A"))
        return false;
    if (l->cells < 1 || l->cells > 1000)
        return lw_fail(err, LW_WRONG_INPUT, "cells", "cells is %d; a panel has 1 to 1000 cells in series.", l->cells);
    if (l->vmp_v >= l->voc_v)
        return lw_fail(err, LW_WRONG_INPUT, "vmp_v",
                       "vmp_v is %g V, but it must be below the open voltage voc_v of %g V; are they exchanged?",
                       l->vmp_v, l->voc_v);
    if (l->imp_a >= l->isc_a)
        return lw_fail(
            err, LW_WRONG_INPUT, "imp_a",
            "imp_a is %g A, but it must be below the short-circuit current isc_a of %g A; are they exchanged?",
            l->imp_a, l->isc_a);
    const double fill = l->vmp_v * l->imp_a / (l->voc_v * l->isc_a);
    if (fill < 0.4 || fill > 0.9)
        return lw_fail(
            err, LW_WRONG_INPUT, "imp_a",
            "The fill factor vmp_v x imp_a / (voc_v x isc_a) is %.3f; no diode curve of a working panel lies "
            "outside 0.4 to 0.9. Read the label again.",
            fill);
    const double per_cell = l->voc_v / l->cells;
    if (per_cell < 0.3 || per_cell > 1.3)
        return lw_fail(
            err, LW_WRONG_INPUT, "cells",
            "voc_v of %g V over %d cells is %.2f V a cell; it lies between 0.3 and 1.3 V (silicon 0.5 to 0.75). "
            "Count the cells again.",
            l->voc_v, l->cells, per_cell);
    if (!lw_in_range(err, "isc_temp_a_per_k", isc_temp, -0.002 * l->isc_a, 0.005 * l->isc_a, "A/K"))
        return false;
    return lw_in_range(err, "voc_temp_v_per_k", voc_temp, -0.01 * l->voc_v, -0.0003 * l->voc_v, "V/K");
}

/* IL, I0 and Rsh from the three linear conditions; a shunt of any sign. */
static bool three(const lw_panel_label *l, double a, double rs, lw_diode *d)
{
    const double at_short = expm1(l->isc_a * rs / a), at_open = expm1(l->voc_v / a);
    const double u_max = l->vmp_v + l->imp_a * rs, at_max = expm1(u_max / a);
    const double o0 = at_open - at_short, o1 = l->voc_v - l->isc_a * rs;
    const double m0 = at_max - at_short, m1 = u_max - l->isc_a * rs;
    const double determinant = o0 * m1 - o1 * m0;
    if (!isfinite(determinant) || fabs(determinant) < 1e-300)
        return false;
    d->saturation_a = (l->isc_a * m1 - o1 * (l->isc_a - l->imp_a)) / determinant;
    const double shunt_s = (o0 * (l->isc_a - l->imp_a) - l->isc_a * m0) / determinant;
    d->shunt_ohm = 1.0 / shunt_s;
    d->photo_a = l->isc_a + d->saturation_a * at_short + shunt_s * l->isc_a * rs;
    d->ideality_v = a;
    d->series_ohm = rs;
    return d->saturation_a > 0.0 && isfinite(d->shunt_ohm);
}

/* Residuals of the two conditions that are left, as shares. */
static bool residuals(const lw_panel_label *l, double voc_temp, const double x[2], lw_diode *d, double r[2])
{
    if (!three(l, exp(x[0]), exp(x[1]), d))
        return false;
    const double conductance = -lw_diode_slope_s(d, l->vmp_v + l->imp_a * d->series_ohm);
    r[0] = l->vmp_v * conductance / (1.0 + d->series_ohm * conductance) / l->imp_a - 1.0;
    const lw_diode warm = lw_diode_at(d, 1000.0, other_c);
    const double v = l->voc_v + voc_temp * (other_c - 25.0);
    r[1] = lw_diode_junction_a(&warm, v) / l->isc_a;
    return isfinite(r[0]) && isfinite(r[1]);
}

static bool newton_step(const lw_panel_label *l, double voc_temp, double x[2], double r[2], lw_diode *d)
{
    const double h = 1e-6;
    double j[2][2];
    for (int k = 0; k < 2; k++) {
        double moved[2] = {x[0], x[1]}, rm[2];
        lw_diode unused = *d;
        moved[k] += h;
        if (!residuals(l, voc_temp, moved, &unused, rm))
            return false;
        j[0][k] = (rm[0] - r[0]) / h;
        j[1][k] = (rm[1] - r[1]) / h;
    }
    const double det = j[0][0] * j[1][1] - j[0][1] * j[1][0];
    if (!(fabs(det) > 1e-14))
        return false;
    const double step[2] = {(r[0] * j[1][1] - r[1] * j[0][1]) / det, (r[1] * j[0][0] - r[0] * j[1][0]) / det};
    const double longest = fmax(fabs(step[0]), fabs(step[1]));
    const double norm = hypot(r[0], r[1]);
    for (double damp = longest > 0.3 ? 0.3 / longest : 1.0; damp > 1e-4; damp *= 0.5) {
        double tried[2] = {x[0] - damp * step[0], x[1] - damp * step[1]}, rt[2];
        lw_diode dt = *d;
        if (!residuals(l, voc_temp, tried, &dt, rt) || hypot(rt[0], rt[1]) >= norm)
            continue;
        x[0] = tried[0];
        x[1] = tried[1];
        r[0] = rt[0];
        r[1] = rt[1];
        *d = dt;
        return true;
    }
    return false;
}

static bool fit_five(const lw_panel_label *l, double isc_temp, double voc_temp, lw_diode *out)
{
    static const double n_start[] = {1.1, 1.0, 1.3, 0.9}, rs_start[] = {0.3, 0.1, 0.5, 0.03};
    const double thermal_v = 8.617333e-5 * (25.0 + lw_zero_celsius_k) * l->cells;
    for (int s = 0; s < 16; s++) {
        lw_diode d = {.isc_temp_a_per_k = isc_temp, .cells = l->cells};
        double x[2] = {log(n_start[s % 4] * thermal_v), log(rs_start[s / 4] * (l->voc_v - l->vmp_v) / l->imp_a)}, r[2];
        if (!residuals(l, voc_temp, x, &d, r))
            continue;
        for (int i = 0; i < 100 && hypot(r[0], r[1]) > 1e-13; i++)
            if (!newton_step(l, voc_temp, x, r, &d))
                break;
        const double n = d.ideality_v / thermal_v;
        if (hypot(r[0], r[1]) < 1e-9 && d.shunt_ohm > 0.0 && n > 0.4 && n < 3.0) {
            *out = d;
            return true;
        }
    }
    return false;
}

bool lw_panel_from_label(const lw_panel_label *label, lw_diode *out, lw_panel_fit *fit, lw_error *err)
{
    const double isc_temp = isnan(label->isc_temp_a_per_k) ? 0.0005 * label->isc_a : label->isc_temp_a_per_k;
    const double voc_temp = isnan(label->voc_temp_v_per_k) ? -0.0034 * label->voc_v : label->voc_temp_v_per_k;
    if (!check(label, isc_temp, voc_temp, err))
        return false;
    *fit = LW_FIT_FIVE;
    if (fit_five(label, isc_temp, voc_temp, out))
        return true;
    const double thermal_v = 8.617333e-5 * (25.0 + lw_zero_celsius_k) * label->cells;
    *out = (lw_diode){.isc_temp_a_per_k = isc_temp, .cells = label->cells};
    if (!lw_diode_through_point(label->voc_v, label->isc_a, label->vmp_v, label->imp_a, 1.2 * thermal_v, INFINITY, out))
        return lw_fail(
            err, LW_WRONG_INPUT, "imp_a",
            "No diode curve passes through the four values of this label (voc_v %g V, isc_a %g A, vmp_v %g V, "
            "imp_a %g A). Read the label again.",
            label->voc_v, label->isc_a, label->vmp_v, label->imp_a);
    *fit = out->series_ohm > 0.0 ? LW_FIT_THREE : LW_FIT_STEEP;
    return true;
}
