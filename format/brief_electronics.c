/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The electronics of a brief's shelf: chargers, protection boards, LED drivers. What decides on safety (where
 * charging stops, at what temperatures, where a board opens) is never assumed: not stated is not counted on.
 */
#include "brief_read.h"

#include <math.h>
#include <stdio.h>

enum { ENOUGH = 1000000 };

static void read_limits(lw_doc *doc, lw_shelf_charger *charger)
{
    const bool direct = charger->kind == LW_SHELF_DIRECT;
    const lw_doc_or none = {NAN, "V", NULL};
    if (direct)
        charger->end_v_per_cell = lw_doc_number_or(doc, "end_v_per_cell", 2.0, 5.0, none);
    else
        charger->end_v_per_cell = lw_doc_number(doc, "end_v_per_cell", 2.0, 5.0, "V");
    if (direct && !lw_doc_has(doc, "most_a"))
        charger->most_a = INFINITY;
    else
        charger->most_a = lw_doc_number(doc, "most_a", 0.05, 60.0, "A");
    charger->most_input_v = lw_doc_number(doc, "most_input_v", 3.0, 150.0, "V");
    charger->most_input_w =
        lw_doc_has(doc, "most_input_w") ? lw_doc_number(doc, "most_input_w", 0.5, 2000.0, "W") : INFINITY;
    charger->cold_stop_c = lw_doc_number_or(doc, "cold_stop_c", -40.0, 20.0, (lw_doc_or){NAN, "degC", NULL});
    charger->hot_stop_c = lw_doc_number_or(doc, "hot_stop_c", 30.0, 90.0, (lw_doc_or){NAN, "degC", NULL});
    if (doc->root->failed)
        return;
    if (isnan(charger->cold_stop_c))
        lw_assume(doc->root->assumed, doc->path, "cold_stop_c is not stated, so none is counted on",
                  "charges when cold");
    if (isnan(charger->hot_stop_c))
        lw_assume(doc->root->assumed, doc->path, "hot_stop_c is not stated, so none is counted on", "charges when hot");
}

void lw_brief_read_chargers(lw_doc *shelf, lw_shelf *out)
{
    const json_t *list = lw_doc_list(shelf, "chargers", 1, LW_SHELF_KINDS);
    char name[LW_NAME];
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(shelf, "chargers", list, i);
        lw_shelf_charger *charger = &out->charger[out->charger_count++];
        charger->kind = (lw_shelf_charging)lw_doc_choice(&doc, "kind", "direct|linear|tracking", -1, NULL);
        (void)snprintf(name, sizeof name, "%s charger", lw_shelf_charging_text(charger->kind));
        lw_doc_text(&doc, "name", name, charger->name, sizeof charger->name);
        lw_brief_read_series(&doc, &charger->series_min, &charger->series_max);
        const lw_common_charger *kind = lw_shelf_common_charger(charger->kind);
        charger->drop_v = lw_doc_number_or(&doc, "drop_v", 0.0, 5.0, (lw_doc_or){kind->drop_v, "V", kind->why});
        charger->standby_a =
            lw_doc_number_or(&doc, "standby_a", 0.0, 1.0, (lw_doc_or){kind->standby_a, "A", kind->why});
        charger->efficiency = 1.0;
        if (charger->kind == LW_SHELF_TRACKING)
            charger->efficiency =
                lw_doc_number_or(&doc, "efficiency", 0.4, 1.0, (lw_doc_or){kind->efficiency, "", kind->why});
        read_limits(&doc, charger);
        charger->count = lw_brief_read_count(&doc, false);
        charger->price_minor = lw_brief_read_price(&doc, &out->currency);
        (void)lw_doc_done(&doc);
    }
}

