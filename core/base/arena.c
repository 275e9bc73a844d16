/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The caller's memory, taken in order: see lanewick/arena.h.
 */
#include "lanewick/arena.h"

#include <stdint.h>
#include <string.h>

enum { ALIGNMENT = 64 };

void *lw_arena_take(lw_arena *arena, size_t count, size_t size, lw_error *err)
{
    const uintptr_t start = (uintptr_t)arena->base + arena->used;
    const size_t padding = (size_t)(-start & (uintptr_t)(ALIGNMENT - 1));
    const size_t left = arena->size - arena->used;
    if (padding > left || (size != 0 && count > (left - padding) / size)) {
        (void)lw_fail(err, LW_NOT_COMPUTABLE, "memory",
                      "This computation needs more memory than the %zu bytes set aside for it; ask for less at once.",
                      arena->size);
        return NULL;
    }
    void *place = arena->base + arena->used + padding;
    arena->used += padding + count * size;
    return memset(place, 0, count * size);
}

char *lw_arena_text(lw_arena *arena, const char *text, lw_error *err)
{
    const size_t length = strlen(text) + 1;
    char *copy = lw_arena_take(arena, length, 1, err);
    return copy ? memcpy(copy, text, length) : NULL;
}
