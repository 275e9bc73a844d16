/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The shelf of a brief: currency, prices, counts, panels and cells. Electronics: brief_electronics.c.
 */
#include "brief_read.h"
#include "lot_cell.h"

#include <math.h>
#include <stdio.h>

enum { ENOUGH = 1000000 };

static int64_t amount(lw_doc *doc, const char *key, const lw_currency *currency)
{
    const double scale = pow(10.0, currency->decimals);
    const double price = lw_doc_number(doc, key, 0.0, (double)lw_price_max_minor / scale, currency->text);
    const double minor = round(price * scale);
    if (fabs(price * scale - minor) > 1e-6 * (1.0 + minor * 1e-9))
        lw_doc_fail(doc, key, "is %.10g; %s has %d decimals.", price, currency->text, currency->decimals);
    return (int64_t)minor;
}

int64_t lw_brief_read_price(lw_doc *doc, const lw_currency *currency)
{
    return amount(doc, "price", currency);
}

int64_t lw_brief_read_price_or(lw_doc *doc, const char *key, const lw_currency *currency)
{
    return lw_doc_has(doc, key) ? amount(doc, key, currency) : 0;
}

int lw_brief_read_count(lw_doc *doc, bool needed)
{
    if (!needed && !lw_doc_has(doc, "count"))
        return ENOUGH;
    const double count = lw_doc_number(doc, "count", 0.0, ENOUGH, "pieces");
    if (count != floor(count))
        lw_doc_fail(doc, "count", "is %.6g; it must be a whole number.", count);
    return doc->root->failed ? 0 : (int)count;
}

void lw_brief_read_series(lw_doc *doc, int *least, int *most)
{
    double both[2] = {1.0, 1.0};
    const json_t *value = doc->object ? json_object_get(doc->object, "series") : NULL;
    if (json_is_array(value))
        (void)lw_doc_numbers(doc, "series", 1.0, 16.0, "cells", both, 2);
    else
        both[0] = both[1] = lw_doc_number(doc, "series", 1.0, 16.0, "cells in series");
    if (both[0] != floor(both[0]) || both[1] != floor(both[1]) || both[0] > both[1])
        lw_doc_fail(doc, "series", "must be a whole number, or two of them with the smaller first: [1, 4].");
    *least = (int)both[0];
    *most = (int)both[1];
}

static void read_label(lw_doc *doc, lw_shelf_panel *panel)
{
    panel->cells = lw_doc_integer_or(doc, "cells", 1, 144, (lw_doc_or){36.0, "cells", "cells of a \"12 V\" panel"});
    const bool label =
        lw_doc_has(doc, "voc_v") || lw_doc_has(doc, "isc_a") || lw_doc_has(doc, "vmp_v") || lw_doc_has(doc, "imp_a");
    const bool watts = lw_doc_has(doc, "watts");
    if (watts || !label)
        panel->watts = lw_doc_number(doc, "watts", 0.3, 1000.0, "W");
    if (!label) {
        lw_shelf_common_label(panel);
        if (!doc->root->failed)
            lw_assume(doc->root->assumed, doc->path, "only the watts were given: label of a common panel",
                      "%.1f V %.2f A, %.1f V %.2f A", panel->voc_v, panel->isc_a, panel->vmp_v, panel->imp_a);
        return;
    }
    panel->voc_v = lw_doc_number(doc, "voc_v", 0.4, 120.0, "V");
    panel->isc_a = lw_doc_number(doc, "isc_a", 0.01, 30.0, "A");
    panel->vmp_v = lw_doc_number(doc, "vmp_v", 0.3, 120.0, "V");
    panel->imp_a = lw_doc_number(doc, "imp_a", 0.01, 30.0, "A");
    if (panel->vmp_v >= panel->voc_v || panel->imp_a >= panel->isc_a)
        lw_doc_fail(doc, "vmp_v", "%.4g V and imp_a %.4g A must lie below voc_v %.4g V and isc_a %.4g A.", panel->vmp_v,
                    panel->imp_a, panel->voc_v, panel->isc_a);
    const double power = panel->vmp_v * panel->imp_a;
    if (watts && fabs(power / panel->watts - 1.0) > 0.12)
        lw_doc_fail(doc, "watts", "is %.4g W, but vmp_v times imp_a is %.4g W; read the label once more.", panel->watts,
                    power);
    panel->watts = watts ? panel->watts : power;
}

