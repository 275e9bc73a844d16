/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small statistics shared by all rooms.
 */
#ifndef LANEWICK_STATS_H
#define LANEWICK_STATS_H

#include <stddef.h>

double lw_mean(const double *x, size_t n);               /* n >= 1 */
double lw_standard_deviation(const double *x, size_t n); /* n - 1 in the divisor; 0 for n < 2 */

/* Quantile p (0..1) of n >= 1 values in rising order, linear between order statistics at (n - 1) p
 * (Hyndman & Fan 1996, Am. Stat. 50, 361, definition 7). */
double lw_quantile_sorted(const double *x, size_t n, double p);
void lw_sort(double *x, size_t n); /* rising */

double lw_normal_distribution(double z); /* Phi(z) */
/* Inverse of Phi for 0 < p < 1, about 1e-15 relative (Wichura 1988, Appl. Stat. 37, 477, algorithm AS 241). */
double lw_normal_quantile(double p);

/* Linear between the points (x[i], y[i]), x rising, n >= 1; beyond the ends the end value. */
double lw_interpolate(const double *x, const double *y, size_t n, double at);

#endif
