/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Line of the leak: see rest.c. The relaxation part is kept only when it lowers the squared error by more than
 * chance would (three times for its two parameters); its time constant runs over a grid of 0.1 to 5 days.
 */
#include "rest_fit.h"

#include <math.h>

/* Weighted least squares of y = a + k x + b z by normal equations; z all zero leaves b at 0. */
typedef struct plane {
    double a, k, b, error, k_variance;
} plane;

static plane solve(const double *days_d, const double *volts_v, size_t n, double tau, double origin)
{
    double s[3][4] = {{0}};
    for (size_t i = 0; i < n; i++) {
        const double x[3] = {1.0, days_d[i] - origin, tau > 0.0 ? exp(-(days_d[i] - origin) / tau) : 0.0};
        for (int r = 0; r < 3; r++) {
            for (int c = 0; c < 3; c++)
                s[r][c] += x[r] * x[c];
            s[r][3] += x[r] * volts_v[i];
        }
    }
    if (tau <= 0.0)
        s[2][2] = 1.0;
    double inverse_k[3] = {0.0, 1.0, 0.0};
    for (int p = 0; p < 3; p++)
        for (int r = 0; r < 3; r++) {
            if (r == p)
                continue;
            const double f = s[r][p] / s[p][p];
            for (int c = 0; c < 4; c++)
                s[r][c] -= f * s[p][c];
            inverse_k[r] -= f * inverse_k[p];
        }
    plane out = {.a = s[0][3] / s[0][0], .k = s[1][3] / s[1][1], .b = s[2][3] / s[2][2]};
    out.k_variance = inverse_k[1] / s[1][1];
    for (size_t i = 0; i < n; i++) {
        const double x = days_d[i] - origin;
        const double e = volts_v[i] - out.a - out.k * x - (tau > 0.0 ? out.b * exp(-x / tau) : 0.0);
        out.error += e * e;
    }
    return out;
}

/* First reading of the straight part when there are too few for a fit: drops early readings whose fall per day is
 * more than twice that of what follows. */
static size_t straight_from(const double *days_d, const double *volts_v, size_t n)
{
    size_t from = 0;
    while (from + 2 < n) {
        const double early = (volts_v[from] - volts_v[from + 1]) / (days_d[from + 1] - days_d[from]);
        const double late = (volts_v[from + 1] - volts_v[n - 1]) / (days_d[n - 1] - days_d[from + 1]);
        if (early <= 2.0 * fmax(late, 0.0) + 1e-4)
            break;
        from++;
    }
    return from;
}

lw_rest_line lw_rest_fit(const double *days_d, const double *volts_v, size_t n, double digit_sd_v)
{
    const double noise = digit_sd_v * digit_sd_v;
    if (n >= 5) {
        const plane line = solve(days_d, volts_v, n, 0.0, days_d[0]);
        plane best = line;
        double tau = 0.0;
        for (double t = 0.1; t <= 5.0; t *= 1.25) {
            const plane p = solve(days_d, volts_v, n, t, days_d[0]);
            if (isfinite(p.error) && p.b > 0.0 && p.error < best.error) {
                best = p;
                tau = t;
            }
        }
        if (tau > 0.0 && (line.error - best.error) > 3.0 * 2.0 * fmax(best.error / (double)(n - 3), 0.1 * noise)) {
            const double left = best.error / (double)(n - 4);
            return (lw_rest_line){.from_d = days_d[0],
                                  .at_start_v = best.a,
                                  .k_v_d = -best.k,
                                  .k_sd_v_d = sqrt(fmax(left, noise) * best.k_variance),
                                  .relaxation_v = best.b,
                                  .relaxation_d = tau,
                                  .used = n};
        }
    }
    const size_t from = n >= 3 ? straight_from(days_d, volts_v, n) : 0;
    const size_t m = n - from;
    const plane line = solve(days_d + from, volts_v + from, m, 0.0, days_d[from]);
    const double left = m > 2 ? line.error / (double)(m - 2) : 0.0;
    return (lw_rest_line){.from_d = days_d[from],
                          .at_start_v = line.a,
                          .k_v_d = -line.k,
                          .k_sd_v_d = sqrt(fmax(left, noise) * line.k_variance),
                          .relaxation_v = from ? fmax(0.0, volts_v[0] - line.a) : 0.0,
                          .used = m};
}
