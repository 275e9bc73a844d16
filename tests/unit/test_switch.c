/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The switch made by hand: values from what is at hand, minutes, what a schedule may ask, what enters the nights.
 */
#include "core/plan/dusk_minutes.h"
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

static unsigned char memory[1 << 20];

/* A photoresistor of no scatter at all still moves by 10 % either way between 5 and 45 degC: light by 1.1^(1/gamma). */
static void warmth_spreads_the_photoresistor(void **state)
{
    (void)state;
    lw_switch_parts parts = lw_switch_parts_default();
    parts.r10_low_ohm = parts.r10_high_ohm = 15e3;
    parts.gamma_low = parts.gamma_high = 0.6;
    const lw_switch_values values = {.resistor_ohm = 22e3, .r1_ohm = 100e3, .r2_ohm = 100e3, .r3_ohm = 220e3};
    const lw_dusk_parts bands = lw_switch_bands(&parts, &values, 9.0);
    const double lux = lw_ldr_lux(15e3, 0.6, 30e3);
    assert_true(fabs(lw_ldr_lux(bands.r10_high_ohm, 0.6, 30e3) / lux - pow(1.1, 1.0 / 0.6)) < 1e-9);
    assert_true(fabs(lw_ldr_lux(bands.r10_low_ohm, 0.6, 30e3) / lux - pow(1.1, -1.0 / 0.6)) < 1e-9);
}

static void near(double is, double should)
{
    if (!(fabs(is / should - 1.0) < 1e-9))
        fail_msg("%.10g should be %.10g", is, should);
}

static lw_switch_wish three_groups(lw_switch_kind kind)
{
    return (lw_switch_wish){
        .kind = kind, .wanted_lx = 2.83, .empty_v = 9.0, .middle_v = 11.1, .step_h = 5.0, .level = 0.4};
}

/* R1 = R2 = 100k, R3 = 220k switches a 15k photoresistor of slope 0.6 with 22k at 2.829 and 9.863 lx (closed form and a
 * general circuit solver); with sqrt(10k x 20k) the divider's nearest E12 value is 22k as well. */
static void common_parts(void **state)
{
    (void)state;
    const lw_switch_parts parts = lw_switch_parts_default();
    const lw_switch_wish wish = three_groups(LW_SWITCH_DUSK);
    lw_switch_values v;
    lw_error err = {0};
    assert_true(lw_switch_values_for(&parts, &wish, &v, &err));
    near(v.r1_ohm, 100e3);
    near(v.r2_ohm, 100e3);
    near(v.r3_ohm, 220e3);
    near(v.resistor_ohm, 22e3);
    const double scale = pow(14142.1356 / 15000.0, 1.0 / 0.6);
    assert_true(fabs(v.lux_on / (2.829 * scale) - 1.0) < 1e-3 && fabs(v.lux_off / (9.863 * scale) - 1.0) < 1e-3);
    /* 0.6 mA + 11.1 V / 200k + half of 11.1 V / 22k */
    assert_true(fabs(v.standby_a - (0.6e-3 + 55.5e-6 + 252.3e-6)) < 1e-7);
    assert_true(v.timer_h == 0.0 && v.dim_hz == 0.0);
}

/* On one empty cell of 3.0 V inputs that end 1.5 V below the supply need a low reference; parts that work up to the
 * supply do not. */
static void one_cell(void **state)
{
    (void)state;
    lw_switch_parts parts = lw_switch_parts_default();
    lw_switch_wish wish = three_groups(LW_SWITCH_DUSK);
    lw_switch_values v;
    lw_error err = {0};
    wish.empty_v = 3.0;
    wish.middle_v = 3.7;
    assert_true(lw_switch_values_for(&parts, &wish, &v, &err));
    assert_true(3.0 * v.high <= 1.5);
    assert_true(v.lux_off >= 3.0 * v.lux_on && v.lux_off <= 6.0 * v.lux_on);
    parts.headroom_v = 0.0;
    assert_true(lw_switch_values_for(&parts, &wish, &v, &err));
    near(v.r1_ohm, 100e3);
    near(v.r3_ohm, 220e3);
    parts.headroom_v = 2.9;
    assert_false(lw_switch_values_for(&parts, &wish, &v, &err));
    assert_non_null(strstr(err.message, "Take a comparator that works up to its supply"));
}

