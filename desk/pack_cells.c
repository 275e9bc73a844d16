/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matching and counting from the bytes of a list: see lanewick/desk_pack.h.
 */
#include "lanewick/desk_pack.h"

size_t lw_desk_match_memory(size_t cells)
{
    /* the search's lists and seeds have a ceiling; the rest grows with the cells */
    enum { SEARCH_BYTES = 56 << 20, BYTES_A_CELL = 1024 };
    return SEARCH_BYTES + cells * BYTES_A_CELL;
}

size_t lw_desk_pack_memory(const char *bytes, size_t length)
{
    const size_t table = lw_cell_csv_memory(bytes, length);
    size_t rows = 2;
    for (size_t i = 0; i < length; i++)
        rows += bytes[i] == '\n' || bytes[i] == '\r';
    rows = rows < LW_MATCH_MAX_CELLS ? rows : LW_MATCH_MAX_CELLS;
    return table ? table + lw_desk_match_memory(rows) : 0;
}

static bool read_list(const char *bytes, size_t length, lw_match_ask *ask, lw_arena *arena, lw_cell_list *list,
                      lw_error *err)
{
    if (!lw_cell_csv_read(bytes, length, arena, list, err))
        return false;
    ask->cells = list->cells;
    ask->n = list->n;
    return true;
}

bool lw_desk_pack_match(const char *bytes, size_t length, lw_match_ask *ask, lw_arena *arena, lw_cell_list *list,
                        lw_match *match, lw_error *err)
{
    return read_list(bytes, length, ask, arena, list, err) && lw_match_cells(ask, arena, match, err);
}

bool lw_desk_pack_count(const char *bytes, size_t length, lw_match_ask *ask, double need_ah, lw_arena *arena,
                        lw_cell_list *list, lw_count *count, lw_error *err)
{
    return read_list(bytes, length, ask, arena, list, err) && lw_count_packs(ask, need_ah, arena, count, err);
}

bool lw_desk_pack_duty(const lw_match_ask *ask, const lw_match *match, const lw_duty_ask *duty, lw_arena *arena,
                       lw_duty *out, lw_error *err)
{
    return lw_pack_duty(ask, match, duty, arena, out, err);
}
