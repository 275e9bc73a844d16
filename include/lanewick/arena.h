/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A block of the caller's memory from which a computation takes what it needs, in order. The core never
 * allocates by itself: who calls gives an arena and says with its size how much may be used.
 */
#ifndef LANEWICK_ARENA_H
#define LANEWICK_ARENA_H

#include "lanewick/error.h"

#include <stddef.h>

typedef struct lw_arena {
    unsigned char *base;
    size_t size, used;
} lw_arena;

static inline lw_arena lw_arena_over(void *memory, size_t size)
{
    return (lw_arena){.base = memory, .size = size, .used = 0};
}

/* count elements of size bytes, zeroed, aligned to 64 bytes (a cache line, any vector type).
 * NULL and LW_NOT_COMPUTABLE when the arena is full. Take used before and put it back to free what came after. */
LW_MUST_CHECK void *lw_arena_take(lw_arena *arena, size_t count, size_t size, lw_error *err);

/* A copy of text in the arena. */
LW_MUST_CHECK char *lw_arena_text(lw_arena *arena, const char *text, lw_error *err);

#endif