static void only_what_is_at_hand(void **state)
{
    (void)state;
    lw_switch_parts parts = lw_switch_parts_default();
    const lw_switch_wish wish = three_groups(LW_SWITCH_DUSK);
    lw_switch_values v;
    lw_error err = {0};
    parts.resistors.count = 4;
    memcpy(parts.resistors.value_ohm, (const double[]){27e3, 82e3, 120e3, 270e3}, 4 * sizeof(double));
    assert_true(lw_switch_values_for(&parts, &wish, &v, &err));
    const double used[] = {v.resistor_ohm, v.r1_ohm, v.r2_ohm, v.r3_ohm};
    for (size_t i = 0; i < 4; i++) {
        bool there = false;
        for (size_t k = 0; k < 4; k++)
            there = there || used[i] == parts.resistors.value_ohm[k];
        assert_true(there);
    }
    parts.resistors.count = 3;
    memcpy(parts.resistors.value_ohm, (const double[]){100.0, 220.0, 470.0}, 3 * sizeof(double));
    assert_false(lw_switch_values_for(&parts, &wish, &v, &err));
    assert_non_null(strstr(err.message, "add values"));
}

/* Period 2.3 R C, output n after 2^(n-1) periods: data sheets of CMOS counters with oscillator (from memory). */
static void timer_and_level(void **state)
{
    (void)state;
    const lw_switch_parts parts = lw_switch_parts_default();
    const lw_switch_wish wish = three_groups(LW_SWITCH_TWO_LEVELS);
    lw_switch_values v;
    lw_error err = {0};
    assert_true(lw_switch_values_for(&parts, &wish, &v, &err));
    const double periods = pow(2.0, v.timer_stages - 1);
    assert_true(fabs(v.timer_h - periods * 2.3 * v.timer_ohm * v.timer_uf * 1e-6 / 3600.0) < 1e-9);
    assert_true(fabs(v.timer_h / 5.0 - 1.0) < 0.15 && v.timer_low_h < v.timer_h && v.timer_h < v.timer_high_h);
    assert_true(fabs(v.level - v.dim_on_ohm / (v.dim_on_ohm + v.dim_off_ohm)) < 1e-12 && fabs(v.level - 0.4) < 0.05);
    assert_true(v.level_low < v.level && v.level < v.level_high && v.dim_hz > 1000.0);
}

/* At the equator a factor of two in the threshold is about two and a half minutes, and the worst case of the common
 * parts, 0.73 to 6.34 lx around 2.83, is 3 minutes early to 5 late (closed form on the published daylight). */
static void minutes_at_the_equator(void **state)
{
    (void)state;
    const lw_place place = {.lat_deg = 0.0, .lon_deg = 20.0};
    lw_dusk_table table;
    lw_error err = {0};
    assert_true(lw_dusk_table_of(&place, -6.0, &table, &err));
    assert_true(fabs(lw_dusk_longer_min(&table, 2.992, 1.0)) < 0.1); /* 2.992 lx at -6 degrees */
    const double twice = lw_dusk_longer_min(&table, 10.0, 1.0) - lw_dusk_longer_min(&table, 5.0, 1.0);
    assert_true(twice > 2.2 && twice < 2.9);
    const double middle = lw_dusk_longer_min(&table, 2.83, 1.0);
    assert_true(fabs(lw_dusk_longer_min(&table, 6.34, 1.0) - middle - 3.0) < 0.6);
    assert_true(fabs(middle - lw_dusk_longer_min(&table, 0.73, 1.0) - 5.0) < 0.8);
    /* under a tenth of the light the lamp burns as with ten times the threshold */
    assert_true(fabs(lw_dusk_longer_min(&table, 3.0, 10.0) - lw_dusk_longer_min(&table, 30.0, 1.0)) < 1e-9);
    assert_true(lw_dusk_longer_min(&table, 1e9, 1.0) == table.half_min[LW_DUSK_HEIGHTS - 1] - table.wished_min);
}

