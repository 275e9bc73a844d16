/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The RC pair of a pulse: for each time constant r0 and r1 follow from two linear equations; the time constant is
 * searched on a grid and then by golden section (Kiefer 1953).
 */
#include "pulse_fit.h"

#include <math.h>

typedef struct line {
    double r0, r1, error;
} line;

static line fit_at(const lw_pulse_shape *shape, double tau)
{
    const lw_log *log = shape->log;
    double n = 0.0, sx = 0.0, sxx = 0.0, sy = 0.0, sxy = 0.0, syy = 0.0;
    for (size_t k = shape->first; k <= shape->last; k++) {
        const double x = 1.0 - exp(-(log->times_s[k] - shape->start_s) / tau);
        const double y = (shape->rest_v - log->volts_v[k]) / (log->amps_a[k] - shape->rest_a);
        n += 1.0;
        sx += x;
        sxx += x * x;
        sy += y;
        sxy += x * y;
        syy += y * y;
    }
    const double d = n * sxx - sx * sx;
    line l = {.r0 = sy / n, .error = HUGE_VAL};
    if (d <= 1e-12 * n * sxx)
        return l;
    l.r1 = (n * sxy - sx * sy) / d;
    l.r0 = (sy - l.r1 * sx) / n;
    l.error = syy - 2.0 * l.r0 * sy - 2.0 * l.r1 * sxy + n * l.r0 * l.r0 + 2.0 * l.r0 * l.r1 * sx + l.r1 * l.r1 * sxx;
    return l;
}

bool lw_pulse_fit(const lw_pulse_shape *shape, double *r0_ohm, double *r1_ohm, double *tau_s)
{
    const double length = shape->log->times_s[shape->last] - shape->start_s;
    if (shape->last - shape->first + 1 < 6 || length < 2.0)
        return false;
    double best_log = 0.0, best = HUGE_VAL;
    const double low = log(0.2), high = log(3.0 * length), width = (high - low) / 24.0;
    for (int i = 0; i <= 24; i++) {
        const double at = low + width * i, error = fit_at(shape, exp(at)).error;
        if (error < best) {
            best = error;
            best_log = at;
        }
    }
    double a = best_log - width, b = best_log + width;
    const double golden = 0.5 * (sqrt(5.0) - 1.0);
    for (int i = 0; i < 50; i++) {
        const double x1 = b - golden * (b - a), x2 = a + golden * (b - a);
        if (fit_at(shape, exp(x1)).error < fit_at(shape, exp(x2)).error)
            b = x2;
        else
            a = x1;
    }
    *tau_s = exp(0.5 * (a + b));
    const line l = fit_at(shape, *tau_s);
    *r0_ohm = l.r0;
    *r1_ohm = l.r1;
    return isfinite(l.error) && l.r1 > 0.0 && l.r0 > 0.0;
}
