/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The hard limits of safety: a good lamp passes, and each limit, broken alone, refuses with reason, remedy and source.
 */
#include "lanewick/plan.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static lw_brief good_brief(void)
{
    lw_brief b = {0};
    b.build = (lw_build){.pack_in = LW_SEAT_BOX, .vent = true, .fuse = true, .protection = true};
    b.shelf.panel_count = b.shelf.cell_count = b.shelf.charger_count = b.shelf.board_count = b.shelf.driver_count = 1;
    b.shelf.panel[0] = (lw_shelf_panel){.name = "panel", .watts = 20, .voc_v = 21.6, .vmp_v = 17.6, .count = 3};
    b.shelf.cell[0] = (lw_shelf_cell){.name = "cell", .capacity_ah = 1.9, .lowest_found_v = NAN, .count = 30};
    b.shelf.charger[0] = (lw_shelf_charger){.name = "charger",
                                            .series_min = 3,
                                            .series_max = 3,
                                            .end_v_per_cell = 4.1,
                                            .most_input_v = 26.0,
                                            .cold_stop_c = NAN,
                                            .hot_stop_c = NAN};
    b.shelf.board[0] = (lw_shelf_board){
        .name = "board", .series = 3, .every_group = true, .balances = true, .high_v = 4.25, .low_v = 2.8};
    b.shelf.driver[0] = (lw_shelf_driver){.name = "driver", .low_stop_v_per_cell = NAN};
    return b;
}

static const lw_design three_by_four = {.panels = 1, .series = 3, .parallel = 4};

static void a_good_lamp_passes(void **state)
{
    (void)state;
    const lw_brief b = good_brief();
    lw_refusals out = {0};
    const lw_box_life mild = {3.0, 41.0, 0.0, 0.0};
    assert_true(lw_limits_brief(&b, &out));
    assert_true(lw_limits_design(&b, &three_by_four, 2.0, &out));
    assert_true(lw_limits_box(&b.shelf.charger[0], &mild, &out));
    assert_int_equal(out.count, 0);
}

/* Limits broken in the brief itself, one at a time. */
static void break_build(lw_brief *b, int which)
{
    lw_build *build = &b->build;
    lw_shelf_cell *cell = &b->shelf.cell[0];
    switch (which) {
    case 0:
        build->pack_in = LW_SEAT_HEAD;
        break;
    case 1:
        build->pack_in = LW_SEAT_ROOM;
        break;
    case 2:
        build->vent = false;
        break;
    case 3:
        build->fuse = false;
        break;
    case 4:
        build->protection = false;
        break;
    case 5:
        cell->voltage_class = LW_SHELF_UNKNOWN;
        break;
    case 6:
        cell->verdict = LW_SHELF_UNSURE;
        break;
    case 7:
        cell->lowest_found_v = 1.93;
        break;
    default:
        cell->lowest_found_v = 2.31;
        break;
    }
}

/* Limits broken by the parts of a design or by the box, one at a time. */
static void break_design(lw_brief *b, lw_design *design, lw_box_life *life, int which)
{
    lw_shelf *s = &b->shelf;
    switch (which) {
    case 0:
        s->charger[0].end_v_per_cell = NAN;
        break;
    case 1:
        s->charger[0].end_v_per_cell = 4.27;
        break;
    case 2:
        s->board[0].low_v = 2.3;
        break;
    case 3:
        s->board[0].balances = false;
        break;
    case 4:
        s->charger[0].most_input_v = 22.0;
        break;
    case 5:
        *life = (lw_box_life){-6.0, 30.0, 40.0, 0.0};
        s->charger[0].cold_stop_c = -5.0;
        break;
    case 6:
        *life = (lw_box_life){5.0, 52.0, 0.0, 90.0};
        break;
    case 7:
        s->panel[0].voc_v = 57.0;
        s->charger[0].most_input_v = 100.0;
        break;
    case 8:
        s->board[0].high_v = 4.41;
        break;
    default:
        design->board = -1;
        break;
    }
}

static void is_refused(const lw_brief *b, const lw_design *design, const lw_box_life *life, const char *id)
{
    lw_refusals out = {0};
    const bool brief = lw_limits_brief(b, &out), made = lw_limits_design(b, design, -9.0, &out);
    const bool box = lw_limits_box(&b->shelf.charger[0], life, &out);
    bool found = false;
    for (size_t k = 0; k < out.count; k++) {
        found = found || strcmp(out.item[k].id, id) == 0;
        assert_true(out.item[k].reason[0] && out.item[k].remedy[0] && out.item[k].source[0]);
    }
    if (!found || (brief && made && box))
        fail_msg("%s was not refused", id);
}

static void each_limit_refuses(void **state)
{
    (void)state;
    static const char *const of_brief[] = {"pack_in_head", "pack_where_people_sleep", "sealed_box",
                                           "no_fuse",      "no_protection",           "unknown_class",
                                           "cell_verdict", "found_too_low",           "found_too_low"};
    static const char *const of_design[] = {
        "no_charge_limit",  "charge_voltage",    "discharge_voltage", "groups_not_watched", "input_voltage",
        "charging_below_0", "charging_above_45", "above_60_v",        "board_voltage",      "no_protection_groups"};
    const lw_box_life mild = {3.0, 41.0, 0.0, 0.0};
    for (int i = 0; i < 9; i++) {
        lw_brief b = good_brief();
        break_build(&b, i);
        is_refused(&b, &three_by_four, &mild, of_brief[i]);
    }
    for (int i = 0; i < 10; i++) {
        lw_brief b = good_brief();
        lw_design design = three_by_four;
        lw_box_life life = mild;
        break_design(&b, &design, &life, i);
        is_refused(&b, &design, &life, of_design[i]);
    }
}

static void a_cut_off_makes_frost_acceptable(void **state)
{
    (void)state;
    lw_brief b = good_brief();
    const lw_box_life frost = {-6.0, 51.0, 40.0, 3.0};
    b.shelf.charger[0].cold_stop_c = 1.0;
    b.shelf.charger[0].hot_stop_c = 45.0;
    lw_refusals out = {0};
    assert_true(lw_limits_box(&b.shelf.charger[0], &frost, &out));
    b.shelf.cell[0].lowest_found_v = 2.31;
    b.shelf.cell[0].recovered = true;
    assert_true(lw_limits_brief(&b, &out));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_good_lamp_passes),
        cmocka_unit_test(each_limit_refuses),
        cmocka_unit_test(a_cut_off_makes_frost_acceptable),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