/* 60 cd at 0.4 m, 85 degrees to the axis, a tube that lets a tenth through: 60 / 0.16 x cos 85 / 10 = 3.268 lx. */
static void own_light(void **state)
{
    (void)state;
    assert_true(fabs(lw_own_light_lx(60.0, 0.4, 85.0, 0.1) - 3.2684) < 1e-3);
    assert_true(lw_own_light_lx(60.0, 0.4, 100.0, 1.0) == 0.0);
}

static const char brief_text[] =
    "{\"format\": \"lanewick.brief/1\", \"place\": {\"lat_deg\": 9.1, \"lon_deg\": -79.4},"
    "\"want\": {\"lumens\": 300, \"switch\": \"%s\" %s},"
    "\"shelf\": {\"panels\": [{\"watts\": 20, \"count\": 2, \"price\": 12.5}],"
    "\"cells\": [{\"class\": \"4v2\", \"capacity_ah\": 2.05, \"count\": 24, \"price\": 0.40}], %s"
    "\"chargers\": [{\"kind\": \"direct\", \"series\": 3, \"end_v_per_cell\": 4.1, \"cold_stop_c\": 0, "
    "\"hot_stop_c\": 45, \"most_input_v\": 30, \"price\": 3.75}]}}";

static bool read(const char *circuit, const char *want, const char *shelf, lw_brief *brief, lw_error *err)
{
    char text[2000];
    (void)snprintf(text, sizeof text, brief_text, circuit, want, shelf);
    *err = (lw_error){0};
    return lw_brief_from_json(text, strlen(text), brief, err);
}

/* A schedule may use only what the circuit can do. */
static void schedules(void **state)
{
    (void)state;
    static const struct {
        const char *circuit, *want, *shelf, *says; /* says NULL: accepted */
    } rows[] = {
        {"dusk", "", "", NULL},
        {"driver", ", \"schedule\": [{\"from\": \"dusk\", \"to\": \"22:30\", \"level\": 1}]", "", NULL},
        {"dusk_timer", ", \"schedule\": [{\"from\": \"dusk\", \"to\": \"dusk+6h\", \"level\": 1}]", "", NULL},
        {"dusk", ", \"schedule\": [{\"from\": \"dusk\", \"to\": \"dusk+6h\", \"level\": 1}]", "",
         "stays on until dawn"},
        {"dusk_timer", ", \"schedule\": [{\"from\": \"dusk\", \"to\": \"22:30\", \"level\": 1}]", "", "needs a clock"},
        {"dusk_timer", ", \"schedule\": [{\"from\": \"dusk+1h\", \"to\": \"dusk+6h\", \"level\": 1}]", "", "no gaps"},
        {"dusk_timer",
         ", \"schedule\": [{\"from\": \"dusk\", \"to\": \"dusk+4h\", \"level\": 1}, {\"from\": \"dusk+4h\", \"to\": "
         "\"dawn\", \"level\": 0.3}]",
         "", "take two_levels"},
        {"two_levels",
         ", \"schedule\": [{\"from\": \"dusk\", \"to\": \"dusk+4h\", \"level\": 1}, {\"from\": \"dusk+4h\", \"to\": "
         "\"dawn\", \"level\": 0.3}]",
         "", NULL},
        {"two_levels", ", \"schedule\": [{\"from\": \"dusk\", \"to\": \"50%\", \"level\": 1}]", "", "needs a clock"},
        {"dusk", ", \"least_late_level\": 0.3", "", "cannot turn late light down"},
        {"dusk", ", \"dim_when_low\": {\"below_charge\": 0.3, \"level\": 0.5}", "", "does not know the pack's charge"},
        {"pack_dimming", "", "", "kind \"resistor\""},
        {"pack_dimming", "", "\"drivers\": [{\"kind\": \"resistor\", \"series\": 3, \"head_v\": 9.3, \"price\": 1}],",
         NULL},
        {"candle", "", "", "want.switch"},
        {"dusk", ", \"switch_sensor\": \"transistors\"", "", NULL},
        {"dusk", ", \"switch_sensor\": \"moth\"", "", "comparator|transistors|panel"},
        {"dusk", ", \"switch_sensor\": \"transistors\"", "\"switch_parts\": {\"vbe_v\": [0.65, 0.55]},",
         "stands first"},
        {"dusk", "", "\"switch_parts\": {\"values_ohm\": [1000, -5, 100]},", "values_ohm"},
        {"dusk", "", "\"switch_parts\": {\"r10_ohm\": [20000, 10000]},", "the lower number stands first"},
    };
    lw_brief *brief = malloc(sizeof *brief);
    assert_non_null(brief);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_error err;
        const bool done = read(rows[i].circuit, rows[i].want, rows[i].shelf, brief, &err);
        if (done != (rows[i].says == NULL) || (!done && !strstr(err.message, rows[i].says)))
            fail_msg("row %zu: %s", i, done ? "accepted" : err.message);
    }
    free(brief);
}

