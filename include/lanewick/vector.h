/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * LW_WIDTH floats side by side as one value, and the few operations on them that are no plain + - * /. A file that
 * includes this says first how wide its vectors are: LW_WIDTH, and LW_TARGET for the machine that has them (a vector
 * wider than a register lives in memory, where it is slow). So one body of code is compiled for several machines, and
 * lw_vector_width() tells which of them is this one. The operations take pointers, so that no vector is passed in a
 * register whose width depends on the machine. Every operation works on each lane alone, and the whole project is
 * compiled without contraction into fused multiply-add: the same bits at any width.
 */
#ifndef LANEWICK_VECTOR_H
#define LANEWICK_VECTOR_H

#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#ifndef LW_WIDTH /* every machine has these */
#define LW_WIDTH 4
#define LW_TARGET
#endif

#if defined(__x86_64__)
#include <immintrin.h>
#define LW_TARGET_8 __attribute__((target("avx2")))
#define LW_TARGET_16 __attribute__((target("avx512f,avx512dq")))
#else
#define LW_TARGET_8
#define LW_TARGET_16
#endif

/* Floats in the widest vector of this machine for which there is code: 4, 8 or 16. */
static inline int lw_vector_width(void)
{
#if defined(__x86_64__)
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512dq"))
        return 16;
    if (__builtin_cpu_supports("avx2"))
        return 8;
#endif
    return 4;
}

/* The machine's own minimum, maximum and look at a mask; without them they are made from signs, as compilers split
 * comparisons of vectors badly. */
#if defined(__x86_64__) && LW_WIDTH == 16
#define LW_NATIVE_MIN(a, b) _mm512_min_ps(a, b)
#define LW_NATIVE_MAX(a, b) _mm512_max_ps(a, b)
#define LW_NATIVE_ANY(mask) (_mm512_movepi32_mask((__m512i)(mask)) != 0)
#elif defined(__x86_64__) && LW_WIDTH == 8
#define LW_NATIVE_MIN(a, b) _mm256_min_ps(a, b)
#define LW_NATIVE_MAX(a, b) _mm256_max_ps(a, b)
#define LW_NATIVE_ANY(mask) (_mm256_movemask_ps((__m256)(mask)) != 0)
#elif defined(__x86_64__)
#define LW_NATIVE_MIN(a, b) _mm_min_ps(a, b)
#define LW_NATIVE_MAX(a, b) _mm_max_ps(a, b)
#define LW_NATIVE_ANY(mask) (_mm_movemask_ps((__m128)(mask)) != 0)
#elif defined(__wasm_simd128__) && LW_WIDTH == 4
typedef signed char lw_bytes __attribute__((vector_size(16)));
#define LW_NATIVE_MIN(a, b) __builtin_wasm_pmin_f32x4(b, a) /* as x86 has it: b where they are equal or no numbers */
#define LW_NATIVE_MAX(a, b) __builtin_wasm_pmax_f32x4(b, a)
#define LW_NATIVE_ANY(mask) __builtin_wasm_any_true_v128((lw_bytes)(mask))
#endif

typedef float lw_v __attribute__((vector_size(4 * LW_WIDTH)));
typedef int32_t lw_vi __attribute__((vector_size(4 * LW_WIDTH)));
#define LW_INTO static inline __attribute__((always_inline)) LW_TARGET void

LW_INTO lw_v_load(const float *from, lw_v *to)
{
    memcpy(to, from, sizeof *to);
}

LW_INTO lw_v_store(const lw_v *from, float *to)
{
    memcpy(to, from, sizeof *from);
}

LW_INTO lw_v_fill(float value, lw_v *x)
{
    *x = (lw_v){0.0F} + value;
}

/* All ones in the lanes where x < 0, else 0; of a difference a - b, where a < b. */
LW_INTO lw_v_negative(const lw_v *x, lw_vi *mask)
{
    *mask = (lw_vi)*x < (lw_vi){0};
}

/* x where the mask is not 0, else 0; yes where the mask is not 0, else what no was; x + 1 where it is not 0 */
LW_INTO lw_v_where(const lw_vi *mask, lw_v *x)
{
    *x = (lw_v)((lw_vi)*x & *mask);
}

LW_INTO lw_v_pick(const lw_vi *mask, const lw_v *yes, lw_v *no)
{
    *no = (lw_v)(((lw_vi)*yes & *mask) | ((lw_vi)*no & ~*mask));
}

LW_INTO lw_v_count(const lw_vi *mask, lw_v *x)
{
    lw_v one;
    lw_v_fill(1.0F, &one);
    lw_v_where(mask, &one);
    *x += one;
}

/* x = min(x, limit), max(x, limit), max(x, 0), held within low..high */
LW_INTO lw_v_least(lw_v *x, const lw_v *limit)
{
#ifdef LW_NATIVE_MIN
    *x = LW_NATIVE_MIN(*x, *limit);
#else
    const lw_v room = *limit - *x;
    lw_vi over;
    lw_v_negative(&room, &over);
    lw_v_pick(&over, limit, x);
#endif
}

LW_INTO lw_v_most(lw_v *x, const lw_v *limit)
{
#ifdef LW_NATIVE_MAX
    *x = LW_NATIVE_MAX(*x, *limit);
#else
    const lw_v room = *x - *limit;
    lw_vi under;
    lw_v_negative(&room, &under);
    lw_v_pick(&under, limit, x);
#endif
}

LW_INTO lw_v_positive(lw_v *x)
{
    const lw_v nothing = {0.0F};
    lw_v_most(x, &nothing);
}

LW_INTO lw_v_within(lw_v *x, float low, float high)
{
    lw_v lowest, highest;
    lw_v_fill(low, &lowest);
    lw_v_fill(high, &highest);
    lw_v_most(x, &lowest);
    lw_v_least(x, &highest);
}

static inline __attribute__((always_inline)) LW_TARGET bool lw_v_any(const lw_vi *mask)
{
#ifdef LW_NATIVE_ANY
    return LW_NATIVE_ANY(*mask);
#else
    uint64_t parts[LW_WIDTH / 2], all = 0;
    memcpy(parts, mask, sizeof parts);
    for (int i = 0; i < LW_WIDTH / 2; i++)
        all |= parts[i];
    return all != 0;
#endif
}

/* e^x for -87 < x < 87 by 2^k times a polynomial of degree 5 (relative error 3e-6). */
LW_INTO lw_v_exp(const lw_v *x, lw_v *y)
{
    const lw_v t = *x * 1.44269504F;
    const lw_v shifted = t + 12582912.0F; /* 1.5 2^23: its last bits are now k, the nearest whole number */
    const lw_v f = t - (shifted - 12582912.0F);
    const lw_v p =
        f * (f * (f * (f * (f * 0.00133336F + 0.00961817F) + 0.0555033F) + 0.240226463F) + 0.693147182F) + 1.0F;
    *y = p * (lw_v)(((lw_vi)shifted << 23) + 0x3F800000);
}

/* ln x for x > 0 (absolute error 1e-4): exponent and a polynomial of the mantissa. */
LW_INTO lw_v_log(const lw_v *x, lw_v *y)
{
    const lw_vi bits = (lw_vi)*x;
    const lw_v exponent = (lw_v)((bits >> 23) | 0x4B000000) - (8388608.0F + 127.0F); /* a whole number over 2^23 */
    const lw_v m = (lw_v)((bits & 0x7FFFFF) | 0x3F800000);
    *y = exponent * 0.693147182F +
         (m * (m * (m * (m * -0.056570851F + 0.44717955F) - 1.4699568F) + 2.8212026F) - 1.7417939F);
}

#endif
