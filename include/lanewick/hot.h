/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * LW_HOT marks a function whose inner loops run over lanes (years or candidates side by side). Where the
 * compiler and the C library can choose at start-up, it is built twice, for AVX2 and for the plain machine;
 * elsewhere, and under sanitizers, it is built once. The whole project is compiled without contraction into
 * fused multiply-add, and lanes never meet in a sum, so both builds give the same bits.
 */
#ifndef LANEWICK_HOT_H
#define LANEWICK_HOT_H

#include <limits.h> /* defines __GLIBC__ where glibc is in use */

#if defined(__GLIBC__) && defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && \
    !defined(__SANITIZE_ADDRESS__)
#define LW_HOT __attribute__((target_clones("avx2", "default")))
#else
#define LW_HOT
#endif

#endif