/* What the nights meet: longer burning, its spread, the draw, the timer's own hours. */
static void into_the_nights(void **state)
{
    (void)state;
    lw_brief *brief = malloc(sizeof *brief);
    lw_system *system = malloc(sizeof *system);
    lw_error err;
    const lw_design design = {.panels = 1, .series = 3, .parallel = 4, .board = -1};
    const lw_worn worn = {1.0, 1.0, 1.0};
    assert_true(brief && system);
    assert_true(read("two_levels",
                     ", \"schedule\": [{\"from\": \"dusk\", \"to\": \"dusk+4h\", \"level\": 1}, {\"from\": "
                     "\"dusk+4h\", \"to\": \"dawn\", \"level\": 0.3}]",
                     "", brief, &err));
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    assert_true(lw_plan_switching(brief, &arena, &err));
    assert_int_equal(arena.used, 0);
    const lw_lamp_kind *lamp = &brief->want.lamp[0];
    lw_dusk_board board;
    assert_true(lw_dusk_board_of(brief, lamp, &design, &arena, &board, &err));
    assert_true(board.own_stable && board.own_good && board.standby_wh_month > 1.0);
    assert_true(board.dusk.worst_low < board.dusk.p05 && board.dusk.p95 < board.dusk.worst_high);
    /* the comparator's offset weighs three times 4.2 V against three times 3.0 V: the full pack spreads less */
    assert_true(board.on_full.worst_high < board.on.worst_high && board.on_full.worst_low > board.on.worst_low);
    assert_true(fabs(board.on_full.nominal / board.on.nominal - 1.0) < 1e-9);
    assert_true(board.dark_cloud_min > board.longer_min && board.longer_min > board.dusk.nominal + board.dawn.nominal);
    assert_true(lw_plan_system(brief, lamp, &design, &worn, 15.0, 180.0, system, &err));
    assert_true(fabs(system->load.dusk_offset_min + 0.5 * board.longer_min) < 1e-9);
    assert_true(fabs(system->load.dusk_scatter_min - 0.5 * board.spread_min) < 1e-9);
    assert_true(system->load.spans[0].until.value == board.values.timer_h);
    assert_true(system->load.spans[1].level == board.values.level);
    assert_true(system->tolerances.load_pct > 3.0);
    brief->want.hand_switch = false;
    const double with_a = system->load.standby_a;
    assert_true(lw_plan_system(brief, lamp, &design, &worn, 15.0, 180.0, system, &err));
    assert_true(fabs(with_a - system->load.standby_a - board.values.standby_a) < 1e-12);
    assert_true(system->load.dusk_offset_min == 0.0);
    free(system);
    free(brief);
}

