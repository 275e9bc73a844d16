/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: LM-63 reader, strict and tolerant; what it reads is written and read again.
 */
#include "lanewick/lm63.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    enum { ARENA = 24 << 20, ROOM = 1 << 16 };
    static unsigned char memory[ARENA];
    static char text[ROOM];
    static lw_lm63 file;
    for (int tolerant = 0; tolerant < 2; tolerant++) {
        lw_arena arena = lw_arena_over(memory, sizeof memory);
        lw_error err = {0};
        if (!lw_lm63_read((const char *)data, size, tolerant == 1, &arena, &file, &err)) {
            if (err.family == LW_OK || file.defect_count > LW_LM63_MAX_DEFECTS)
                abort();
            continue;
        }
        const size_t length = lw_lm63_write(&file.table, file.watts, file.luminaire, "2026-01-01", "fuzz", text, ROOM);
        if (file.type == 1 && length < ROOM) {
            lw_error again = {0};
            if (!lw_lm63_read(text, length, false, &arena, &file, &again) && again.family == LW_BUG)
                abort();
        }
    }
    return 0;
}
