/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Checks of what a person read and typed: voltages that one cell can have, times that go forward; and the limit
 * of error of a meter.
 */
#include "lanewick/cell_test.h"

#include <math.h>
#include <stdio.h>

static const double highest_v = 4.6;

double lw_meter_limit(const lw_meter *meter, double reading)
{
    return meter->percent / 100.0 * fabs(reading) + meter->digits * meter->step;
}

double lw_meter_sd(const lw_meter *meter, double reading)
{
    return lw_meter_limit(meter, reading) / sqrt(3.0);
}

/* What was probably meant: the point one, two or three places too far right. */
static double guess(double v)
{
    for (double scale = 10.0; scale <= 1000.0; scale *= 10.0)
        if (v / scale >= 2.0 && v / scale <= 4.4)
            return v / scale;
    return 0.0;
}

bool lw_cell_volts(const char *field, const double *volts_v, size_t n, lw_error *err)
{
    for (size_t i = 0; i < n; i++) {
        const double v = volts_v[i];
        if (isfinite(v) && v >= 0.0 && v <= highest_v)
            continue;
        char name[64];
        if (n > 1)
            (void)snprintf(name, sizeof name, "%s[%zu]", field, i + 1);
        else
            (void)snprintf(name, sizeof name, "%s", field);
        const double meant = isfinite(v) ? guess(v) : 0.0;
        if (meant > 0.0)
            return lw_fail(err, LW_WRONG_INPUT, name, "%s is %g V; one cell reads 0 to %g V. Did you mean %.3f V?",
                           name, v, highest_v, meant);
        return lw_fail(err, LW_WRONG_INPUT, name, "%s is %g V; one cell reads 0 to %g V.%s", name, v, highest_v,
                       v < 0.0 ? " A reading below 0 means the probes are swapped or the cell is reversed."
                               : " Look at the point, and measure one cell alone.");
    }
    return true;
}

bool lw_times_forward(const char *field, const double *times_s, size_t n, bool strict, lw_error *err)
{
    for (size_t i = 1; i < n; i++) {
        if (times_s[i] > times_s[i - 1] || (!strict && times_s[i] == times_s[i - 1]))
            continue;
        char name[64];
        (void)snprintf(name, sizeof name, "%s[%zu]", field, i + 1);
        return lw_fail(err, LW_WRONG_INPUT, name, "%s is %g, not later than the %g before it; times must go forward.",
                       name, times_s[i], times_s[i - 1]);
    }
    return true;
}
