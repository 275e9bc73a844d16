/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Random numbers as a value: the state is passed in, a stream is named by (seed, year, lamp), never by the
 * thread, so that every random result repeats to the last bit.
 *
 * Generator: xoshiro256** 1.0 (Blackman & Vigna 2021, ACM Trans. Math. Softw. 47, 36), state filled by
 * splitmix64 (Steele, Lea & Flood 2014, OOPSLA) from the mixed stream name.
 */
#ifndef LANEWICK_RNG_H
#define LANEWICK_RNG_H

#include <stdint.h>

typedef struct lw_rng {
    uint64_t s[4];
} lw_rng;

/* The stream of this seed, year and lamp (any three numbers that name what is drawn). */
lw_rng lw_rng_stream(uint64_t seed, uint64_t year, uint64_t lamp);

uint64_t lw_rng_next(lw_rng *rng);
double lw_rng_uniform(lw_rng *rng); /* 0 <= u < 1, 53 bits */
double lw_rng_normal(lw_rng *rng);  /* mean 0, standard deviation 1, by the inverse of the distribution */

/* Integer in [0, n), n > 0, without bias: draws beyond the last whole multiple of n are thrown away. */
uint64_t lw_rng_below(lw_rng *rng, uint64_t n);

#endif
