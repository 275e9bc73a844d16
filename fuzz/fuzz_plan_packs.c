/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The packs of a plan's document, and the cells that a brief holds one by one.
 */
#include "lanewick/brief_cells.h"
#include "lanewick/plan_packs.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

static bool give(void *payload, const char *crate, const char *voltage_class, lw_crate_stock *out, lw_error *err)
{
    (void)payload;
    (void)crate;
    (void)err;
    static lw_lot_cell cell = {.id = "a", .capacity_ah = 2.0, .verdict = "sound", .marking = ""};
    cell.voltage_class = voltage_class;
    *out = (lw_crate_stock){.cells = &cell, .n = 1, .health = 0.8};
    return true;
}

static void read_plan(const char *text, size_t size)
{
    const size_t room = lw_planned_packs_memory(size);
    void *memory = malloc(room);
    lw_arena arena = lw_arena_over(memory, room);
    lw_planned_packs packs;
    lw_error err = {0};
    if (memory && lw_planned_packs_read(text, size, &arena, &packs, &err)) {
        size_t named = 0;
        for (size_t p = 0; p < packs.packs; p++)
            named += packs.pack[p].first[packs.pack[p].series] - packs.pack[p].first[0];
        if (named != packs.cells)
            abort();
    } else if (memory && err.message[0] == '\0') {
        abort();
    }
    free(memory);
}

static void read_brief(const char *text, size_t size)
{
    lw_error err = {0};
    char *filled = NULL;
    if (!lw_brief_fill_crates(text, size, give, NULL, &filled, &err))
        return;
    const char *brief = filled ? filled : text;
    const size_t length = filled ? strlen(filled) : size, room = lw_brief_cells_memory(LW_SHELF_CELLS);
    void *memory = malloc(room);
    lw_arena arena = lw_arena_over(memory, room);
    lw_cell_list list;
    if (memory && !lw_brief_cells(brief, length, 0, &arena, &list, &err) && err.message[0] == '\0' && filled)
        abort();
    free(memory);
    free(filled);
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    read_plan((const char *)data, size);
    read_brief((const char *)data, size);
    return 0;
}
