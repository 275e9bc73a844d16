/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mark of bytes: see lanewick/hash.h.
 */
#include "lanewick/hash.h"

uint64_t lw_hash(uint64_t before, const void *bytes, size_t length)
{
    const unsigned char *b = bytes;
    uint64_t hash = before;
    for (size_t i = 0; i < length; i++)
        hash = (hash ^ b[i]) * 0x100000001b3u;
    return hash;
}
