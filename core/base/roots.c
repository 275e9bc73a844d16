/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Brent's root finder: Brent (1973), Algorithms for Minimization without Derivatives, chapter 4.
 */
#include "lanewick/roots.h"

#include <float.h>
#include <math.h>

typedef struct bracket {
    double a, fa; /* the previous best */
    double b, fb; /* the best so far */
    double c, fc; /* the other end: f(b) and f(c) have different signs */
    double step, last;
} bracket;

static void order(bracket *k)
{
    if ((k->fb > 0.0) == (k->fc > 0.0)) {
        k->c = k->a;
        k->fc = k->fa;
        k->step = k->last = k->b - k->a;
    }
    if (fabs(k->fc) < fabs(k->fb)) {
        k->a = k->b;
        k->b = k->c;
        k->c = k->a;
        k->fa = k->fb;
        k->fb = k->fc;
        k->fc = k->fa;
    }
}

/* Secant or inverse quadratic step when it promises more than halving, else half the bracket. */
static void choose_step(bracket *k, double half, double tolerance)
{
    if (fabs(k->last) < tolerance || fabs(k->fa) <= fabs(k->fb)) {
        k->step = k->last = half;
        return;
    }
    const double s = k->fb / k->fa;
    double p, q;
    if (k->a == k->c) {
        p = 2.0 * half * s;
        q = 1.0 - s;
    } else {
        const double u = k->fa / k->fc, r = k->fb / k->fc;
        p = s * (2.0 * half * u * (u - r) - (k->b - k->a) * (r - 1.0));
        q = (u - 1.0) * (r - 1.0) * (s - 1.0);
    }
    if (p > 0.0)
        q = -q;
    p = fabs(p);
    if (2.0 * p < fmin(3.0 * half * q - fabs(tolerance * q), fabs(k->last * q))) {
        k->last = k->step;
        k->step = p / q;
    } else {
        k->step = k->last = half;
    }
}

bool lw_root(lw_function *f, const void *payload, double low, double high, double tolerance, double *root,
             lw_error *err)
{
    bracket k = {.a = low, .b = high, .c = high};
    k.fa = f(low, payload);
    k.fb = k.fc = f(high, payload);
    k.step = k.last = high - low;
    if (!isfinite(k.fa) || !isfinite(k.fb) || (k.fa > 0.0 && k.fb > 0.0) || (k.fa < 0.0 && k.fb < 0.0))
        return lw_fail(err, LW_NOT_COMPUTABLE, "", "There is no single solution between %g and %g.", low, high);
    for (int i = 0; i < 200; i++) {
        order(&k);
        const double half = 0.5 * (k.c - k.b);
        const double close = 2.0 * DBL_EPSILON * fabs(k.b) + 0.5 * tolerance;
        if (fabs(half) <= close || k.fb == 0.0) {
            *root = k.b;
            return true;
        }
        choose_step(&k, half, close);
        k.a = k.b;
        k.fa = k.fb;
        k.b += fabs(k.step) > close ? k.step : copysign(close, half);
        k.fb = f(k.b, payload);
    }
    return lw_fail(err, LW_NOT_COMPUTABLE, "", "The search between %g and %g did not settle.", low, high);
}
