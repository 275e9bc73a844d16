/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The whole lamp: readings against closed forms, bands that hold what they say, failures that are told and refused.
 * (The same netlists are compared with a general circuit solver in tests/spice.)
 */
#include "lanewick/circuit_json.h"
#include "lanewick/fuse.h"
#include "lanewick/rng.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static unsigned char memory[2 << 20];

static lw_lamp_readings read_lamp(const lw_lamp_circuit *lamp, int draws, uint64_t seed)
{
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_error err = {0};
    lw_lamp_readings readings = {0};
    if (!lw_lamp_read(lamp, draws, seed, &arena, &readings, &err))
        fail_msg("%s", err.message);
    return readings;
}

static double at(const lw_lamp_readings *r, lw_lamp_condition c, lw_test_point p)
{
    return r->at[c][p].expected;
}

/* R1 = R2 = 100k, R3 = 220k: the reference is 0.40741 of the supply with the lamp off, 0.59259 with it on; the divider
 * in 90,000 lux has 15k x 9000^-0.6 over 22k; LED string (V - n V0) / (R + n r). Closed forms. */
static void readings_are_the_closed_forms(void **state)
{
    (void)state;
    const lw_lamp_circuit lamp = lw_lamp_circuit_default();
    const lw_lamp_readings r = read_lamp(&lamp, 0, 1);
    const double day_bus = at(&r, LW_LAMP_NOON_CHARGING, LW_TP_BUS_V),
                 night_bus = at(&r, LW_LAMP_MIDNIGHT, LW_TP_BUS_V);
    assert_true(fabs(at(&r, LW_LAMP_NOON_CHARGING, LW_TP_REFERENCE_V) / day_bus - 0.40741) < 1e-4);
    assert_true(fabs(at(&r, LW_LAMP_MIDNIGHT, LW_TP_REFERENCE_V) / night_bus - 0.59259) < 1e-4);
    const double ldr = 15000.0 * pow(9000.0, -0.6);
    assert_true(fabs(at(&r, LW_LAMP_NOON_CHARGING, LW_TP_NODE_V) / day_bus - 22e3 / (22e3 + ldr)) < 1e-4);
    const double head = at(&r, LW_LAMP_MIDNIGHT, LW_TP_HEAD_V);
    assert_true(fabs(at(&r, LW_LAMP_MIDNIGHT, LW_TP_STRING_A) - (head - 3 * 2.75) / (47.0 + 6.0)) < 0.0003);
    assert_true(at(&r, LW_LAMP_NOON_FULL, LW_TP_LAMP_A) < 1e-5);
    assert_true(at(&r, LW_LAMP_NOON_FULL, LW_TP_BUS_V) < 12.6);
    assert_true(at(&r, LW_LAMP_NOON_CHARGING, LW_TP_PACK_A) < -0.5);
}

/* Power into the charger times its efficiency is power out of it. */
static void the_charger_keeps_its_efficiency(void **state)
{
    (void)state;
    const lw_lamp_circuit lamp = lw_lamp_circuit_default();
    const lw_lamp_readings r = read_lamp(&lamp, 0, 1);
    const double in = at(&r, LW_LAMP_NOON_CHARGING, LW_TP_CHARGER_V) * at(&r, LW_LAMP_NOON_CHARGING, LW_TP_PANEL_A);
    const double out = at(&r, LW_LAMP_NOON_CHARGING, LW_TP_BUS_V) * at(&r, LW_LAMP_NOON_CHARGING, LW_TP_CHARGE_A);
    assert_true(fabs(out / in - 0.90) < 0.001);
}

/* A band from one set of draws must hold about nine of ten lamps of another set: its ends agree to a tenth of its
 * width, and the same seed gives the same bits. */
static void bands_repeat(void **state)
{
    (void)state;
    const lw_lamp_circuit lamp = lw_lamp_circuit_default();
    const lw_lamp_readings a = read_lamp(&lamp, 400, 1), b = read_lamp(&lamp, 400, 2), c = read_lamp(&lamp, 400, 1);
    assert_memory_equal(&a.at[LW_LAMP_DUSK], &c.at[LW_LAMP_DUSK], sizeof a.at[LW_LAMP_DUSK]);
    for (int p = 0; p < LW_TEST_POINTS; p++) {
        const lw_circuit_reading *x = &a.at[LW_LAMP_DUSK][p], *y = &b.at[LW_LAMP_DUSK][p];
        const double width = x->high - x->low;
        assert_true(x->low <= x->expected && x->expected <= x->high);
        assert_true(fabs(x->low - y->low) <= 0.15 * width + 1e-9 && fabs(x->high - y->high) <= 0.15 * width + 1e-9);
    }
    const lw_circuit_reading *string = &a.at[LW_LAMP_DUSK][LW_TP_STRING_A];
    assert_true(string->high - string->low > 0.005 && string->high - string->low < 0.03);
}

