/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lumens of an intensity table: the integral of candela over solid angle (IES Lighting Handbook, zonal lumens), here
 * exact for straight lines between the vertical angles.
 */
#include "lanewick/light.h"

#include "lanewick/units.h"

#include <math.h>

double lw_intensity_peak_cd(const lw_intensity *table)
{
    double peak = 0.0;
    for (size_t i = 0; i < table->vertical_count * table->horizontal_count; i++)
        peak = fmax(peak, table->candela[i]);
    return peak;
}

/* Mean over the planes at vertical angle v, by trapezium over the stated range of planes. */
static double mean_cd(const lw_intensity *table, size_t v)
{
    const size_t n = table->vertical_count, planes = table->horizontal_count;
    if (planes == 1)
        return table->candela[v];
    double sum = 0.0;
    for (size_t h = 1; h < planes; h++)
        sum += 0.5 * (table->candela[h * n + v] + table->candela[(h - 1) * n + v]) *
               (table->horizontal_deg[h] - table->horizontal_deg[h - 1]);
    return sum / (table->horizontal_deg[planes - 1] - table->horizontal_deg[0]);
}

/* 2 pi times the integral of (i0 + k (x - x0)) sin x dx from a to b, angles in radian. */
static double line_times_sine(double i0, double k, double x0, double a, double b)
{
    const double at_a = -(i0 + k * (a - x0)) * cos(a) + k * sin(a);
    const double at_b = -(i0 + k * (b - x0)) * cos(b) + k * sin(b);
    return 2.0 * lw_pi * (at_b - at_a);
}

double lw_intensity_flux_lm(const lw_intensity *table, double from_deg, double to_deg)
{
    double flux = 0.0;
    for (size_t v = 1; v < table->vertical_count; v++) {
        const double low_deg = table->vertical_deg[v - 1], high_deg = table->vertical_deg[v];
        const double a = fmax(low_deg, from_deg) * lw_radian_per_degree;
        const double b = fmin(high_deg, to_deg) * lw_radian_per_degree;
        if (b <= a)
            continue;
        const double x0 = low_deg * lw_radian_per_degree, x1 = high_deg * lw_radian_per_degree;
        const double i0 = mean_cd(table, v - 1), i1 = mean_cd(table, v);
        flux += line_times_sine(i0, (i1 - i0) / (x1 - x0), x0, a, b);
    }
    return flux;
}
