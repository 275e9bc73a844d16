/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the climate pack. The bytes as they are, and again as the rows of a pack with a right header,
 * so that the checksum does not keep everything out; every pack that opens is asked for two places.
 */
#include "core/sun/climate_inner.h"

#include <math.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void ask(const unsigned char *bytes, size_t size)
{
    lw_climate_data pack;
    lw_climate climate;
    lw_error err = {0};
    if (!lw_climate_open(bytes, size, &pack, &err))
        return;
    if (!lw_climate_at(&pack, -11.62, 34.27, 480.0, &climate, &err) ||
        !lw_climate_at(&pack, 88.8, -179.97, NAN, &climate, &err))
        abort(); /* a pack that opens always answers */
}

static void put(unsigned char *p, uint64_t value, int bytes)
{
    for (int i = 0; i < bytes; i++)
        p[i] = (unsigned char)(value >> (8 * i));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static unsigned char pack[LW_PACK_HEADER + 65536];
    ask(data, size);
    if (size < LW_PACK_NORMAL || size > 65536)
        return 0;
    /* half of the bytes are normals (one at least), as many measured rows as then fit */
    const size_t half = size / 2 / LW_PACK_NORMAL, normals = half > 0 ? half : 1;
    const size_t measured = (size - normals * LW_PACK_NORMAL) / LW_PACK_MEASURED;
    const size_t rows = normals * LW_PACK_NORMAL + measured * LW_PACK_MEASURED;
    static const unsigned char magic[8] = {'L', 'W', 'C', 'L', 'I', 'M', 'A', 'T'};
    memcpy(pack, magic, sizeof magic);
    put(pack + 8, LW_PACK_LAYOUT, 4);
    put(pack + 12, normals, 4);
    put(pack + 16, measured, 4);
    memcpy(pack + LW_PACK_HEADER, data, rows);
    put(pack + 24, lw_pack_checksum(pack + LW_PACK_HEADER, rows), 8);
    ask(pack, LW_PACK_HEADER + rows);
    return 0;
}
