/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the building sheets print of a lamp: head board, dusk switch, charge limits, mast.
 */
#include "lanewick/lamp_build.h"
#include "lanewick/led_string.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>

#include <cmocka.h>

static lw_brief brief;
static const lw_design design = {.panels = 1, .series = 3, .parallel = 4, .board = -1};

static void three_groups(lw_shelf_driving driving)
{
    brief.shelf.panel[0] = (lw_shelf_panel){.watts = 21.7, .vmp_v = 17.6, .isc_a = 1.24};
    brief.shelf.cell[0] = (lw_shelf_cell){.voltage_class = LW_SHELF_4V2, .capacity_ah = 1.87, .resistance_ohm = 0.06};
    brief.shelf.charger[0] = (lw_shelf_charger){.end_v_per_cell = 4.1, .cold_stop_c = 1.0, .hot_stop_c = 45.0};
    brief.shelf.driver[0] = (lw_shelf_driver){.kind = driving, .efficiency = 0.89, .head_v = NAN};
    brief.want.dusk_sun_deg = -4.0;
    brief.want.planned_years = 3.0;
    brief.place.lat_deg = -11.6;
    brief.place.lon_deg = 34.3;
    brief.shelf.switch_parts = lw_switch_parts_default();
    brief.build.sensor.distance_m = 0.4;
}

/* A 2835 part has 3.2 - 1.6 x 0.075 = 3.08 V at half its current, cold; below 0.8 x 9.0 V go two; 12.6 V x 1.15 = 14.5
 * V needs five for a boost. Each LED takes at most 0.231 W, so 3.57 W need at least 16. */
static void head_board_fits_its_driver(void **state)
{
    (void)state;
    static const struct {
        lw_shelf_driving driving;
        int series;
    } rows[] = {{LW_SHELF_BUCK, 2}, {LW_SHELF_BOOST, 5}, {LW_SHELF_CONSTANT_CURRENT, 2}, {LW_SHELF_RESISTOR, 2}};
    const lw_lamp_kind lamp = {.head_w = 3.57, .lumens = 380.0};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_head_board board;
        lw_error err = {0};
        three_groups(rows[i].driving);
        assert_true(lw_head_board_of(&brief, &lamp, &design, &board, &err));
        const int count = board.series * board.strings;
        assert_int_equal(board.series, rows[i].series);
        assert_true(count >= 16 && count < 16 + 2 * board.series);
        assert_true(board.led_a <= 0.5 * board.rated_a);
        assert_true(fabs(board.strings * board.string_v * board.led_a - 3.57) < 0.04 * 3.57);
        assert_true(board.light_lm > 380.0);
        assert_true(board.shares == (rows[i].driving != LW_SHELF_RESISTOR));
    }
}

/* Ballast: (12.6 V - two LEDs) over the current, rounded up: the LEDs never pass their current on a full pack. */
static void ballast_holds_the_current(void **state)
{
    (void)state;
    const lw_lamp_kind lamp = {.head_w = 2.31};
    lw_head_board board;
    lw_error err = {0};
    three_groups(LW_SHELF_RESISTOR);
    assert_true(lw_head_board_of(&brief, &lamp, &design, &board, &err));
    const double ohm = (12.6 - board.string_v) / board.led_a;
    assert_true(board.resistor_ohm >= ohm * (1.0 - 1e-9) && board.resistor_ohm < 1.11 * ohm); /* E24: 5 to 10 % apart */
}

static void places_lie_on_the_board(void **state)
{
    (void)state;
    const lw_head_board board = {
        .series = 3, .strings = 11, .rows = 6, .pitch_mm = 10.16, .width_mm = 10.16 * 10, .height_mm = 10.16 * 7};
    for (int s = 0; s < board.strings; s++)
        for (int k = 0; k < board.series; k++) {
            double x, y;
            lw_head_led_place(&board, s, k, &x, &y);
            assert_true(x > 5.0 && x < board.width_mm - 5.0 && y > 5.0 && y < board.height_mm - 5.0);
        }
}

/* Closed form of the divider, written out once more: E = 10 (R10 k / (Rb (1 - k)))^(1/gamma) with the middle of the
 * band of R10, sqrt(10 x 20) kohm; k = 11/27 and 16/27 for 100k, 100k, 220k. */
static void dusk_switch_by_hand(void **state)
{
    (void)state;
    void *memory = malloc(128 * 1024);
    lw_arena arena = lw_arena_over(memory, 128 * 1024);
    lw_dusk_board dusk;
    lw_error err = {0};
    three_groups(LW_SHELF_BUCK);
    assert_true(lw_dusk_board_of(&brief, &brief.want.lamp[0], &design, &arena, &dusk, &err));
    const double on = 10.0 * pow(14142.1356 * (11.0 / 16.0) / dusk.values.resistor_ohm, 1.0 / 0.6);
    const double off = 10.0 * pow(14142.1356 * (16.0 / 11.0) / dusk.values.resistor_ohm, 1.0 / 0.6);
    assert_true(fabs(dusk.on.nominal / on - 1.0) < 1e-6 && fabs(dusk.off.nominal / off - 1.0) < 1e-6);
    assert_true(dusk.on.worst_low < dusk.on.p05 && dusk.on.p05 < on && on < dusk.on.p95);
    assert_true(fabs(dusk.on_v - 11.1 * 11.0 / 27.0) < 1e-9 && fabs(dusk.off_v - 11.1 * 16.0 / 27.0) < 1e-9);
    assert_true(dusk.on.nominal > dusk.wanted_lx / 1.5 && dusk.on.nominal < 1.5 * dusk.wanted_lx); /* E12, R10 */
    free(memory);
}

