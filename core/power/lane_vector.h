/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Eight floats side by side as one value, and the few operations on them that are no plain + - * /. They take
 * pointers, so that no vector is passed in a register whose width depends on the machine. Every operation works
 * on each lane alone: the same bits on any machine.
 */
#ifndef LANEWICK_CORE_POWER_LANE_VECTOR_H
#define LANEWICK_CORE_POWER_LANE_VECTOR_H

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

typedef float lw_v __attribute__((vector_size(32)));
typedef int32_t lw_vi __attribute__((vector_size(32)));
#define LW_INTO static inline __attribute__((always_inline)) void

LW_INTO lw_v_load(const float *from, lw_v *to)
{
    memcpy(to, from, sizeof *to);
}

LW_INTO lw_v_store(const lw_v *from, float *to)
{
    memcpy(to, from, sizeof *from);
}

/* x where the mask is not 0, else 0; yes where the mask is not 0, else what no was */
LW_INTO lw_v_where(const lw_vi *mask, lw_v *x)
{
    *x = (lw_v)((lw_vi)*x & *mask);
}

LW_INTO lw_v_pick(const lw_vi *mask, const lw_v *yes, lw_v *no)
{
    *no = (lw_v)(((lw_vi)*yes & *mask) | ((lw_vi)*no & ~*mask));
}

/* x = min(x, limit), max(x, limit), max(x, 0), held within low..high */
LW_INTO lw_v_least(lw_v *x, const lw_v *limit)
{
    const lw_vi over = *x > *limit;
    lw_v_pick(&over, limit, x);
}

LW_INTO lw_v_most(lw_v *x, const lw_v *limit)
{
    const lw_vi under = *x < *limit;
    lw_v_pick(&under, limit, x);
}

LW_INTO lw_v_positive(lw_v *x)
{
    const lw_vi above = *x > 0.0F;
    lw_v_where(&above, x);
}

LW_INTO lw_v_within(lw_v *x, float low, float high)
{
    lw_v lowest = {0.0F}, highest = {0.0F};
    lowest += low;
    highest += high;
    lw_v_most(x, &lowest);
    lw_v_least(x, &highest);
}

static inline __attribute__((always_inline)) bool lw_v_any(const lw_vi *mask)
{
    uint64_t parts[4];
    memcpy(parts, mask, sizeof parts);
    return (parts[0] | parts[1] | parts[2] | parts[3]) != 0;
}

enum { LW_HINGES = 24, LW_HINGE_TURN = 4 };
/* A broken line without looking anything up: y = y0 + sum bend[k] max(0, x - at[k]), x held within low..high. n is
 * a whole number of turns (the last bends may be 0): four sums side by side do not wait for one another. */
typedef struct lw_hinges {
    int n;
    float low, high, y0;
    float at[LW_HINGES], bend[LW_HINGES];
} lw_hinges;

LW_INTO lw_v_hinge(const lw_hinges *h, int k, const lw_v *x, lw_v *sum)
{
    lw_v over = *x - h->at[k];
    lw_v_positive(&over);
    *sum += over * h->bend[k];
}

LW_INTO lw_v_hinges(const lw_hinges *h, const lw_v *x, lw_v *y)
{
    lw_v held = *x, a = {0.0F}, b = {0.0F}, c = {0.0F}, d = {0.0F};
    lw_v_within(&held, h->low, h->high);
    for (int k = 0; k < h->n; k += LW_HINGE_TURN) {
        lw_v_hinge(h, k, &held, &a);
        lw_v_hinge(h, k + 1, &held, &b);
        lw_v_hinge(h, k + 2, &held, &c);
        lw_v_hinge(h, k + 3, &held, &d);
    }
    *y = (a + b) + (c + d) + h->y0;
}

/* e^x by 2^k times a polynomial of degree 5 (relative error 3e-6 within -80..80). */
LW_INTO lw_v_exp(const lw_v *x, lw_v *y)
{
    lw_v t = *x;
    lw_v_within(&t, -80.0F, 80.0F);
    t *= 1.44269504F;
    const lw_v k = (t + 12582912.0F) - 12582912.0F; /* nearest whole number */
    const lw_v f = t - k;
    const lw_v p =
        f * (f * (f * (f * (f * 0.00133336F + 0.00961817F) + 0.0555033F) + 0.240226463F) + 0.693147182F) + 1.0F;
    const lw_vi bits = (__builtin_convertvector(k, lw_vi) + 127) << 23;
    *y = p * (lw_v)bits;
}

/* ln x for x > 0 (absolute error 1e-4): exponent and a polynomial of the mantissa. */
LW_INTO lw_v_log(const lw_v *x, lw_v *y)
{
    const lw_vi bits = (lw_vi)*x;
    const lw_v exponent = __builtin_convertvector((bits >> 23) - 127, lw_v);
    const lw_v m = (lw_v)((bits & 0x7FFFFF) | 0x3F800000);
    *y = exponent * 0.693147182F +
         (m * (m * (m * (m * -0.056570851F + 0.44717955F) - 1.4699568F) + 2.8212026F) - 1.7417939F);
}

#endif
