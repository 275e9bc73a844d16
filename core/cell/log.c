/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Charge and energy of a logged discharge or charge. Between two samples volts and amperes run on straight lines:
 * charge = dt (I1 + I2) / 2, energy = dt (2 V1 I1 + V1 I2 + V2 I1 + 2 V2 I2) / 6, both exact for such lines.
 */
#include "lanewick/cell_test.h"

#include <math.h>

static const double second_per_hour = 3600.0;
static const double near_v = 0.005;

static double between(double a, double b, double share)
{
    return a + share * (b - a);
}

bool lw_log_capacity(const lw_log *log, double end_v, lw_log_charge *out, lw_error *err)
{
    *out = (lw_log_charge){0};
    if (log->n < 2)
        return lw_fail(err, LW_WRONG_INPUT, "times_s", "The log has %zu samples; it needs at least 2.", log->n);
    if (!lw_cell_volts("volts_v", log->volts_v, log->n, err) ||
        !lw_times_forward("times_s", log->times_s, log->n, false, err))
        return false;
    double net_as = 0.0;
    for (size_t k = 1; k < log->n; k++)
        net_as += (log->times_s[k] - log->times_s[k - 1]) * 0.5 * (log->amps_a[k] + log->amps_a[k - 1]);
    const bool charge = net_as < 0.0;
    double as = 0.0, ws = 0.0;
    out->end_s = log->times_s[0];
    for (size_t k = 1; k < log->n && !out->reached; k++) {
        const double v1 = log->volts_v[k - 1], i1 = log->amps_a[k - 1];
        double v2 = log->volts_v[k], i2 = log->amps_a[k], dt = log->times_s[k] - log->times_s[k - 1];
        if (!charge && v2 <= end_v && i2 > 0.0) {
            const double share = v1 > v2 ? fmin(fmax((v1 - end_v) / (v1 - v2), 0.0), 1.0) : 1.0;
            dt *= share;
            v2 = between(v1, v2, share);
            i2 = between(i1, i2, share);
            out->reached = true;
        }
        as += dt * 0.5 * (i1 + i2);
        ws += dt * (2.0 * v1 * i1 + v1 * i2 + v2 * i1 + 2.0 * v2 * i2) / 6.0;
        out->end_s = log->times_s[k - 1] + dt;
    }
    for (size_t k = 0; k < log->n && !charge; k++) /* held at end_v by the tester counts as reached */
        out->reached = out->reached || log->volts_v[k] <= end_v + near_v;
    out->drawn_ah = as / second_per_hour;
    out->drawn_wh = ws / second_per_hour;
    const double span = out->end_s - log->times_s[0];
    out->mean_a = span > 0.0 ? as / span : 0.0;
    return true;
}
