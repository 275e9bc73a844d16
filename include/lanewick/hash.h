/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mark of bytes, to tell whether they are still the same: FNV-1a, 64 bits (Fowler, Noll & Vo; draft-eastlake-fnv). No
 * guard against a person who means harm.
 */
#ifndef LANEWICK_HASH_H
#define LANEWICK_HASH_H

#include <stddef.h>
#include <stdint.h>

static const uint64_t lw_hash_begin = 0xcbf29ce484222325u;

/* The mark of what was hashed before (lw_hash_begin: nothing) with these bytes behind it. */
uint64_t lw_hash(uint64_t before, const void *bytes, size_t length);

#endif
