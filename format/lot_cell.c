/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One tested cell as an object: see lot_cell.h.
 */
#include "lot_cell.h"

#include "json_help.h"

static const char *text_of(lw_doc *doc, const char *key, const char *fallback, lw_arena *arena)
{
    char text[64] = "";
    lw_doc_text(doc, key, fallback, text, sizeof text);
    if (!arena)
        return "";
    const char *kept = lw_arena_text(arena, text, doc->root->err);
    doc->root->failed = doc->root->failed || !kept;
    return kept;
}

/* One of the words, or "" when it is not told. */
static const char *word_of(lw_doc *doc, const char *key, const char *words, const char *const *list)
{
    const bool told = lw_doc_has(doc, key);
    const int place = told ? lw_doc_choice(doc, key, words, -1, NULL) : -1;
    return place >= 0 && !doc->root->failed ? list[place] : "";
}

lw_lot_cell lw_lot_cell_read(lw_doc *doc, lw_arena *arena)
{
    static const char *const classes[] = {"4v2", "4v35", "lfp", "unknown"};
    static const char *const verdicts[] = {"sound", "tired", "unsure", "scrap", "untested"};
    return (lw_lot_cell){
        .id = text_of(doc, "id", NULL, arena),
        .capacity_ah = lw_doc_number(doc, "capacity_ah", 0.001, 1000.0, "Ah"),
        .capacity_sd_ah = lw_doc_number_or(doc, "capacity_sd_ah", 0.0, 1000.0, (lw_doc_or){0.0, "Ah", NULL}),
        .resistance_mohm = lw_doc_number_or(doc, "resistance_mohm", 0.0, 1e5, (lw_doc_or){0.0, "mohm", NULL}),
        .voltage_class = word_of(doc, "voltage_class", "4v2|4v35|lfp|unknown", classes),
        .verdict = word_of(doc, "verdict", "sound|tired|unsure|scrap|untested", verdicts),
        .marking = text_of(doc, "marking", "", arena)};
}

static void put_text(json_t *out, const char *key, const char *text)
{
    if (text[0])
        json_object_set_new(out, key, lw_json_text(text));
}

static void put_number(json_t *out, const char *key, double x)
{
    if (x > 0.0)
        json_object_set_new(out, key, lw_json_number(x));
}

json_t *lw_lot_cell_json(const lw_lot_cell *cell)
{
    json_t *out = json_object();
    put_text(out, "id", cell->id);
    put_number(out, "capacity_ah", cell->capacity_ah);
    put_number(out, "capacity_sd_ah", cell->capacity_sd_ah);
    put_number(out, "resistance_mohm", cell->resistance_mohm);
    put_text(out, "voltage_class", cell->voltage_class);
    put_text(out, "verdict", cell->verdict);
    put_text(out, "marking", cell->marking);
    return out;
}
