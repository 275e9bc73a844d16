/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A planned lamp as a circuit, and its charging over the year: will a 6, a 9 or an 18 V panel fill the pack.
 */
#include "lanewick/lamp_build.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static unsigned char memory[4 << 20];
static lw_brief brief;
static lw_lamp_readings readings;

/* voc, vmp of the panel; charger; groups in series */
static const char form[] =
    "{\"format\": \"lanewick.brief/1\", \"place\": {\"lat_deg\": 9.1, \"lon_deg\": -79.4},"
    "\"want\": {\"lumens\": 300}, \"shelf\": {\"panels\": [{\"voc_v\": %g, \"isc_a\": 1.24, \"vmp_v\": %g, \"imp_a\": "
    "1.14, \"cells\": %d, \"count\": 2, \"price\": 1}],"
    "\"cells\": [{\"class\": \"4v2\", \"capacity_ah\": 2.0, \"count\": 24, \"price\": 1}],"
    "\"chargers\": [{%s, \"series\": %d, \"most_input_v\": 30, \"price\": 1}],"
    "\"drivers\": [{\"kind\": \"%s\", \"series\": [1, 4], \"efficiency\": 0.9, \"price\": 1}]}}";
static const char direct[] = "\"kind\": \"direct\", \"end_v_per_cell\": 4.1";
static const char linear[] = "\"kind\": \"linear\", \"end_v_per_cell\": 4.2, \"most_a\": 1";
static const char tracking[] = "\"kind\": \"tracking\", \"end_v_per_cell\": 4.1, \"most_a\": 3";
static const char no_diode[] = "\"kind\": \"direct\", \"end_v_per_cell\": 4.1, \"drop_v\": 0.05";

static void read(double voc_v, double vmp_v, int cells, const char *charger, int series, const char *driver)
{
    char text[2000];
    lw_error err = {0};
    (void)snprintf(text, sizeof text, form, voc_v, vmp_v, cells, charger, series, driver);
    if (!lw_brief_from_json(text, strlen(text), &brief, &err))
        fail_msg("%s", err.message);
}

static lw_climate warm(void)
{
    lw_climate climate = {0};
    for (int m = 0; m < 12; m++) {
        climate.t_mean_c[m] = m == 3 ? 30.0 : 27.0;
        climate.t_range_c[m] = 10.0;
    }
    return climate;
}

/* April: 30 + 5 + 28 = 63 degC, 38 K above the label's 25. An "18 V" panel of 36 cells loses 0.0034 x 21.6 x 38 = 2.79
 * V and keeps 17.6 - 2.79 - 0.40 = 14.41 V behind the diode, for 12.3 V of full pack. */
static void a_hot_noon(void **state)
{
    (void)state;
    const lw_climate climate = warm();
    const lw_design design = {.panels = 1, .series = 3, .parallel = 4, .board = -1};
    read(21.6, 17.6, 36, direct, 3, "buck");
    lw_charge_year year = lw_charge_year_of(&brief, &climate, &design);
    assert_true(year.fills && fabs(year.month[3].panel_v - 14.409) < 0.002 && fabs(year.month[3].pack_v - 12.3) < 1e-9);
    assert_true(year.month[3].panel_v < year.month[2].panel_v);
    /* nearly the short-circuit current at nine tenths of the sun, and never above it */
    assert_true(year.month[3].amps > 0.9 * 1.14 && year.month[3].amps < 0.9 * 1.24);
    assert_true(year.back_ma < 0.1);
    assert_true(fabs(year.ice_ohm - 33621.0) < 5.0 && fabs(year.hot_ohm - 4348.0) < 2.0); /* 10 kohm, B 3950 K */
    assert_true(fabs(year.bleed_h - 0.01 * 8.0 / 0.05) < 1e-9 && year.long_life_v == 4.10);
}

