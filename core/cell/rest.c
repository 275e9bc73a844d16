/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Self-discharge from resting voltages. After a charge the voltage first relaxes (falls fast, then levels) and then
 * falls on a line: the leak. With five readings or more both are fitted, V = a - k t + b exp(-t / tau); otherwise a
 * line is laid through the readings after the bend. The line is turned into charge by the class's curves.
 */
#include "rest_fit.h"

#include <math.h>

static const double month_days = 30.0;

/* Slope over 0.12 V, so that a wrinkle of one curve or the steep end of its window does not decide; a class with a flat
 * part must not reach into it. */
static double window_v(const lw_test_class *class)
{
    return class->flat_high_v > 0.0 ? 0.010 : 0.060;
}

/* Share of the capacity lost between two voltages: mean over the curves, and their half spread. */
static void lost_share(const lw_test_class *class, double from_v, double to_v, double *mean, double *spread)
{
    double sum = 0.0, low = HUGE_VAL, high = -HUGE_VAL;
    for (size_t i = 0; i < class->curve_count; i++) {
        const lw_cell_curve *c = class->curves[i];
        const double floor = lw_curve_charge(c, class->end_v), full = lw_curve_charge(c, class->full_v);
        const double mid = 0.5 * (from_v + to_v), half = fmax(window_v(class), 0.5 * fabs(from_v - to_v));
        const double slope = (lw_curve_charge(c, mid + half) - lw_curve_charge(c, mid - half)) / (2.0 * half);
        const double share = (from_v - to_v) * slope / (full - floor);
        sum += share;
        low = fmin(low, share);
        high = fmax(high, share);
    }
    *mean = sum / (double)class->curve_count;
    *spread = 0.5 * (high - low);
}

static bool check(const double *days_d, const double *volts_v, size_t n, const lw_test_class *class, lw_error *err)
{
    if (n < 2)
        return lw_fail(err, LW_WRONG_INPUT, "volts_v", "volts_v has %zu readings; self-discharge needs at least 2.", n);
    if (!lw_cell_volts("volts_v", volts_v, n, err) || !lw_times_forward("days_d", days_d, n, true, err))
        return false;
    for (size_t i = 0; i < n; i++)
        if (volts_v[i] > class->flat_low_v && volts_v[i] < class->flat_high_v)
            return lw_fail(
                err, LW_NOT_COMPUTABLE, "volts_v",
                "At %g V the curve of this class is flat and the resting voltage says nothing of the charge; "
                "rest the cell full or nearly empty.",
                volts_v[i]);
    return true;
}

bool lw_self_discharge(const double *days_d, const double *volts_v, size_t n, const lw_meter *meter, double capacity_ah,
                       const lw_test_class *class, lw_rest_result *out, lw_error *err)
{
    *out = (lw_rest_result){0};
    if (!check(days_d, volts_v, n, class, err))
        return false;
    const lw_rest_line line = lw_rest_fit(days_d, volts_v, n, meter->digits * meter->step / sqrt(3.0));
    const double span = days_d[n - 1] - line.from_d;
    const double from_v = line.at_start_v, to_v = from_v - line.k_v_d * span;
    double share, spread;
    lost_share(class, from_v, to_v, &share, &spread);
    out->k_mv_per_day = 1e3 * line.k_v_d;
    out->k_sd_mv_per_day = 1e3 * line.k_sd_v_d;
    out->pct_per_month = 100.0 * share * month_days / span;
    const double relative = line.k_v_d != 0.0 ? line.k_sd_v_d / fabs(line.k_v_d) : 0.0;
    out->pct_sd = hypot(out->pct_per_month * relative, 100.0 * spread * month_days / span);
    if (line.k_v_d == 0.0) {
        double unit;
        lost_share(class, from_v, from_v - line.k_sd_v_d * span, &unit, &spread);
        out->pct_sd = 100.0 * unit * month_days / span;
    }
    out->leak_ua = 1e6 * out->pct_per_month / 100.0 * capacity_ah / (month_days * 24.0);
    out->relaxation_v = line.relaxation_v;
    out->relaxation_days = line.relaxation_d;
    out->used = line.used;
    return true;
}
