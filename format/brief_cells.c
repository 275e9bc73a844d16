/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cells in a brief one by one: see lanewick/brief_cells.h.
 */
#include "lanewick/brief_cells.h"

#include "brief_read.h"
#include "json_help.h"
#include "lot_cell.h"

#include <math.h>

const char *const lw_brief_left_keys[LW_LEFT_REASONS] = {
    [LW_LEFT_PACKED] = "in_packs",         [LW_LEFT_SCRAP] = "scrap",     [LW_LEFT_UNSURE] = "unsure",
    [LW_LEFT_OTHER_CLASS] = "other_class", [LW_LEFT_WEAKEST] = "weakest",
};

size_t lw_brief_cells_memory(size_t cells)
{
    enum { TEXTS = 2 * 64 }; /* id and marking, each on a cache line of its own */
    return (cells + 4) * (sizeof(lw_lot_cell) + 2 * TEXTS) + 4096;
}

bool lw_brief_cells(const char *text, size_t length, size_t kind, lw_arena *arena, lw_cell_list *out, lw_error *err)
{
    json_t *json = lw_json_parse(text, length, err);
    const json_t *entry = json_array_get(json_object_get(json_object_get(json, "shelf"), "cells"), kind);
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, entry, "shelf.cells[]");
    const json_t *list = entry ? lw_doc_list(&doc, "cells", 1, LW_SHELF_CELLS) : NULL;
    *out = (lw_cell_list){.n = json_array_size(list), .passed_over = "", .doubt = ""};
    out->cells = lw_arena_take(arena, out->n + 1, sizeof *out->cells, err);
    for (size_t i = 0; out->cells && i < out->n && !root.failed; i++) {
        lw_doc cell = lw_doc_element(&doc, "cells", list, i);
        out->cells[i] = lw_lot_cell_read(&cell, arena);
        (void)lw_doc_done(&cell);
    }
    json_decref(json);
    return json && out->cells && !root.failed;
}

/* The class stands beside the list for all its cells. */
static json_t *list_of(const lw_crate_stock *stock)
{
    json_t *list = json_array();
    for (size_t i = 0; i < stock->n; i++) {
        lw_lot_cell cell = stock->cells[i];
        cell.voltage_class = "";
        json_array_append_new(list, lw_lot_cell_json(&cell));
    }
    return list;
}

static json_t *left_of(const lw_crate_stock *stock)
{
    json_t *left = json_object();
    for (int r = 0; r < LW_LEFT_REASONS; r++)
        if (stock->left[r] > 0)
            json_object_set_new(left, lw_brief_left_keys[r], json_integer(stock->left[r]));
    return left;
}

static void put_stock(json_t *entry, const lw_crate_stock *stock)
{
    json_object_set_new(entry, "cells", list_of(stock));
    json_object_set_new(entry, "left_out", left_of(stock));
}

/* What an entry of shelf.cells[] asks to be filled in with. */
typedef struct crate_keeper {
    lw_crate_asked *asked;
    void *payload;
} crate_keeper;

static bool fill_crate(json_t *entry, const void *with, bool *filled, lw_error *err)
{
    const crate_keeper *keeper = with;
    const char *crate = json_string_value(json_object_get(entry, "crate"));
    const char *class = json_string_value(json_object_get(entry, "class"));
    if (!crate || !class || json_object_get(entry, "cells"))
        return true; /* what is wrong with it, the brief's reader says */
    lw_crate_stock stock = {.health = NAN};
    if (!keeper->asked(keeper->payload, crate, class, &stock, err))
        return false;
    put_stock(entry, &stock);
    if (!isnan(stock.health) && !json_object_get(entry, "health"))
        json_object_set_new(entry, "health", lw_json_number(fmin(1.0, fmax(0.3, stock.health))));
    *filled = true;
    return true;
}

static bool fill_cells(const json_t *brief, bool (*fill)(json_t *entry, const void *with, bool *filled, lw_error *err),
                       const void *with, bool *filled, lw_error *err)
{
    const json_t *list = json_object_get(json_object_get(brief, "shelf"), "cells");
    for (size_t i = 0; i < json_array_size(list); i++)
        if (!fill(json_array_get(list, i), with, filled, err))
            return false;
    return true;
}

/* The brief as text, all digits of its prices kept. */
static bool to_text(const json_t *brief, char **out, lw_error *err)
{
    *out = json_dumps(brief, JSON_COMPACT | JSON_REAL_PRECISION(LW_MONEY_DIGITS));
    return *out || lw_fail(err, LW_STORAGE, "", "There is not enough memory for the brief.");
}

bool lw_brief_fill_crates(const char *text, size_t length, lw_crate_asked *asked, void *payload, char **out,
                          lw_error *err)
{
    *out = NULL;
    json_t *json = lw_json_parse(text, length, err);
    bool filled = false;
    const crate_keeper keeper = {asked, payload};
    const bool done =
        json && fill_cells(json, fill_crate, &keeper, &filled, err) && (!filled || to_text(json, out, err));
    json_decref(json);
    return done;
}

static bool fill_list(json_t *entry, const void *with, bool *filled, lw_error *err)
{
    const lw_brief_files *files = with;
    const char *file = json_string_value(json_object_get(entry, "cells_file"));
    const char *class = json_string_value(json_object_get(entry, "class"));
    if (!file || !class || json_object_get(entry, "cells") || json_object_get(entry, "crate"))
        return true; /* held already; or what is wrong with it, the brief's reader says */
    lw_crate_stock stock = {.n = 0};
    if (!files->cells(files->payload, file, class, &stock, err))
        return false;
    if (stock.n == 0)
        return true;
    put_stock(entry, &stock);
    *filled = true;
    return true;
}

/* A name beside the brief becomes a whole path, where the reader takes one so long. */
static void fill_path(json_t *object, const char *key, const lw_brief_files *files, bool *filled)
{
    enum { MOST = 256 };
    char path[MOST] = "";
    const char *file = json_string_value(json_object_get(object, key));
    if (!file || file[0] == '/')
        return;
    files->path(files->payload, file, path, sizeof path);
    if (!path[0])
        return;
    json_object_set_new(object, key, json_string(path));
    *filled = true;
}

static void fill_paths(json_t *brief, const lw_brief_files *files, bool *filled)
{
    const json_t *heads = json_object_get(json_object_get(brief, "shelf"), "heads");
    const json_t *lane = json_object_get(json_object_get(brief, "want"), "lane");
    fill_path(json_object_get(brief, "place"), "weather_file", files, filled);
    fill_path(json_object_get(lane, "head"), "intensity_file", files, filled);
    for (size_t i = 0; i < json_array_size(heads); i++)
        fill_path(json_array_get(heads, i), "intensity_file", files, filled);
}

bool lw_brief_fill_files(const char *text, size_t length, const lw_brief_files *files, char **out, lw_error *err)
{
    *out = NULL;
    json_t *json = lw_json_parse(text, length, err);
    bool filled = false;
    bool done = json && fill_cells(json, fill_list, files, &filled, err);
    if (done)
        fill_paths(json, files, &filled);
    done = done && (!filled || to_text(json, out, err));
    json_decref(json);
    return done;
}