static bool told(const lw_lamp_readings *r, lw_finding_level level, lw_lamp_condition c, const char *part)
{
    for (size_t i = 0; i < r->finding_count; i++)
        if (r->findings[i].level == level && r->findings[i].condition == c && strstr(r->findings[i].text, part))
            return true;
    return false;
}

static void what_hurts_is_told(void **state)
{
    (void)state;
    lw_lamp_circuit lamp = lw_lamp_circuit_default();
    lw_lamp_readings r = read_lamp(&lamp, 0, 1);
    assert_null(lw_lamp_refusal(&r));
    assert_true(told(&r, LW_FINDING_DANGER, LW_LAMP_REVERSED, "destroyed"));
    lamp.protection.reverse = LW_REVERSE_DIODE;
    r = read_lamp(&lamp, 0, 1);
    assert_true(told(&r, LW_FINDING_GOOD, LW_LAMP_REVERSED, "blow the fuse"));
    lamp.protection.reverse = LW_REVERSE_TRANSISTOR;
    lamp.panel.blocking_diode = false;
    lamp.dusk.fet_gate_v = 10.0;
    r = read_lamp(&lamp, 0, 1);
    assert_true(told(&r, LW_FINDING_GOOD, LW_LAMP_REVERSED, "guard holds"));
    assert_true(told(&r, LW_FINDING_CAUTION, LW_LAMP_EMPTY, "guaranteed"));
    lamp = lw_lamp_circuit_default();
    lamp.panel.cells = 18, lamp.panel.voc_v = 10.8, lamp.panel.vmp_v = 8.8;
    r = read_lamp(&lamp, 0, 1);
    assert_true(told(&r, LW_FINDING_CAUTION, LW_LAMP_NOON_CHARGING, "does not fit"));
}

static void what_burns_is_refused(void **state)
{
    (void)state;
    lw_lamp_circuit lamp = lw_lamp_circuit_default();
    lamp.protection.fuse_kind = LW_FUSE_GLASS;
    lw_lamp_readings r = read_lamp(&lamp, 0, 1);
    assert_true(told(&r, LW_FINDING_REFUSED, LW_LAMP_SHORTED, "blade fuse"));
    lamp = lw_lamp_circuit_default();
    lamp.head.ballast_ohm = 10.0;
    r = read_lamp(&lamp, 50, 1);
    assert_true(told(&r, LW_FINDING_REFUSED, LW_LAMP_DUSK, "greater ballast"));
    assert_string_equal(lw_lamp_refusal(&r)->refusal, "leds_burn_out");
    lamp = lw_lamp_circuit_default();
    lamp.head_wire.length_m = 60.0, lamp.protection.fuse_a = 10.0, lamp.protection.trip_a = 20.0;
    r = read_lamp(&lamp, 0, 1);
    assert_true(told(&r, LW_FINDING_REFUSED, LW_LAMP_SHORTED, "neither the board"));
    assert_non_null(lw_lamp_refusal(&r));
}

/* In <= Iz, I2 <= 1.45 Iz (IEC 60364-4-43 433.1): at 45 degC 0.75 mm2 carries 6 A x sqrt(25/40) = 4.74 A, which guards
 * a blade of 4.7 A, and a 5 x 20 that lets 2.1 times its rating through of 3.27 A; 0.22 mm2 carries 0.79 A. */
