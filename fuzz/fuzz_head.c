/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the head document, worked out and written as an LM-63 file, which must read back.
 */
#include "lanewick/head_json.h"
#include "lanewick/lm63.h"

#include <stdint.h>
#include <stdlib.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    static unsigned char memory[4 << 20];
    static char text[1 << 16];
    static lw_head head;
    static lw_head_light light;
    static lw_lm63 file;
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    if (!lw_head_from_json((const char *)data, size, &head, &err) ||
        !lw_head_light_of(&head, NULL, &arena, &light, &err))
        return 0;
    free(lw_head_to_json(&head, &light));
    const size_t length =
        lw_lm63_write(&light.table, head.watts, head.name, "2026-10-03", head.name, text, sizeof text);
    if (length < sizeof text && light.numbers.peak_cd < 1e9 && !lw_lm63_read(text, length, false, &arena, &file, &err))
        abort();
    return 0;
}
