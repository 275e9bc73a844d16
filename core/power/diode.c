/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The one-diode curve, solved on the voltage u = V + I Rs over the diode: I(u) is explicit there, falls and is
 * concave, so Newton from the right of a root walks down to it without overshooting. Translation in irradiance
 * and temperature: De Soto, Klein & Beckman (2006), Solar Energy 80, 78, eqs. 15, 18, 19, 22.
 */
#include "lanewick/panel.h"

#include "diode.h"
#include "lanewick/roots.h"
#include "lanewick/units.h"

#include <math.h>

double lw_diode_junction_a(const lw_diode *d, double u)
{
    return d->photo_a - d->saturation_a * expm1(u / d->ideality_v) - u / d->shunt_ohm;
}

double lw_diode_slope_s(const lw_diode *d, double u)
{
    return -d->saturation_a / d->ideality_v * exp(u / d->ideality_v) - 1.0 / d->shunt_ohm;
}

double lw_saturation_share(double cell_c)
{
    const double k_per_q = 8.617333e-5, gap_ev = 1.121;
    const double t0 = 25.0 + lw_zero_celsius_k, t = cell_c + lw_zero_celsius_k;
    const double gap = gap_ev * (1.0 - 0.0002677 * (t - t0));
    const double ratio = t / t0;
    return ratio * ratio * ratio * exp((gap_ev / t0 - gap / t) / k_per_q);
}

lw_diode lw_diode_at(const lw_diode *standard, double irradiance_w_m2, double cell_c)
{
    const double sun = (irradiance_w_m2 > 0.01 ? irradiance_w_m2 : 0.01) / 1000.0;
    lw_diode d = *standard;
    d.ideality_v *= (cell_c + lw_zero_celsius_k) / (25.0 + lw_zero_celsius_k);
    d.photo_a = sun * (standard->photo_a + standard->isc_temp_a_per_k * (cell_c - 25.0));
    d.saturation_a *= lw_saturation_share(cell_c);
    d.shunt_ohm /= sun;
    return d;
}

lw_diode lw_diode_array(const lw_diode *panel, int series, int parallel)
{
    const double s = series, p = parallel;
    lw_diode d = *panel;
    d.photo_a *= p;
    d.saturation_a *= p;
    d.isc_temp_a_per_k *= p;
    d.ideality_v *= s;
    d.series_ohm *= s / p;
    d.shunt_ohm *= s / p;
    d.cells *= series;
    return d;
}

double lw_diode_current_a(const lw_diode *d, double v)
{
    if (d->series_ohm < 1e-9)
        return lw_diode_junction_a(d, v);
    /* Here the diode alone would take more than the light and the wires bring: right of the root. */
    const double most_a = d->photo_a + (v > 0.0 ? v / d->series_ohm : 0.0);
    double u = d->ideality_v * log1p(most_a / d->saturation_a);
    for (int i = 0; i < 200; i++) {
        const double excess = lw_diode_junction_a(d, u) - (u - v) / d->series_ohm;
        const double step = excess / (lw_diode_slope_s(d, u) - 1.0 / d->series_ohm);
        u -= step;
        if (fabs(step) < 1e-13 * (1.0 + fabs(u)))
            break;
    }
    return lw_diode_junction_a(d, u);
}

double lw_diode_open_v(const lw_diode *d)
{
    double u = d->ideality_v * log1p(d->photo_a / d->saturation_a);
    for (int i = 0; i < 100; i++) {
        const double step = lw_diode_junction_a(d, u) / lw_diode_slope_s(d, u);
        u -= step;
        if (fabs(step) < 1e-13 * (1.0 + fabs(u)))
            break;
    }
    return u;
}

double lw_diode_short_a(const lw_diode *d)
{
    return lw_diode_current_a(d, 0.0);
}

/* dP/du with V = u - I Rs. */
static double power_slope(double u, const void *payload)
{
    const lw_diode *d = payload;
    const double current = lw_diode_junction_a(d, u), slope = lw_diode_slope_s(d, u);
    const double v = u - current * d->series_ohm;
    return (1.0 - slope * d->series_ohm) * current + v * slope;
}

lw_diode_point lw_diode_max_power(const lw_diode *d)
{
    const double open_v = lw_diode_open_v(d);
    const double short_u = lw_diode_short_a(d) * d->series_ohm;
    double u = 0.0;
    if (!(open_v > 1e-9) || !lw_root(power_slope, d, short_u, open_v, 1e-10 * open_v, &u, NULL))
        return (lw_diode_point){0.0, 0.0, 0.0};
    const double current = lw_diode_junction_a(d, u);
    const double v = u - current * d->series_ohm;
    return (lw_diode_point){v, current, v * current};
}

void lw_diode_curve(const lw_diode *d, size_t n, double *v, double *a)
{
    const double open_v = lw_diode_open_v(d);
    for (size_t i = 0; i < n; i++) {
        v[i] = open_v * (double)i / (double)(n - 1);
        a[i] = i + 1 < n ? lw_diode_current_a(d, v[i]) : 0.0;
    }
}
