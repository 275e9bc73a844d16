/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The circuit solver against closed forms and against values that a general circuit solver gave.
 */
#include "lanewick/netlist.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static unsigned char memory[1 << 20];

/* A circuit under test, with the memory that it lives in. */
typedef struct bench {
    lw_arena arena;
    lw_error err;
    lw_netlist net;
    lw_solution s;
} bench;

static void begin(bench *b, size_t room)
{
    *b = (bench){.arena = lw_arena_over(memory, sizeof memory)};
    assert_true(lw_netlist_begin(&b->net, room, &b->arena, &b->err));
}

static void solve(bench *b, const double *start)
{
    assert_true(lw_netlist_solve(&b->net, start, &b->arena, &b->s, &b->err));
}

static void resistor(lw_netlist *net, int a, int b, double ohm)
{
    lw_netlist_add(net, (lw_element){.kind = LW_RESISTANCE, .a = a, .b = b, .value = ohm});
}

static void source(lw_netlist *net, int a, int b, double volts)
{
    lw_netlist_add(net, (lw_element){.kind = LW_VOLTAGE, .a = a, .b = b, .value = volts});
}

static size_t diode(lw_netlist *net, int a, int b, double saturation, double ideality)
{
    return lw_netlist_add(net,
                          (lw_element){.kind = LW_DIODE, .a = a, .b = b, .value = saturation, .ideality = ideality});
}

static void near(double is, double should, double part)
{
    if (!(fabs(is - should) <= part * fabs(should)))
        fail_msg("%.10g should be %.10g", is, should);
}

/* Three lamps of 0.5 A on one pair of wire, 0.266 ohm a conductor and section, 11.1 V: 10.302, 9.770, 9.504 V over the
 * lamps (general circuit solver). */
static void lamps_in_a_row(void **state)
{
    (void)state;
    bench b;
    begin(&b, 16);
    int plus = lw_netlist_node(&b.net), minus = 0;
    int ends[3][2];
    source(&b.net, plus, 0, 11.1);
    for (int i = 0; i < 3; i++) {
        ends[i][0] = lw_netlist_node(&b.net);
        ends[i][1] = lw_netlist_node(&b.net);
        resistor(&b.net, plus, ends[i][0], 0.266);
        resistor(&b.net, ends[i][1], minus, 0.266);
        lw_netlist_add(&b.net, (lw_element){.kind = LW_CURRENT, .a = ends[i][0], .b = ends[i][1], .value = 0.5});
        plus = ends[i][0];
        minus = ends[i][1];
    }
    solve(&b, NULL);
    static const double expected[] = {10.302, 9.770, 9.504};
    for (int i = 0; i < 3; i++)
        near(b.s.node_v[ends[i][0]] - b.s.node_v[ends[i][1]], expected[i], 1e-6);
}

/* Three LEDs (Is 1e-19, N 2.6, 1 ohm each) with 47 ohm at 9.0, 10.8, 12.6 V: 19.39, 51.45, 85.40 mA at 27 degC (general
 * circuit solver). */
static void led_string(void **state)
{
    (void)state;
    static const double supply[] = {9.0, 10.8, 12.6}, expected[] = {19.39e-3, 51.45e-3, 85.40e-3};
    for (int k = 0; k < 3; k++) {
        bench b;
        begin(&b, 16);
        int at = lw_netlist_node(&b.net);
        source(&b.net, at, 0, supply[k]);
        size_t last = 0;
        for (int i = 0; i < 3; i++) {
            const int next = lw_netlist_node(&b.net), middle = lw_netlist_node(&b.net);
            last = diode(&b.net, at, middle, 1e-19, 2.6);
            resistor(&b.net, middle, next, 1.0);
            at = next;
        }
        resistor(&b.net, at, 0, 47.0);
        solve(&b, NULL);
        near(b.s.element_a[last], expected[k], 0.003);
        assert_true(b.s.iterations < 60);
    }
}

/* Two strings that share 120 mA, one with LEDs 0.1 V lower: 37.08/82.92, 46.52/73.48, 52.99/67.01 mA with 0, 4.7 and 15
 * ohm of ballast (general circuit solver). */