static void read_panels(lw_doc *shelf, lw_shelf *out)
{
    const json_t *list = lw_doc_list(shelf, "panels", 1, LW_SHELF_KINDS);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(shelf, "panels", list, i);
        lw_shelf_panel *panel = &out->panel[out->panel_count++];
        read_label(&doc, panel);
        char name[LW_NAME];
        (void)snprintf(name, sizeof name, "%.4g W panel", panel->watts);
        lw_doc_text(&doc, "name", name, panel->name, sizeof panel->name);
        panel->tolerance_pct = lw_doc_number_or(&doc, "tolerance_pct", 0.0, 30.0,
                                                (lw_doc_or){5.0, "%", "spread of cheap panels around their label"});
        panel->count = lw_brief_read_count(&doc, true);
        panel->price_minor = lw_brief_read_price(&doc, &out->currency);
        (void)lw_doc_done(&doc);
    }
}

/* Cells that stand one by one: their number and means; the plan reads them themselves (lw_brief_cells). */
static void read_listed(lw_doc *doc, lw_shelf_cell *cell)
{
    const json_t *list = lw_doc_list(doc, "cells", 1, LW_SHELF_CELLS);
    double ah = 0.0;
    for (size_t i = 0; i < json_array_size(list) && !doc->root->failed; i++) {
        lw_doc one = lw_doc_element(doc, "cells", list, i);
        ah += lw_lot_cell_read(&one, NULL).capacity_ah;
        (void)lw_doc_done(&one);
    }
    cell->listed = (int)json_array_size(list);
    cell->count = cell->listed;
    cell->capacity_ah = cell->listed > 0 ? ah / cell->listed : 1.0;
}

static void read_left(lw_doc *doc, lw_shelf_cell *cell)
{
    lw_doc left = lw_doc_part(doc, "left_out", false);
    for (int r = 0; r < LW_LEFT_REASONS; r++)
        cell->left[r] = lw_doc_integer_or(&left, lw_brief_left_keys[r], 0, 1000000, (lw_doc_or){0.0, "", NULL});
    (void)lw_doc_done(&left);
}

/* Capacity, count and resistance of a kind of cell; or the file, the crate or the list that tells of its cells one by
 * one. */
static void read_measured(lw_doc *doc, lw_shelf_cell *cell)
{
    lw_doc_text(doc, "cells_file", "", cell->cells_file, sizeof cell->cells_file);
    lw_doc_text(doc, "crate", "", cell->crate, sizeof cell->crate);
    const bool listed = lw_doc_has(doc, "cells");
    const char *source = cell->cells_file[0] ? "cells_file" : cell->crate[0] ? "crate" : listed ? "cells" : NULL;
    if (source) {
        if (lw_doc_has(doc, "capacity_ah") || lw_doc_has(doc, "count") || lw_doc_has(doc, "verdict"))
            lw_doc_fail(doc, source, "tells capacity, count and verdict of each cell; leave those three out.");
        if (cell->cells_file[0] && cell->crate[0])
            lw_doc_fail(doc, source, "and crate stand together; name one source of cells.");
        cell->verdict = LW_SHELF_SOUND;
        cell->capacity_ah = 1.0; /* until the list is read */
        cell->count = 1;
        if (listed)
            read_listed(doc, cell);
        read_left(doc, cell);
        return;
    }
    cell->verdict = (lw_shelf_verdict)lw_doc_choice(doc, "verdict", "sound|tired|unsure|scrap|untested", 0,
                                                    "cells were tested and found sound");
    cell->capacity_ah = lw_doc_number(doc, "capacity_ah", 0.05, 400.0, "Ah");
    cell->count = lw_brief_read_count(doc, true);
}