/* 10 kohm exp(3950 (1/273.15 - 1/298.15)) = 33.62 kohm. */
static void charging_ends_where_the_charger_ends(void **state)
{
    (void)state;
    three_groups(LW_SHELF_BUCK);
    const lw_charge_card card = lw_charge_card_of(&brief, &design);
    assert_true(card.series == 3 && fabs(card.cell.full_v - 4.1) < 1e-12);
    assert_true(fabs(card.cell.full_worst_v - 4.141) < 1e-9 && fabs(card.cell.recharge_v - 3.98) < 1e-9);
    assert_true(fabs(card.ice_ohm - 33620.0) < 20.0 && fabs(card.room_ohm - 10000.0) < 1e-6);
    /* off where the nights end: the driver's stop above the class's 3.0 V, or the one below it */
    brief.shelf.driver[0].low_stop_v_per_cell = 3.4;
    assert_true(lw_charge_card_of(&brief, &design).cell.empty_v == 3.4);
    assert_true(fabs(lw_charge_card_of(&brief, &design).cell.empty_back_v - 3.7) < 1e-12);
    brief.shelf.driver[0].low_stop_v_per_cell = NAN;
    assert_true(lw_charge_card_of(&brief, &design).cell.empty_v == 3.0);
    brief.shelf.charger[0].end_v_per_cell = 4.24; /* with its tolerance at the hard limit and not above */
    assert_true(lw_charge_card_of(&brief, &design).cell.full_worst_v <= 4.25);
}

/* The wires drawn on the head sheet join what the circuit joins, for every size of board; faults are seen. */
/* What the volts say, read back by the inverse of the curve: a pack of 3 x 4 x 1.87 Ah x 3.7 V; a fifth of the charge
 * is left at the lowest, and a night takes 30 Wh. */
static void rests_between_empty_and_full(void **state)
{
    (void)state;
    three_groups(LW_SHELF_BUCK);
    lw_plan_kind kind = {.design = design, .outcome = {.lowest_charge_share = 0.2}};
    for (int m = 0; m < 12; m++)
        kind.outcome.load_month_wh[m] = 30.0 - m;
    const lw_ocv *ocv = &lw_class_4v2.ocv;
    const lw_pack_rest rest = lw_pack_rest_of(&brief, &kind);
    const double full = lw_ocv_charge(ocv, 4.1), whole_wh = full * lw_design_pack_wh(&brief.shelf, &design);
    assert_true(fabs(lw_ocv_charge(ocv, rest.dawn_low_v / 3.0) - 0.2 * full) < 1e-6);
    assert_true(fabs(lw_ocv_charge(ocv, rest.dusk_low_v / 3.0) - full * (0.2 + 36.0 / whole_wh)) < 1e-6);
    assert_true(fabs(lw_ocv_charge(ocv, rest.dawn_high_v / 3.0) - full * (1.0 - 0.8 * 19.0 / whole_wh)) < 1e-6);
    assert_true(fabs(rest.dusk_high_v - 3.0 * 4.1 * 1.01) < 1e-9);
    kind.outcome.lowest_charge_share = 0.95; /* a pack that is hardly used is full at dusk */
    assert_true(fabs(lw_pack_rest_of(&brief, &kind).dusk_low_v - 12.3) < 1e-6);
}

static void head_wires_join(void **state)
{
    (void)state;
    static lw_head_wire wires[LW_HEAD_WIRES];
    for (int series = 1; series <= 6; series++)
        for (int strings = 1; strings <= 26; strings += 1 + strings / 5) {
            lw_head_board board = {.series = series, .strings = strings, .pitch_mm = 10.16};
            const int blocks = (strings + 7) / 8;
            lw_error err = {0};
            board.rows = (strings + blocks - 1) / blocks;
            board.width_mm = blocks * (series + 2) * board.pitch_mm;
            board.height_mm = (board.rows + 1) * board.pitch_mm;
            const size_t count = lw_head_wires(&board, wires);
            if (!lw_head_wires_join(&board, wires, count, &err))
                fail_msg("%d x %d: %s", series, strings, err.message);
            wires[count - 1].x0_mm += 0.5; /* the last joint is not reached */
            assert_false(lw_head_wires_join(&board, wires, count, NULL));
            wires[count - 1].x0_mm -= 0.5 + 3.5; /* the last LED is bridged */
            assert_false(lw_head_wires_join(&board, wires, count, NULL));
        }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(head_board_fits_its_driver),
        cmocka_unit_test(ballast_holds_the_current),
        cmocka_unit_test(places_lie_on_the_board),
        cmocka_unit_test(dusk_switch_by_hand),
        cmocka_unit_test(rests_between_empty_and_full),
        cmocka_unit_test(head_wires_join),
        cmocka_unit_test(charging_ends_where_the_charger_ends),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