static void strings_share(void **state)
{
    (void)state;
    static const double ballast[] = {1e-6, 4.7, 15.0}, weak[] = {37.08e-3, 46.52e-3, 52.99e-3};
    for (int k = 0; k < 3; k++) {
        bench b;
        begin(&b, 24);
        const int top = lw_netlist_node(&b.net);
        lw_netlist_add(&b.net, (lw_element){.kind = LW_CURRENT, .a = 0, .b = top, .value = 0.120});
        size_t first[2];
        for (int j = 0; j < 2; j++) {
            int at = lw_netlist_node(&b.net);
            resistor(&b.net, top, at, ballast[k]);
            for (int i = 0; i < 3; i++) {
                const int middle = lw_netlist_node(&b.net), next = i == 2 ? 0 : lw_netlist_node(&b.net);
                first[j] = diode(&b.net, at, middle, j ? 4.42e-19 : 1e-19, 2.6);
                resistor(&b.net, middle, next, 1.0);
                at = next;
            }
        }
        solve(&b, NULL);
        near(b.s.element_a[first[0]], weak[k], 0.003);
        near(b.s.element_a[first[1]], 0.120 - weak[k], 0.003);
    }
}

/* Saturation current at a temperature from that at 27 degC: the usual law with 1.11 eV and exponent 3 (Nagel 1975). */
static double warmed(double saturation, double ideality, double celsius)
{
    const double ratio = (celsius + 273.15) / 300.15, thermal_v = 8.617333e-5 * (celsius + 273.15);
    return saturation * pow(ratio, 3.0 / ideality) * exp((ratio - 1.0) * 1.11 / (ideality * thermal_v));
}

/* Current sink of two NPN (1e-14 A, gain 200, 100 V), base feed 4.7k, sense 10 ohm, over the string
 * above: 66.87, 67.25, 67.69 mA at 25 degC and 60.84, 61.24, 61.72 mA at 60 degC with 10.0, 11.1, 12.6 V (general
 * circuit solver). */
static void current_sink(void **state)
{
    (void)state;
    static const double supply[] = {10.0, 11.1, 12.6}, celsius[] = {25.0, 60.0};
    static const double expected[2][3] = {{66.87e-3, 67.25e-3, 67.69e-3}, {60.84e-3, 61.24e-3, 61.72e-3}};
    for (int t = 0; t < 2; t++)
        for (int k = 0; k < 3; k++) {
            bench b;
            begin(&b, 16);
            b.net.celsius = celsius[t];
            const int plus = lw_netlist_node(&b.net), led = lw_netlist_node(&b.net),
                      collector = lw_netlist_node(&b.net);
            const int base = lw_netlist_node(&b.net), sense = lw_netlist_node(&b.net);
            source(&b.net, plus, 0, supply[k]);
            const size_t string = diode(&b.net, plus, led, warmed(1e-19, 2.6, celsius[t]), 7.8);
            resistor(&b.net, led, collector, 3.0);
            resistor(&b.net, plus, base, 4700.0);
            resistor(&b.net, sense, 0, 10.0);
            lw_element npn = {.kind = LW_TRANSISTOR,
                              .value = warmed(1e-14, 1.0, celsius[t]),
                              .gain = 200.0,
                              .early_v = 100.0,
                              .a = collector,
                              .b = sense,
                              .c = base};
            lw_netlist_add(&b.net, npn);
            npn.a = base, npn.b = 0, npn.c = sense;
            lw_netlist_add(&b.net, npn);
            solve(&b, NULL);
            near(b.s.element_a[string], expected[t][k], 0.005);
        }
}

