/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Opening the climate pack: layout version, sizes and checksum are compared before anything is read.
 */
#include "climate_inner.h"

#include <string.h>

uint64_t lw_pack_checksum(const unsigned char *bytes, size_t size)
{
    uint64_t hash = 0xcbf29ce484222325u;
    size_t i = 0;
    for (; i + 8 <= size; i += 8) {
        hash ^= (uint64_t)lw_u32(bytes + i) | ((uint64_t)lw_u32(bytes + i + 4) << 32);
        hash *= 0x100000001b3u;
        hash ^= hash >> 32; /* lets the high bits of a word reach the low ones */
    }
    for (; i < size; i++)
        hash = (hash ^ bytes[i]) * 0x100000001b3u;
    return hash;
}

bool lw_climate_open(const unsigned char *bytes, size_t size, lw_climate_data *data, lw_error *err)
{
    static const char field[] = "climate_pack";
    if (!bytes || size < LW_PACK_HEADER || memcmp(bytes, "LWCLIMAT", 8) != 0)
        return lw_fail(err, LW_WRONG_INPUT, field, "the %zu bytes given are not a climate pack", size);
    const uint32_t layout = lw_u32(bytes + 8);
    if (layout != LW_PACK_LAYOUT)
        return lw_fail(err, LW_WRONG_INPUT, field, "the climate pack has layout %lu, this program reads layout %d",
                       (unsigned long)layout, (int)LW_PACK_LAYOUT);
    data->normal_count = lw_u32(bytes + 12);
    data->measured_count = lw_u32(bytes + 16);
    const uint64_t wanted = LW_PACK_HEADER + (uint64_t)data->normal_count * LW_PACK_NORMAL +
                            (uint64_t)data->measured_count * LW_PACK_MEASURED;
    if (wanted != size || data->normal_count == 0)
        return lw_fail(err, LW_WRONG_INPUT, field, "the climate pack has %zu bytes where its header says %llu", size,
                       (unsigned long long)wanted);
    const uint64_t sum = (uint64_t)lw_u32(bytes + 24) | ((uint64_t)lw_u32(bytes + 28) << 32);
    if (sum != lw_pack_checksum(bytes + LW_PACK_HEADER, size - LW_PACK_HEADER))
        return lw_fail(err, LW_WRONG_INPUT, field, "the climate pack is damaged: its checksum does not match");
    data->normals = bytes + LW_PACK_HEADER;
    data->measured = data->normals + data->normal_count * LW_PACK_NORMAL;
    return true;
}