/* Kirchhoff at the panel: 30 lx make 0.3 mA of 1 A, over bleeder and leak together. */
static void the_panel_sees_the_dusk(void **state)
{
    (void)state;
    lw_switch_parts parts = lw_switch_parts_default();
    parts.supply_a = 2e-6, parts.offset_v = 0.0; /* CMOS */
    lw_switch_wish wish = three_groups(LW_SWITCH_DUSK);
    wish.sensor = LW_SENSE_PANEL;
    wish.wanted_lx = 30.0, wish.panel_isc_a = 1.0, wish.panel_vmp_v = 17.5, wish.panel_w = 16.0, wish.panels = 1;
    lw_switch_values v;
    lw_error err = {0};
    assert_true(lw_switch_values_for(&parts, &wish, &v, &err));
    const double ohm = 1.0 / (1.0 / v.resistor_ohm + 1.0 / sqrt(1e3 * 10e3));
    assert_true(fabs(v.lux_on / (1e5 * v.low * 11.1 / ohm) - 1.0) < 1e-9 && v.lux_on > 20.0 && v.lux_on < 45.0);
    assert_true(v.lux_off / v.lux_on > 2.5 && v.lux_off / v.lux_on < 6.0);
    assert_true(fabs(v.delay_s - v.delay_uf * 1e-6 * 47e3 * log(2.0)) < 1e-9 && v.delay_s > 4.0 && v.delay_s < 20.0);
    /* comparator, reference, and by day 17.5 V over the bleeder, carried from the panel's volts to the pack's */
    assert_true(fabs(v.standby_a - (2e-6 + 11.1 / (v.r1_ohm + v.r2_ohm) + 0.5 * 17.5 * 17.5 / v.resistor_ohm / 11.1)) <
                1e-9);
    /* a worse panel leaks more, so that it needs more light; its scatter holds both */
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_dusk_spread on, off;
    assert_true(lw_switch_tolerance(&parts, &v, 11.1, 2000, &arena, &on, &off, &err));
    const double leaky = v.lux_on * ohm * (1.0 / v.resistor_ohm + 1.0 / 1e3);
    assert_true(on.worst_high > leaky && on.worst_low < v.lux_on && on.p05 > on.worst_low && on.p95 < on.worst_high);
}

/* A photoresistor that never gets where the wish is: said so, by either circuit. */
static void out_of_reach(void **state)
{
    (void)state;
    lw_switch_parts parts = lw_switch_parts_default();
    lw_switch_wish wish = three_groups(LW_SWITCH_DUSK);
    wish.wanted_lx = 0.05;
    parts.r10_low_ohm = 1e6, parts.r10_high_ohm = 5e6;
    for (int sensor = LW_SENSE_COMPARATOR; sensor <= LW_SENSE_TRANSISTORS; sensor++) {
        lw_switch_values v;
        lw_error err = {0};
        wish.sensor = (lw_switch_sensor)sensor;
        assert_false(lw_switch_values_for(&parts, &wish, &v, &err));
        assert_true(strstr(err.message, "cannot reach 0.05 lux") != NULL);
    }
}