/* The dusk comparator: switches at 2.829 and 9.863 lux, and between them keeps the state it is in (closed form). */
static double comparator_output(double lux, double before_v)
{
    bench b;
    begin(&b, 16);
    const int supply = lw_netlist_node(&b.net), node = lw_netlist_node(&b.net), reference = lw_netlist_node(&b.net),
              output = lw_netlist_node(&b.net);
    source(&b.net, supply, 0, 12.0);
    resistor(&b.net, supply, node, 15000.0 * pow(lux / 10.0, -0.6));
    resistor(&b.net, node, 0, 22000.0);
    resistor(&b.net, supply, reference, 100e3);
    resistor(&b.net, reference, 0, 100e3);
    resistor(&b.net, reference, output, 220e3);
    lw_netlist_add(
        &b.net,
        (lw_element){.kind = LW_COMPARATOR, .a = output, .b = supply, .c = reference, .d = node, .value = 2000.0});
    const double start[] = {0.0, 12.0, 6.0, 6.0 + (before_v - 6.0) / 6.0, before_v};
    solve(&b, start);
    return b.s.node_v[output];
}

static void comparator_keeps_its_state(void **state)
{
    (void)state;
    assert_true(comparator_output(2.70, 0.0) > 11.9);
    assert_true(comparator_output(2.95, 0.0) < 0.1);
    assert_true(comparator_output(9.60, 12.0) > 11.9);
    assert_true(comparator_output(10.1, 12.0) < 0.1);
    assert_true(comparator_output(5.3, 0.0) < 0.1);
    assert_true(comparator_output(5.3, 12.0) > 11.9);
}

/* Currents into every node sum to nothing, whatever the elements. */
static void currents_balance(void **state)
{
    (void)state;
    bench b;
    begin(&b, 16);
    const int panel = lw_netlist_node(&b.net), bus = lw_netlist_node(&b.net), emf = lw_netlist_node(&b.net);
    const size_t light = lw_netlist_add(&b.net, (lw_element){.kind = LW_CURRENT, .a = 0, .b = panel, .value = 1.21});
    const size_t cell = diode(&b.net, panel, 0, 1e-9, 36 * 1.3);
    const size_t charger = lw_netlist_add(
        &b.net,
        (lw_element){
            .kind = LW_CHARGER,
            .a = panel,
            .b = bus,
            .value = 2.0,
            .charger = {.full_v = 12.6, .regulation_ohm = 0.05, .start_v = 17.0, .input_ohm = 0.5, .efficiency = 0.9}});
    const size_t wire = lw_netlist_add(&b.net, (lw_element){.kind = LW_RESISTANCE, .a = bus, .b = emf, .value = 0.08});
    const size_t pack = lw_netlist_add(&b.net, (lw_element){.kind = LW_VOLTAGE, .a = emf, .b = 0, .value = 11.4});
    solve(&b, NULL);
    near(b.s.element_a[charger], b.s.element_a[wire], 1e-6);
    near(b.s.element_a[pack], b.s.element_a[wire], 1e-6);
    const double drawn = b.s.element_a[light] - b.s.element_a[cell];
    near(drawn * b.s.node_v[panel] * 0.9, b.s.element_a[charger] * b.s.node_v[bus], 1e-6);
    assert_true(b.s.node_v[panel] > 17.0 && b.s.node_v[panel] < 20.0);
}

static void nothing_holds_a_node(void **state)
{
    (void)state;
    bench b;
    begin(&b, 3);
    const int first = lw_netlist_node(&b.net), second = lw_netlist_node(&b.net), third = lw_netlist_node(&b.net);
    source(&b.net, first, 0, 5.0);
    resistor(&b.net, second, third, 100.0);
    assert_false(lw_netlist_solve(&b.net, NULL, &b.arena, &b.s, &b.err));
    assert_int_equal(b.err.family, LW_NOT_COMPUTABLE);
    resistor(&b.net, first, second, 10.0);
    resistor(&b.net, first, second, 10.0); /* one more than there is room for */
    b.err = (lw_error){0};
    assert_false(lw_netlist_solve(&b.net, NULL, &b.arena, &b.s, &b.err));
    assert_int_equal(b.err.family, LW_BUG);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lamps_in_a_row),
        cmocka_unit_test(led_string),
        cmocka_unit_test(current_sink),
        cmocka_unit_test(strings_share),
        cmocka_unit_test(comparator_keeps_its_state),
        cmocka_unit_test(currents_balance),
        cmocka_unit_test(nothing_holds_a_node),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