static void which_panel_fits(void **state)
{
    (void)state;
    static const struct {
        double voc_v, vmp_v;
        int cells;
        const char *charger;
        int series;
        bool fills;
    } rows[] = {
        {7.2, 6.0, 12, linear, 1, true},    /* "6 V" on one group: 6 - 0.93 - 0.3 = 4.8 V */
        {7.2, 6.0, 12, direct, 2, false},   /* never on two */
        {10.8, 9.0, 18, direct, 2, false},  /* "9 V" on two groups: 9 - 1.40 - 0.4 = 7.2 of 8.2 V */
        {10.8, 9.0, 18, tracking, 2, true}, /* but through a charger that converts */
        {21.6, 17.6, 36, direct, 3, true},  {21.6, 17.6, 36, direct, 4, false}, /* 14.4 of 16.4 V */
    };
    const lw_climate climate = warm();
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const lw_design design = {.panels = 1, .series = rows[i].series, .parallel = 2, .board = -1};
        read(rows[i].voc_v, rows[i].vmp_v, rows[i].cells, rows[i].charger, rows[i].series, "buck");
        const lw_charge_year year = lw_charge_year_of(&brief, &climate, &design);
        if (year.fills != rows[i].fills)
            fail_msg("row %zu: %.2f V for %.2f V", i, year.month[3].panel_v, year.month[3].pack_v);
    }
    read(21.6, 17.6, 36, no_diode, 3, "buck");
    const lw_design design = {.panels = 2, .series = 3, .parallel = 2, .board = -1};
    /* 12.3 V over two panels' 3 kohm */
    assert_true(fabs(lw_charge_year_of(&brief, &climate, &design).back_ma - 8.2) < 0.01);
}

/* Power into the head over the driver's efficiency comes out of the pack; by day nothing burns; the strings get theirs.
 */
static void as_a_circuit(void **state)
{
    (void)state;
    static const struct {
        const char *driver, *charger;
        int series;
    } rows[] = {{"buck", direct, 3}, {"boost", linear, 1}, {"buck", tracking, 4}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const lw_design design = {.panels = 1, .series = rows[i].series, .parallel = 4, .board = -1};
        lw_lamp_circuit lamp;
        lw_error err = {0};
        lw_arena arena = lw_arena_over(memory, sizeof memory);
        const bool one = rows[i].series == 1;
        read(one ? 7.2 : 21.6, one ? 6.0 : 17.6, one ? 12 : 36, rows[i].charger, rows[i].series, rows[i].driver);
        const lw_dusk_board none = {0};
        if (!lw_plan_circuit_of(&brief, &brief.want.lamp[0], &design, &none, &lamp, &err) ||
            !lw_lamp_read(&lamp, 50, 1, &arena, &readings, &err))
            fail_msg("row %zu: %s", i, err.message);
        const lw_circuit_reading *night = readings.at[LW_LAMP_MIDNIGHT], *noon = readings.at[LW_LAMP_NOON_FULL];
        const double head_w = night[LW_TP_HEAD_V].expected * night[LW_TP_LAMP_A].expected;
        const double pack_w = night[LW_TP_BUS_V].expected * night[LW_TP_PACK_A].expected;
        assert_true(pack_w > head_w / 0.9 && pack_w < 1.12 * head_w / 0.9); /* wires and comparator besides */
        assert_true(fabs(night[LW_TP_STRING_A].expected / lamp.head.led_a - 1.0) < 0.05);
        assert_true(noon[LW_TP_LAMP_A].expected < 1e-4 && noon[LW_TP_PACK_A].expected < 0.003);
        assert_true(noon[LW_TP_PACK_V].high < rows[i].series * 4.25);
        assert_null(lw_lamp_refusal(&readings));
        assert_true(readings.at[LW_LAMP_SHORTED][LW_TP_PACK_A].expected > lamp.protection.trip_a);
    }
}

/* The empty lamp is that of the nights: the driver stops at 3.4 V a group, 10.2 V less what pack and wires take. */
static void empty_is_where_the_driver_stops(void **state)
{
    (void)state;
    const lw_design design = {.panels = 1, .series = 3, .parallel = 4, .board = -1};
    const lw_dusk_board none = {0};
    lw_lamp_circuit lamp;
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    read(21.6, 17.6, 36, direct, 3, "buck");
    brief.shelf.driver[0].low_stop_v_per_cell = 3.4;
    assert_true(lw_plan_circuit_of(&brief, &brief.want.lamp[0], &design, &none, &lamp, &err));
    assert_true(lw_lamp_read(&lamp, 0, 1, &arena, &readings, &err));
    const lw_circuit_reading *empty = readings.at[LW_LAMP_EMPTY];
    assert_true(empty[LW_TP_PACK_V].expected < 10.2 && empty[LW_TP_PACK_V].expected > 10.0);
    assert_true(empty[LW_TP_LAMP_A].expected > 0.01);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(a_hot_noon), cmocka_unit_test(which_panel_fits),
                                       cmocka_unit_test(as_a_circuit),
                                       cmocka_unit_test(empty_is_where_the_driver_stops)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