void lw_brief_read_boards(lw_doc *shelf, lw_shelf *out)
{
    const json_t *list = lw_doc_list(shelf, "boards", 0, LW_SHELF_KINDS);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(shelf, "boards", list, i);
        lw_shelf_board *board = &out->board[out->board_count++];
        lw_doc_text(&doc, "name", "protection board", board->name, sizeof board->name);
        lw_brief_read_series(&doc, &board->series, &board->series);
        board->every_group = lw_doc_flag_or(&doc, "every_group", board->series == 1, NULL);
        board->balances = lw_doc_flag_or(&doc, "balances", false, NULL);
        board->high_v = lw_doc_number(&doc, "high_v", 2.0, 5.0, "V for each group");
        board->low_v = lw_doc_number(&doc, "low_v", 0.0, 4.0, "V for each group");
        board->count = lw_brief_read_count(&doc, false);
        board->price_minor = lw_brief_read_price(&doc, &out->currency);
        (void)lw_doc_done(&doc);
    }
    if (out->board_count == 0 && !shelf->root->failed)
        lw_assume(shelf->root->assumed, "shelf.boards", "none listed: one that fits is bought for every pack",
                  "price not counted");
}

static void assume_driver(lw_doc *shelf, lw_shelf *out)
{
    lw_assume(shelf->root->assumed, "shelf.drivers", "none listed: a driver that is part of the head",
              "88 %% efficient, price not counted");
    const lw_shelf_driver usual = {.name = "driver of the head",
                                   .kind = LW_SHELF_BUCK,
                                   .series_min = 2,
                                   .series_max = 16,
                                   .efficiency = 0.88,
                                   .standby_a = 0.001,
                                   .most_w = INFINITY,
                                   .head_v = NAN,
                                   .low_stop_v_per_cell = NAN,
                                   .dims = true,
                                   .count = ENOUGH};
    lw_shelf_driver up = usual; /* one group cannot light a white LED from above */
    (void)snprintf(up.name, sizeof up.name, "step-up driver of the head");
    up.kind = LW_SHELF_BOOST;
    up.series_min = up.series_max = 1;
    out->driver[out->driver_count++] = usual;
    out->driver[out->driver_count++] = up;
}

void lw_brief_read_drivers(lw_doc *shelf, lw_shelf *out)
{
    const json_t *list = lw_doc_list(shelf, "drivers", 0, LW_SHELF_KINDS);
    for (size_t i = 0; i < json_array_size(list); i++) {
        lw_doc doc = lw_doc_element(shelf, "drivers", list, i);
        lw_shelf_driver *driver = &out->driver[out->driver_count++];
        driver->kind = (lw_shelf_driving)lw_doc_choice(&doc, "kind", "constant_current|resistor|buck|boost", -1, NULL);
        lw_doc_text(&doc, "name", "LED driver", driver->name, sizeof driver->name);
        lw_brief_read_series(&doc, &driver->series_min, &driver->series_max);
        driver->efficiency =
            lw_doc_number_or(&doc, "efficiency", 0.3, 1.0, (lw_doc_or){0.88, "", "common small LED driver"});
        driver->standby_a = lw_doc_number_or(&doc, "standby_a", 0.0, 1.0, (lw_doc_or){0.001, "A", "common practice"});
        if (driver->kind == LW_SHELF_CONSTANT_CURRENT || driver->kind == LW_SHELF_RESISTOR)
            driver->head_v = lw_doc_number(&doc, "head_v", 1.5, 60.0, "V of the LED string at full light");
        else
            driver->head_v = lw_doc_number_or(&doc, "head_v", 1.5, 60.0, (lw_doc_or){NAN, "V", NULL});
        driver->most_w = lw_doc_has(&doc, "most_w") ? lw_doc_number(&doc, "most_w", 0.05, 200.0, "W") : INFINITY;
        driver->low_stop_v_per_cell =
            lw_doc_number_or(&doc, "low_stop_v_per_cell", 1.5, 4.0, (lw_doc_or){NAN, "V", NULL});
        driver->dims = lw_doc_flag_or(&doc, "dims", true, NULL);
        driver->count = lw_brief_read_count(&doc, false);
        driver->price_minor = lw_brief_read_price(&doc, &out->currency);
        (void)lw_doc_done(&doc);
    }
    if (out->driver_count == 0 && !shelf->root->failed)
        assume_driver(shelf, out);
}
