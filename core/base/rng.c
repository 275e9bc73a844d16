/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Random numbers as a value: see lanewick/rng.h.
 */
#include "lanewick/rng.h"

#include "lanewick/stats.h"

static uint64_t splitmix(uint64_t *x)
{
    uint64_t z = (*x += 0x9e3779b97f4a7c15u);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
}

static uint64_t rotate(uint64_t x, int k)
{
    return (x << k) | (x >> (64 - k));
}

lw_rng lw_rng_stream(uint64_t seed, uint64_t year, uint64_t lamp)
{
    uint64_t x = seed;
    x = splitmix(&x) ^ year;
    x = splitmix(&x) ^ lamp;
    lw_rng rng;
    for (int i = 0; i < 4; i++)
        rng.s[i] = splitmix(&x);
    return rng;
}

uint64_t lw_rng_next(lw_rng *rng)
{
    uint64_t *s = rng->s;
    const uint64_t result = rotate(s[1] * 5, 7) * 9;
    const uint64_t t = s[1] << 17;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = rotate(s[3], 45);
    return result;
}

double lw_rng_uniform(lw_rng *rng)
{
    return (double)(lw_rng_next(rng) >> 11) * 0x1.0p-53;
}

double lw_rng_normal(lw_rng *rng)
{
    /* The middle of each of the 2^53 cells: never exactly 0 or 1. */
    return lw_normal_quantile(((double)(lw_rng_next(rng) >> 11) + 0.5) * 0x1.0p-53);
}

uint64_t lw_rng_below(lw_rng *rng, uint64_t n)
{
    /* Draws above the largest multiple of n are thrown away. */
    const uint64_t limit = UINT64_MAX - UINT64_MAX % n;
    uint64_t x = lw_rng_next(rng);
    while (x >= limit)
        x = lw_rng_next(rng);
    return x % n;
}
