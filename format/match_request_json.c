/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The question about packs: see lanewick/match_request_json.h.
 */
#include "lanewick/match_request_json.h"

#include "json_help.h"
#include "lot_cell.h"

static bool read(const json_t *value, lw_arena *arena, lw_match_request *out, lw_error *err)
{
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, value, "");
    lw_match_ask *ask = &out->ask;
    if (!lw_doc_has(&doc, "series"))
        lw_doc_fail(&doc, "series", "is missing: the number of groups in series, a whole number from 1 to 100.");
    ask->series = lw_doc_integer_or(&doc, "series", 1, 100, (lw_doc_or){1.0, "", NULL});
    ask->parallel = lw_doc_integer_or(&doc, "parallel", 0, 1000, (lw_doc_or){0.0, "", NULL});
    ask->packs = lw_doc_integer_or(&doc, "packs", 1, 1000, (lw_doc_or){1.0, "", NULL});
    ask->seed = (uint64_t)lw_doc_integer_or(&doc, "seed", 0, 2147483647, (lw_doc_or){1.0, "", NULL});
    ask->confidence = lw_doc_number_or(&doc, "confidence", 0.5, 0.999, (lw_doc_or){0.9, "", NULL});
    ask->tolerance_pct = lw_doc_number_or(&doc, "tolerance_pct", 0.0, 50.0, (lw_doc_or){0.0, "%", NULL});
    out->need_ah = lw_doc_number_or(&doc, "need_ah", 0.0, 10000.0, (lw_doc_or){0.0, "Ah", NULL});
    const json_t *list = lw_doc_list(&doc, "cells", 1, LW_MATCH_REQUEST_CELLS);
    out->list = (lw_cell_list){.n = json_array_size(list), .passed_over = "", .doubt = ""};
    out->list.cells = lw_arena_take(arena, out->list.n + 1, sizeof(lw_lot_cell), err);
    for (size_t i = 0; out->list.cells && i < out->list.n && !root.failed; i++) {
        lw_doc cell = lw_doc_element(&doc, "cells", list, i);
        out->list.cells[i] = lw_lot_cell_read(&cell, arena);
        (void)lw_doc_done(&cell);
    }
    ask->cells = out->list.cells;
    ask->n = out->list.n;
    return out->list.cells && lw_doc_done(&doc);
}

bool lw_match_request_from_json(const char *text, size_t length, lw_arena *arena, lw_match_request *out, lw_error *err)
{
    json_t *value = lw_json_parse(text, length, err);
    if (!value)
        return false;
    const bool done = read(value, arena, out, err);
    json_decref(value);
    return done;
}