/* A capacitor that charges over Rb and the photoresistor side by side: simulated in small steps. */
static void headlights_must_last(void **state)
{
    (void)state;
    const lw_switch_parts parts = lw_switch_parts_default();
    lw_switch_wish wish = three_groups(LW_SWITCH_DUSK);
    for (int sensor = LW_SENSE_COMPARATOR; sensor <= LW_SENSE_TRANSISTORS; sensor++) {
        lw_switch_values v;
        lw_error err = {0};
        wish.sensor = (lw_switch_sensor)sensor;
        wish.full_v = 12.6;
        assert_true(lw_switch_values_for(&parts, &wish, &v, &err));
        const double ldr = lw_ldr_ohm(sqrt(10e3 * 20e3), 0.6, 2.0 * v.lux_off), step_s = 1e-3;
        double volts = 0.0, seconds = 0.0;
        while (volts < v.high * 11.1 && seconds < 100.0) {
            volts += step_s * ((11.1 - volts) / ldr - volts / v.resistor_ohm) / (v.delay_uf * 1e-6);
            seconds += step_s;
        }
        if (!(fabs(seconds / v.delay_s - 1.0) < 0.01))
            fail_msg("%s: %.2f s, stepped %.2f s", lw_switch_sensor_name(wish.sensor), v.delay_s, seconds);
    }
}

/* Every sensor enters the nights: its own draw, its own minutes. */
static void each_sensor_in_the_nights(void **state)
{
    (void)state;
    lw_brief *brief = malloc(sizeof *brief);
    lw_system *system = malloc(sizeof *system);
    const lw_design design = {.panels = 1, .series = 3, .parallel = 4, .board = -1};
    const lw_worn worn = {1.0, 1.0, 1.0};
    assert_true(brief && system);
    for (int sensor = 0; sensor < LW_SENSE_COUNT; sensor++) {
        char want[80];
        lw_error err;
        lw_dusk_board board;
        lw_arena arena = lw_arena_over(memory, sizeof memory);
        (void)snprintf(want, sizeof want, ", \"switch_sensor\": \"%s\"",
                       lw_switch_sensor_name((lw_switch_sensor)sensor));
        assert_true(read("dusk", want, "", brief, &err));
        assert_true(lw_plan_switching(brief, &arena, &err));
        const lw_lamp_kind *lamp = &brief->want.lamp[0];
        assert_true(lw_dusk_board_of(brief, lamp, &design, &arena, &board, &err));
        assert_int_equal(board.values.sensor, sensor);
        assert_true(board.own_good && board.spread_min > 0.5 && board.spread_min < 30.0);
        assert_true(lw_plan_system(brief, lamp, &design, &worn, 15.0, 180.0, system, &err));
        /* the panel's minutes are those of the panel that burns longest */
        assert_true(-2.0 * system->load.dusk_offset_min >= board.longer_min - 1e-9);
        assert_true(system->load.standby_a >= board.values.standby_a);
        assert_true((sensor == LW_SENSE_PANEL) == (board.own_lx == 0.0));
        /* dusk finds the pack that the day filled; the panel's switch then works at more light */
        lw_dusk_table table;
        assert_true(lw_dusk_table_of(&brief->place, brief->want.dusk_sun_deg, &table, &err));
        assert_true(board.dusk.nominal == lw_dusk_longer_min(&table, board.on_full.nominal, 1.0));
        assert_true(board.dawn.nominal == lw_dusk_longer_min(&table, board.off.nominal, 1.0));
        assert_true((sensor == LW_SENSE_PANEL) == (board.on_full.nominal > 1.3 * board.on.nominal));
    }
    free(system);
    free(brief);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(warmth_spreads_the_photoresistor),
        cmocka_unit_test(common_parts),
        cmocka_unit_test(one_cell),
        cmocka_unit_test(only_what_is_at_hand),
        cmocka_unit_test(timer_and_level),
        cmocka_unit_test(minutes_at_the_equator),
        cmocka_unit_test(own_light),
        cmocka_unit_test(schedules),
        cmocka_unit_test(into_the_nights),
        cmocka_unit_test(the_panel_sees_the_dusk),
        cmocka_unit_test(out_of_reach),
        cmocka_unit_test(headlights_must_last),
        cmocka_unit_test(each_sensor_in_the_nights),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
