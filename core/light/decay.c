/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light left after years: exponential of IES TM-21-11 fitted to LM-80 readings (formula from a public article of the
 * IES, fitting rule from memory), and dirt on the head (CIE 154:2003 and BS 5489, table from memory).
 */
#include "lanewick/led.h"

#include <math.h>

bool lw_decay_fit(const double *hours_h, const double *share, size_t count, lw_decay *out, lw_error *err)
{
    if (count < 2)
        return lw_fail(err, LW_WRONG_INPUT, "hours_h", "hours_h has %zu values; a fit needs at least 2.", count);
    double mean_t = 0.0, mean_y = 0.0, tt = 0.0, ty = 0.0;
    for (size_t i = 0; i < count; i++) {
        if (i && hours_h[i] <= hours_h[i - 1])
            return lw_fail(err, LW_WRONG_INPUT, "hours_h", "hours_h must rise; value %zu is %g after %g.", i + 1,
                           hours_h[i], hours_h[i - 1]);
        mean_t += hours_h[i] / (double)count;
        mean_y += log(share[i]) / (double)count;
    }
    for (size_t i = 0; i < count; i++) {
        tt += (hours_h[i] - mean_t) * (hours_h[i] - mean_t);
        ty += (hours_h[i] - mean_t) * (log(share[i]) - mean_y);
    }
    out->alpha_per_h = -ty / tt;
    out->b = exp(mean_y + out->alpha_per_h * mean_t);
    out->claim_limit_h = 6.0 * hours_h[count - 1];
    return true;
}

double lw_decay_share(const lw_decay *decay, double hours_h)
{
    return decay->b * exp(-decay->alpha_per_h * hours_h);
}

double lw_decay_hours(const lw_decay *decay, double share)
{
    if (decay->alpha_per_h <= 0.0)
        return INFINITY;
    return log(decay->b / share) / decay->alpha_per_h;
}

double lw_decay_typical_per_h(double case_c)
{
    static const double at_c[] = {55.0, 85.0, 105.0}, alpha[] = {5e-6, 1e-5, 3e-5}, zero_c = 273.15;
    const size_t i = case_c <= at_c[1] ? 0 : 1;
    const double low = 1.0 / (at_c[i] + zero_c), high = 1.0 / (at_c[i + 1] + zero_c), here = 1.0 / (case_c + zero_c);
    return alpha[i] * pow(alpha[i + 1] / alpha[i], (here - low) / (high - low));
}

/* Share left 12, 24 and 36 months after the last cleaning: sealing IP2X, IP5X, IP6X by clean, medium, dirty air. */
static const double dirt[3][3][3] = {
    {{0.82, 0.80, 0.79}, {0.62, 0.58, 0.56}, {0.53, 0.48, 0.45}},
    {{0.92, 0.91, 0.90}, {0.90, 0.88, 0.86}, {0.89, 0.87, 0.84}},
    {{0.93, 0.92, 0.91}, {0.92, 0.91, 0.89}, {0.91, 0.90, 0.88}},
};

double lw_dirt_share(lw_sealing sealing, lw_air air, double months)
{
    const double *left = dirt[sealing][air];
    if (months <= 12.0)
        return 1.0 + (left[0] - 1.0) * months / 12.0;
    if (months <= 24.0)
        return left[0] + (left[1] - left[0]) * (months - 12.0) / 12.0;
    return left[1] + (left[2] - left[1]) * fmin(1.0, (months - 24.0) / 12.0);
}
