/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Preferred numbers: see lanewick/eseries.h.
 */
#include "lanewick/eseries.h"

#include <math.h>

static const int sizes[LW_ESERIES_COUNT] = {3, 6, 12, 24, 48, 96, 192};
static const double tolerances[LW_ESERIES_COUNT] = {0.5, 0.2, 0.1, 0.05, 0.02, 0.01, 0.005};
static const int e24[24] = {10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30,
                            33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91};

int lw_eseries_size(lw_eseries series)
{
    return sizes[series];
}

double lw_eseries_tolerance(lw_eseries series)
{
    return tolerances[series];
}

double lw_eseries_value(lw_eseries series, int i)
{
    const int size = sizes[series];
    if (size <= 24) {
        const int step = 24 / size; /* E12, E6 and E3 are every second, fourth, eighth value of E24 */
        return e24[i * step] / 10.0;
    }
    if (size == 192 && i == 185)
        return 9.20; /* the rule gives 9.19 */
    return round(100.0 * pow(10.0, (double)i / size)) / 100.0;
}

/* Member number k counted over all decades: k = 0 is 1, k = size is 10, k = -1 the last member below 1. */
static double member(lw_eseries series, int k)
{
    const int size = sizes[series];
    const int decade = k >= 0 ? k / size : -((size - 1 - k) / size);
    return lw_eseries_value(series, k - decade * size) * pow(10.0, decade);
}

double lw_eseries_round(double x, lw_eseries series, lw_round direction)
{
    int k = (int)floor(log10(x) * sizes[series]) - 2;
    while (member(series, k + 1) <= x * (1.0 + 1e-9))
        k++;
    const double below = member(series, k), above = member(series, k + 1);
    if (direction == LW_ROUND_DOWN || fabs(below - x) <= 1e-9 * x)
        return below;
    if (direction == LW_ROUND_UP)
        return above;
    return x / below <= above / x ? below : above;
}

double lw_resistor_near(const lw_resistors *at_hand, double ohm)
{
    if (at_hand->count == 0)
        return lw_eseries_round(ohm, at_hand->series, LW_ROUND_NEAREST);
    double best = at_hand->value_ohm[0];
    for (size_t i = 1; i < at_hand->count; i++)
        if (fabs(log(at_hand->value_ohm[i] / ohm)) < fabs(log(best / ohm)))
            best = at_hand->value_ohm[i];
    return best;
}

size_t lw_resistors_between(const lw_resistors *at_hand, double low_ohm, double high_ohm, double *out, size_t room)
{
    size_t n = 0;
    for (size_t i = 0; i < at_hand->count && n < room; i++)
        if (at_hand->value_ohm[i] >= low_ohm && at_hand->value_ohm[i] <= high_ohm)
            out[n++] = at_hand->value_ohm[i];
    if (at_hand->count > 0)
        return n;
    double value = lw_eseries_round(low_ohm, at_hand->series, LW_ROUND_UP);
    while (value <= high_ohm * (1.0 + 1e-9) && n < room) {
        out[n++] = value;
        value = lw_eseries_round(value * 1.001, at_hand->series, LW_ROUND_UP);
    }
    return n;
}

lw_resistor_pair lw_eseries_pair(double x, lw_eseries series)
{
    lw_resistor_pair best = {0};
    double miss = INFINITY;
    const int last = (int)ceil(log10(x) * sizes[series]) + 2;
    for (int k = last - 3 * sizes[series]; k <= last + 2 * sizes[series]; k++) {
        const double a = member(series, k);
        const bool parallel = a > x;
        const double wanted = parallel ? 1.0 / (1.0 / x - 1.0 / a) : x - a;
        if (!(wanted > 0.0) || !isfinite(wanted))
            continue;
        const double b = lw_eseries_round(wanted, series, LW_ROUND_NEAREST);
        const double both = parallel ? a * b / (a + b) : a + b;
        if (fabs(log(both / x)) < miss) {
            miss = fabs(log(both / x));
            best = (lw_resistor_pair){a, b, both, parallel};
        }
    }
    return best;
}
