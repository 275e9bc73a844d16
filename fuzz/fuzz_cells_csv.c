/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fuzz target: the table reader and the list of cells; what it accepts is matched.
 */
#include "lanewick/cell_csv.h"

#include <stdint.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    enum { ARENA = 24 << 20, SMALL = 12 };
    static unsigned char memory[ARENA];
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_error err = {0};
    lw_cell_list list;
    if (!lw_cell_csv_read((const char *)data, size, &arena, &list, &err) || list.n > SMALL)
        return 0;
    const lw_match_ask ask = {
        .cells = list.cells, .n = list.n, .series = 2, .packs = 1, .parallel = (int)(list.n / 2), .confidence = 0.9};
    lw_match match;
    lw_count count;
    (void)!lw_match_cells(&ask, &arena, &match, &err);
    err = (lw_error){0};
    (void)!lw_count_packs(&ask, 3.0, &arena, &count, &err);
    return 0;
}