static void read_cells(lw_doc *shelf, lw_shelf *out)
{
    const json_t *list = lw_doc_list(shelf, "cells", 1, LW_SHELF_KINDS);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(shelf, "cells", list, i);
        lw_shelf_cell *cell = &out->cell[out->cell_count++];
        lw_doc_text(&doc, "name", "reclaimed cell", cell->name, sizeof cell->name);
        cell->voltage_class = (lw_shelf_class)lw_doc_choice(&doc, "class", "4v2|4v35|lfp|unknown", -1, NULL);
        read_measured(&doc, cell);
        cell->capacity_sd_pct =
            lw_doc_number_or(&doc, "capacity_sd_pct", 0.0, 40.0,
                             (lw_doc_or){5.0, "%", "spread of a pack's weakest group, sorted cells"});
        cell->health = lw_doc_number_or(&doc, "health", 0.3, 1.0,
                                        (lw_doc_or){0.75, "of new", "usual for cells of dead laptop packs"});
        cell->resistance_ohm = lw_doc_number_or(&doc, "resistance_ohm", 0.0005, 1.0,
                                                (lw_doc_or){0.09, "ohm", "worn cell of the 18650 size"});
        cell->lowest_found_v = lw_doc_number_or(&doc, "lowest_found_v", 0.0, 4.5, (lw_doc_or){NAN, "V", NULL});
        cell->recovered = lw_doc_flag_or(&doc, "recovered", false, NULL);
        cell->price_minor = lw_brief_read_price(&doc, &out->currency);
        (void)lw_doc_done(&doc);
    }
}

static void read_parts(lw_doc *shelf, lw_shelf *out)
{
    const json_t *list = lw_doc_list(shelf, "parts", 0, LW_SHELF_KINDS);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(shelf, "parts", list, i);
        lw_shelf_part *part = &out->part[out->part_count++];
        lw_doc_text(&doc, "name", NULL, part->name, sizeof part->name);
        part->per_lamp = lw_doc_integer_or(&doc, "per_lamp", 1, 1000, (lw_doc_or){1.0, "", NULL});
        part->count = lw_brief_read_count(&doc, false);
        part->price_minor = lw_brief_read_price(&doc, &out->currency);
        (void)lw_doc_done(&doc);
    }
}

/* A shelf without any panel or cell makes no lamp. */
static void check_counts(lw_doc *shelf, const lw_shelf *out)
{
    int cells = 0, panels = 0;
    for (size_t i = 0; i < out->cell_count; i++)
        cells += out->cell[i].count;
    for (size_t i = 0; i < out->panel_count; i++)
        panels += out->panel[i].count;
    if (cells < 1)
        lw_doc_fail(shelf, "cells[1].count", "is 0; a pack needs at least one cell.");
    if (panels < 1)
        lw_doc_fail(shelf, "panels[1].count", "is 0; a lamp needs at least one panel.");
}

void lw_brief_read_shelf(lw_doc *brief, lw_shelf *shelf, lw_layout_request *light)
{
    lw_doc doc = lw_doc_part(brief, "shelf", true);
    lw_doc money = lw_doc_part(&doc, "currency", false);
    lw_doc_text(&money, "text", "units", shelf->currency.text, sizeof shelf->currency.text);
    if (!doc.root->failed && !shelf->currency.text[0])
        lw_doc_fail(&money, "text", "is empty; it must be a text of 1 to %zu letters such as K.",
                    sizeof shelf->currency.text - 1);
    shelf->currency.decimals = lw_doc_integer_or(&money, "decimals", 0, 3, (lw_doc_or){2.0, "", "two decimals"});
    (void)lw_doc_done(&money);
    shelf->most_panels =
        lw_doc_integer_or(&doc, "most_panels_per_lamp", 1, 6, (lw_doc_or){2.0, "panels", "what one mast can carry"});
    shelf->most_parallel =
        lw_doc_integer_or(&doc, "most_parallel", 1, 40, (lw_doc_or){12.0, "cells", "what a box on the mast can hold"});
    read_panels(&doc, shelf);
    read_cells(&doc, shelf);
    lw_brief_read_chargers(&doc, shelf);
    lw_brief_read_boards(&doc, shelf);
    lw_brief_read_drivers(&doc, shelf);
    lw_brief_read_switch_parts(&doc, shelf);
    read_parts(&doc, shelf);
    lw_brief_read_heads(&doc, shelf, light);
    lw_brief_read_masts(&doc, shelf);
    lw_brief_read_prices(&doc, shelf);
    check_counts(&doc, shelf);
    (void)lw_doc_done(&doc);
}
