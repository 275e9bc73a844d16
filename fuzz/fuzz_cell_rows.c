/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The reader of crates' tables: any bytes give cells that pass the check, refusals with a reason, or an error.
 */
#include "lanewick/records.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

static void read_rows(lw_cell_rows *rows)
{
    int line;
    lw_cell_record cell;
    lw_error refused, again = {0};
    while (lw_cell_rows_next(rows, &line, &cell, &refused)) {
        if (refused.family != LW_OK && refused.message[0] == '\0')
            abort();
        if (refused.family == LW_OK && !lw_cell_check(&cell, &again))
            abort();
    }
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    const char *bytes = (const char *)data;
    const size_t room = lw_cell_rows_memory(bytes, size);
    void *memory = room ? malloc(room) : NULL;
    if (!memory)
        return 0;
    lw_arena arena = lw_arena_over(memory, room);
    const lw_cell_record common = lw_cell_blank();
    lw_cell_map map;
    lw_cell_rows rows;
    lw_error err = {0};
    /* the first line serves as a mapping as well */
    char text[200];
    const size_t length = size < sizeof text - 1 ? size : sizeof text - 1;
    memcpy(text, bytes, length);
    text[length] = '\0';
    if (!lw_cell_map_read(text, &map, &err))
        map = (lw_cell_map){0};
    err = (lw_error){0};
    if (lw_cell_rows_open(bytes, size, &map, &common, &arena, &rows, &err))
        read_rows(&rows);
    else if (err.message[0] == '\0')
        abort();
    free(memory);
    return 0;
}