static void a_wire_weaker_than_its_fuse_is_refused(void **state)
{
    (void)state;
    static const struct {
        double pack_mm2, head_mm2, fuse_a;
        lw_fuse_kind kind;
        const char *says;
    } rows[] = {{1.0, 0.75, 4.7, LW_FUSE_BLADE, NULL},         {1.0, 0.75, 5.0, LW_FUSE_BLADE, "head wire"},
                {0.22, 4.0, 15.0, LW_FUSE_BLADE, "pack wire"}, {0.22, 0.22, 0.75, LW_FUSE_BLADE, NULL},
                {1.0, 0.75, 3.2, LW_FUSE_CERAMIC, NULL},       {1.0, 0.75, 4.0, LW_FUSE_CERAMIC, "head wire"}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        lw_lamp_circuit lamp = lw_lamp_circuit_default();
        lamp.pack_wire.area_mm2 = rows[i].pack_mm2;
        lamp.head_wire.area_mm2 = rows[i].head_mm2;
        lamp.protection.fuse_a = rows[i].fuse_a;
        lamp.protection.fuse_kind = rows[i].kind;
        const lw_lamp_readings r = read_lamp(&lamp, 0, 1);
        const lw_lamp_finding *refusal = lw_lamp_refusal(&r);
        const char *said = refusal ? refusal->text : "not refused";
        if ((rows[i].says != NULL) != (refusal != NULL) || (rows[i].says && !strstr(said, rows[i].says)))
            fail_msg("row %zu: %s", i, said);
    }
    lw_lamp_circuit lamp = lw_lamp_circuit_default(); /* 1.25 x 19 A through a wire for 75 mA */
    lamp.panel.isc_a = 19.0, lamp.panel.imp_a = 17.0, lamp.panel_wire.area_mm2 = 0.05;
    lw_lamp_readings r = read_lamp(&lamp, 0, 1);
    assert_true(told(&r, LW_FINDING_REFUSED, LW_LAMP_NOON_CHARGING, "panel wire"));
    lamp.panel.isc_a = 3.9, lamp.panel.imp_a = 3.6, lamp.panel_wire.area_mm2 = 1.0; /* 4.9 of 5 A at 60 degC */
    r = read_lamp(&lamp, 0, 1);
    assert_false(told(&r, LW_FINDING_REFUSED, LW_LAMP_NOON_CHARGING, "panel wire"));
}

/* Guards below the load: the lamp goes dark, nothing burns. About 0.41 A flow at dusk, 0.9 A at noon. */
static void guards_below_the_load_are_told(void **state)
{
    (void)state;
    static const double small_fuses_a[] = {0.1, 0.315, 0.4};
    for (size_t i = 0; i < 3; i++) {
        lw_lamp_circuit lamp = lw_lamp_circuit_default();
        lamp.protection.fuse_a = small_fuses_a[i];
        const lw_lamp_readings r = read_lamp(&lamp, 0, 1);
        assert_true(told(&r, LW_FINDING_DANGER, LW_LAMP_NOON_CHARGING, "it blows and the lamp stays dark"));
        assert_null(lw_lamp_refusal(&r));
    }
    lw_lamp_circuit lamp = lw_lamp_circuit_default();
    lamp.protection.trip_a = 0.2;
    lw_lamp_readings r = read_lamp(&lamp, 0, 1);
    assert_true(told(&r, LW_FINDING_DANGER, LW_LAMP_DUSK, "the lamp goes dark"));
    lamp.protection.trip_a = 0.7; /* 0.56 A at the earliest: 1.36 times the load */
    r = read_lamp(&lamp, 0, 1);
    assert_true(told(&r, LW_FINDING_CAUTION, LW_LAMP_DUSK, "may not start"));
}

/* A switch for the end of the dusk, 0.0044 lx: by night the lamp is on, and its short is one of a lamp that is on. */
static void a_late_switch_is_on_by_night(void **state)
{
    (void)state;
    lw_lamp_circuit lamp = lw_lamp_circuit_default();
    const lw_lamp_readings usual = read_lamp(&lamp, 0, 1);
    lamp.dusk.resistor_ohm = 1e6;
    const lw_lamp_readings r = read_lamp(&lamp, 50, 1);
    assert_null(lw_lamp_refusal(&r));
    for (int c = LW_LAMP_MIDNIGHT; c <= LW_LAMP_EMPTY; c++)
        assert_true(r.at[c][LW_TP_LAMP_A].low > 0.5 * at(&usual, (lw_lamp_condition)c, LW_TP_LAMP_A));
    assert_true(at(&r, LW_LAMP_SHORTED, LW_TP_PACK_A) > 0.9 * at(&usual, LW_LAMP_SHORTED, LW_TP_PACK_A));
}

