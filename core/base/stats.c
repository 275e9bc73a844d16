/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small statistics shared by all rooms: see lanewick/stats.h.
 */
#include "lanewick/stats.h"

#include <math.h>
#include <stdlib.h>

double lw_mean(const double *x, size_t n)
{
    double sum = 0.0;
    for (size_t i = 0; i < n; i++)
        sum += x[i];
    return sum / (double)n;
}

double lw_standard_deviation(const double *x, size_t n)
{
    if (n < 2)
        return 0.0;
    const double mean = lw_mean(x, n);
    double sum = 0.0;
    for (size_t i = 0; i < n; i++)
        sum += (x[i] - mean) * (x[i] - mean);
    return sqrt(sum / (double)(n - 1));
}

static int rising(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

void lw_sort(double *x, size_t n)
{
    qsort(x, n, sizeof *x, rising);
}

double lw_quantile_sorted(const double *x, size_t n, double p)
{
    const double place = p * (double)(n - 1);
    const size_t below = (size_t)place;
    if (below + 1 >= n)
        return x[n - 1];
    return x[below] + (place - (double)below) * (x[below + 1] - x[below]);
}

double lw_normal_distribution(double z)
{
    return 0.5 * erfc(-z / sqrt(2.0));
}

double lw_interpolate(const double *x, const double *y, size_t n, double at)
{
    if (at <= x[0])
        return y[0];
    for (size_t i = 1; i < n; i++)
        if (at <= x[i])
            return y[i - 1] + (y[i] - y[i - 1]) * (at - x[i - 1]) / (x[i] - x[i - 1]);
    return y[n - 1];
}
