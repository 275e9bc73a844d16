/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Root of a function of one variable between two ends.
 */
#ifndef LANEWICK_ROOTS_H
#define LANEWICK_ROOTS_H

#include "lanewick/error.h"

typedef double lw_function(double x, const void *payload);

/* A root of f in [low, high] to within tolerance in x, by Brent's method (Brent 1973, Algorithms for
 * Minimization without Derivatives, chapter 4). f(low) and f(high) must have different signs, else
 * LW_NOT_COMPUTABLE. */
LW_MUST_CHECK bool lw_root(lw_function *f, const void *payload, double low, double high, double tolerance, double *root,
                           lw_error *err);

#endif
