/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Failed LEDs: exponential life of each, binomial number of dark strings. See lanewick/led_strings.h.
 */
#include "lanewick/led_strings.h"

#include <math.h>

/* Probability of at most k of n, each with p: sum of the binomial terms. */
static double at_most(int n, int k, double p)
{
    if (p >= 1.0)
        return k >= n ? 1.0 : 0.0;
    double term = pow(1.0 - p, n), sum = 0.0;
    for (int i = 0; i <= k; i++) {
        sum += term;
        term *= p / (1.0 - p) * (n - i) / (i + 1.0);
    }
    return fmin(1.0, sum);
}

lw_led_survival lw_led_survive(int series, int strings, double failures_per_hour, double hours_h, double open_share,
                               double confidence)
{
    lw_led_survival out = {0};
    out.led_failed = -expm1(-failures_per_hour * hours_h);
    /* opens and shorts are two causes side by side, each with its share of the rate */
    const double no_open = exp(-failures_per_hour * hours_h * open_share);
    const double no_short = exp(-failures_per_hour * hours_h * (1.0 - open_share));
    out.string_out = 1.0 - pow(no_open, series);
    out.light_share = (1.0 - out.string_out) * no_short;
    out.all_alight = pow(1.0 - out.string_out, strings);
    int out_at_most = 0;
    while (out_at_most < strings && at_most(strings, out_at_most, out.string_out) < confidence)
        out_at_most++;
    out.strings_out_at_most = out_at_most;
    return out;
}

int lw_led_strings_to_build(int strings, double string_out, double confidence)
{
    for (int build = strings; build <= 1000; build++)
        if (at_most(build, build - strings, string_out) >= confidence)
            return build;
    return -1;
}
