/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * exp() for inner loops over lanes: no call, no branch, so that a compiler can run several lanes at once. Within
 * 3e-13 of libm for -700..700, which the caller keeps to (two bounds on x would be a branch). Method: x = n ln 2 + r,
 * Taylor series of exp(r) to r^10, 2^n put into the exponent bits (Cody & Waite 1980, Software Manual for the
 * Elementary Functions, from memory).
 */
#ifndef LANEWICK_QUICK_EXP_H
#define LANEWICK_QUICK_EXP_H

#include <stdint.h>
#include <string.h>

static inline double lw_quick_exp(double x)
{
    const double round = 0x1.8p52; /* adding it leaves the nearest integer in the low bits */
    const double shifted = x * 1.4426950408889634 + round;
    const double n = shifted - round;
    const double r = x - n * 0x1.62e42fefa3800p-1 - n * 0x1.ef35793c76730p-45;
    double p = 1.0 / 3628800.0;
    p = p * r + 1.0 / 362880.0;
    p = p * r + 1.0 / 40320.0;
    p = p * r + 1.0 / 5040.0;
    p = p * r + 1.0 / 720.0;
    p = p * r + 1.0 / 120.0;
    p = p * r + 1.0 / 24.0;
    p = p * r + 1.0 / 6.0;
    p = p * r + 0.5;
    p = p * r + 1.0;
    p = p * r + 1.0;
    uint64_t bits;
    double power;
    memcpy(&bits, &shifted, sizeof bits);
    bits = (bits + 1023) << 52;
    memcpy(&power, &bits, sizeof power);
    return p * power;
}

#endif