static void unprotected_packs_are_refused(void **state)
{
    (void)state;
    lw_lamp_circuit lamp = lw_lamp_circuit_default();
    lw_error err = {0};
    lamp.protection.fuse_a = 0.0;
    assert_false(lw_lamp_circuit_check(&lamp, &err));
    assert_int_equal(err.family, LW_REFUSED);
    lamp = lw_lamp_circuit_default();
    err = (lw_error){0};
    lamp.protection.trip_a = 0.0;
    assert_false(lw_lamp_circuit_check(&lamp, &err));
    assert_int_equal(err.family, LW_REFUSED);
    lamp = lw_lamp_circuit_default();
    err = (lw_error){0};
    lamp.charger.tolerance_pct = 3.0;
    assert_false(lw_lamp_circuit_check(&lamp, &err));
    assert_int_equal(err.family, LW_REFUSED);
    lamp = lw_lamp_circuit_default();
    err = (lw_error){0};
    lamp.panel.cells = 20;
    assert_false(lw_lamp_circuit_check(&lamp, &err));
    assert_string_equal(err.field, "panel.cells");
}

/* Any lamp that passes the check has an operating point in every condition, however odd its parts. */
static void odd_lamps_are_solved(void **state)
{
    (void)state;
    for (unsigned k = 0; k < 250; k++) {
        lw_rng rng = lw_rng_stream(3, k, 0);
        lw_lamp_circuit lamp = lw_lamp_circuit_default();
        lamp.panel.cells = 8 + (int)lw_rng_below(&rng, 60);
        lamp.panel.voc_v = lamp.panel.cells * (0.5 + 0.2 * lw_rng_uniform(&rng));
        lamp.panel.vmp_v = lamp.panel.voc_v * (0.7 + 0.2 * lw_rng_uniform(&rng));
        lamp.panel.blocking_diode = lw_rng_below(&rng, 2) == 0;
        lamp.charger.switching = lw_rng_below(&rng, 2) == 0;
        lamp.charger.limit_a = 0.05 + 8.0 * lw_rng_uniform(&rng);
        lamp.pack.series = 1 + (int)lw_rng_below(&rng, 12);
        lamp.pack.parallel = 1 + (int)lw_rng_below(&rng, 20);
        lamp.protection.reverse = (lw_reverse_guard)lw_rng_below(&rng, 3);
        lamp.head.leds = 1 + (int)lw_rng_below(&rng, 12);
        lamp.head.strings = 1 + (int)lw_rng_below(&rng, 40);
        lamp.head.ballast_ohm = pow(10.0, 3.0 * lw_rng_uniform(&rng) - 0.3);
        lamp.dusk.fet_gate_v = 1.0 + 8.0 * lw_rng_uniform(&rng);
        lamp.dusk.r3_ohm = pow(10.0, 4.0 + 2.5 * lw_rng_uniform(&rng));
        if (lamp.panel.voc_v <= 60.0)
            (void)read_lamp(&lamp, 0, 1);
    }
}

static void documents_are_read_strictly(void **state)
{
    (void)state;
    static const char good[] = "{\"format\":\"lanewick.circuit/1\",\"pack\":{\"series\":3,\"parallel\":4}}";
    static const char wrong[] = "{\"format\":\"lanewick.circuit/1\",\"pack\":{\"paralel\":4}}";
    lw_lamp_circuit lamp;
    lw_error err = {0};
    assert_true(lw_lamp_circuit_from_json(good, sizeof good - 1, &lamp, &err));
    assert_int_equal(lamp.pack.parallel, 4);
    assert_false(lw_lamp_circuit_from_json(wrong, sizeof wrong - 1, &lamp, &err));
    assert_non_null(strstr(err.message, "parallel"));
    for (size_t cut = 0; cut < sizeof good - 1; cut++) {
        lw_error cut_err = {0};
        assert_false(lw_lamp_circuit_from_json(good, cut, &lamp, &cut_err));
    }
    const lw_lamp_readings r = read_lamp(&lamp, 0, 1);
    char *text = lw_lamp_readings_to_json(&r);
    assert_non_null(strstr(text, "\"midnight\""));
    free(text);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(readings_are_the_closed_forms),
        cmocka_unit_test(the_charger_keeps_its_efficiency),
        cmocka_unit_test(bands_repeat),
        cmocka_unit_test(what_hurts_is_told),
        cmocka_unit_test(what_burns_is_refused),
        cmocka_unit_test(a_wire_weaker_than_its_fuse_is_refused),
        cmocka_unit_test(guards_below_the_load_are_told),
        cmocka_unit_test(a_late_switch_is_on_by_night),
        cmocka_unit_test(unprotected_packs_are_refused),
        cmocka_unit_test(odd_lamps_are_solved),
        cmocka_unit_test(documents_are_read_strictly),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
