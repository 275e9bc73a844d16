/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Our circuit solver against a general one: random circuits of every element, the current sink of two transistors, and
 * the whole lamp at its named conditions.
 */
#include "lanewick/lamp_circuit.h"
#include "lanewick/rng.h"
#include "spice.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static unsigned char memory[4 << 20];

static void compare(const lw_netlist *net, const double *start, lw_arena *arena, const char *what)
{
    lw_error err = {0};
    lw_solution s;
    double v[128];
    if (!lw_netlist_solve(net, start, arena, &s, &err))
        fail_msg("%s: %s", what, err.message);
    if (!spice_solve(net, start, v))
        fail_msg("%s: the general solver found nothing", what);
    for (int k = 1; k <= net->nodes; k++)
        if (!(fabs(s.node_v[k] - v[k]) <= 1e-5 + 1e-4 * fabs(v[k])))
            fail_msg("%s: node %d is %.8g V here, %.8g V there", what, k, s.node_v[k], v[k]);
}

/* A ladder of random elements over a supply: every node is held by a resistor. */
static void random_net(lw_netlist *net, lw_rng *rng, lw_arena *arena)
{
    lw_error err = {0};
    assert_true(lw_netlist_begin(net, 80, arena, &err));
    const int supply = lw_netlist_node(net);
    lw_netlist_add(net,
                   (lw_element){.kind = LW_VOLTAGE, .a = supply, .b = 0, .value = 3.0 + 21.0 * lw_rng_uniform(rng)});
    for (int i = 0; i < 12; i++) {
        const int a = lw_netlist_node(net);
        const int b = (int)lw_rng_below(rng, (uint64_t)a), c = (int)lw_rng_below(rng, (uint64_t)a);
        const double ohm = pow(10.0, 0.5 + 4.5 * lw_rng_uniform(rng));
        lw_netlist_add(net, (lw_element){.kind = LW_RESISTANCE, .a = a, .b = b, .value = ohm});
        const double one = lw_rng_uniform(rng);
        lw_element e;
        if (one < 0.30)
            e = (lw_element){.kind = LW_RESISTANCE, .a = a, .b = c, .value = 47.0 + 9000.0 * lw_rng_uniform(rng)};
        else if (one < 0.55)
            e = (lw_element){.kind = LW_DIODE,
                             .a = c,
                             .b = a,
                             .value = pow(10.0, -19.0 + 10.0 * lw_rng_uniform(rng)),
                             .ideality = 1.0 + 2.0 * lw_rng_uniform(rng)};
        else if (one < 0.70)
            e = (lw_element){.kind = LW_CURRENT, .a = a, .b = c, .value = 0.002 * (lw_rng_uniform(rng) - 0.5)};
        else if (one < 0.85)
            e = (lw_element){
                .kind = LW_TRANSISTOR, .a = c, .b = 0, .c = a, .value = 1e-14, .gain = 200.0, .early_v = 100.0};
        else
            e = (lw_element){.kind = LW_SINK, .a = a, .b = 0, .value = 0.01, .threshold_v = 0.7};
        if (e.a != e.b)
            lw_netlist_add(net, e);
    }
}

static void random_circuits(void **state)
{
    (void)state;
    for (unsigned k = 0; k < 300; k++) {
        lw_arena arena = lw_arena_over(memory, sizeof memory);
        lw_rng rng = lw_rng_stream(20, k, 0);
        lw_netlist net;
        char what[32];
        random_net(&net, &rng, &arena);
        (void)snprintf(what, sizeof what, "random circuit %u", k);
        compare(&net, NULL, &arena, what);
    }
}

/* Two NPN, sense resistor 10 ohm, base feed 4.7k, over the string of three LEDs. */
static void current_sink(void **state)
{
    (void)state;
    for (double supply = 9.3; supply < 14.0; supply += 1.1) {
        lw_arena arena = lw_arena_over(memory, sizeof memory);
        lw_error err = {0};
        lw_netlist net;
        assert_true(lw_netlist_begin(&net, 16, &arena, &err));
        const int plus = lw_netlist_node(&net), led = lw_netlist_node(&net), collector = lw_netlist_node(&net);
        const int base = lw_netlist_node(&net), sense = lw_netlist_node(&net);
        lw_netlist_add(&net, (lw_element){.kind = LW_VOLTAGE, .a = plus, .b = 0, .value = supply});
        lw_netlist_add(&net, (lw_element){.kind = LW_DIODE, .a = plus, .b = led, .value = 1e-19, .ideality = 7.8});
        lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = led, .b = collector, .value = 3.0});
        lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = plus, .b = base, .value = 4700.0});
        lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = sense, .b = 0, .value = 10.0});
        const lw_element npn = {.kind = LW_TRANSISTOR, .value = 1e-14, .gain = 200.0, .early_v = 100.0};
        lw_element pass = npn, control = npn;
        pass.a = collector, pass.b = sense, pass.c = base;
        control.a = base, control.b = 0, control.c = sense;
        lw_netlist_add(&net, pass);
        lw_netlist_add(&net, control);
        compare(&net, NULL, &arena, "current sink");
    }
}

static void switching_elements(void **state)
{
    (void)state;
    static const double lux[] = {0.4, 2.1, 5.3, 30.0, 4000.0};
    for (int k = 0; k < 5; k++)
        for (int on = 0; on < 2; on++) {
            lw_arena arena = lw_arena_over(memory, sizeof memory);
            lw_error err = {0};
            lw_netlist net;
            assert_true(lw_netlist_begin(&net, 16, &arena, &err));
            const int supply = lw_netlist_node(&net), node = lw_netlist_node(&net), reference = lw_netlist_node(&net);
            const int output = lw_netlist_node(&net), drain = lw_netlist_node(&net), emf = lw_netlist_node(&net);
            lw_netlist_add(&net, (lw_element){.kind = LW_VOLTAGE, .a = emf, .b = 0, .value = 11.7});
            lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = emf, .b = supply, .value = 0.13});
            lw_netlist_add(
                &net,
                (lw_element){.kind = LW_RESISTANCE, .a = supply, .b = node, .value = 15e3 * pow(lux[k] / 10.0, -0.6)});
            lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = node, .b = 0, .value = 22e3});
            lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = supply, .b = reference, .value = 1e5});
            lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = reference, .b = 0, .value = 1e5});
            lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = reference, .b = output, .value = 220e3});
            lw_netlist_add(
                &net, (lw_element){
                          .kind = LW_COMPARATOR, .a = output, .b = supply, .c = reference, .d = node, .value = 500.0});
            lw_netlist_add(&net, (lw_element){.kind = LW_RESISTANCE, .a = supply, .b = drain, .value = 33.0});
            lw_netlist_add(&net, (lw_element){.kind = LW_CONTROLLED,
                                              .a = drain,
                                              .b = 0,
                                              .c = output,
                                              .value = 0.03,
                                              .off_ohm = 1e7,
                                              .threshold_v = 2.0});
            const double out = on ? 11.7 : 0.0;
            const double start[] = {0.0, 11.7, 5.85, on ? 6.9 : 4.8, out, on ? 0.0 : 11.7, 11.7};
            compare(&net, start, &arena, on ? "dusk switch, lamp on before" : "dusk switch, lamp off before");
        }
}

static void every_condition(const lw_lamp_circuit *lamp, const char *name)
{
    for (int c = 0; c < LW_LAMP_CONDITIONS; c++) {
        lw_arena arena = lw_arena_over(memory, sizeof memory);
        lw_error err = {0};
        lw_netlist net;
        double start[LW_LAMP_NODES];
        char what[64];
        assert_true(lw_lamp_netlist(lamp, (lw_lamp_condition)c, &arena, &net, start, &err));
        (void)snprintf(what, sizeof what, "%s, %s", name, lw_lamp_condition_name((lw_lamp_condition)c));
        compare(&net, start, &arena, what);
    }
}

static void whole_lamp(void **state)
{
    (void)state;
    lw_lamp_circuit lamp = lw_lamp_circuit_default();
    every_condition(&lamp, "three groups, switching charger");
    lamp.protection.reverse = LW_REVERSE_DIODE;
    lamp.panel.blocking_diode = false;
    every_condition(&lamp, "shunt diode, no blocking diode");
    lamp = lw_lamp_circuit_default();
    lamp.panel.cells = 10, lamp.panel.voc_v = 6.1, lamp.panel.vmp_v = 5.0;
    lamp.charger.switching = false, lamp.charger.limit_a = 0.5;
    lamp.pack.series = 1, lamp.pack.parallel = 4;
    lamp.protection.reverse = LW_REVERSE_TRANSISTOR;
    lamp.dusk.r1_ohm = 220e3, lamp.dusk.r2_ohm = 68e3, lamp.dusk.r3_ohm = 470e3, lamp.dusk.resistor_ohm = 12e3;
    lamp.dusk.fet_gate_v = 2.5;
    lamp.head.leds = 1, lamp.head.strings = 12, lamp.head.ballast_ohm = 10.0;
    every_condition(&lamp, "one group, linear charger");
    lamp = lw_lamp_circuit_default();
    lamp.head.leds = 2, lamp.head.strings = 8, lamp.head.ballast_ohm = 3.9, lamp.head.led_a = 0.074;
    lamp.head.driver = LW_HEAD_BUCK, lamp.head.driver_start_v = 8.7, lamp.charger.end_v = 4.1;
    every_condition(&lamp, "buck driver");
    lamp.pack.series = 1, lamp.pack.parallel = 6, lamp.dusk.fet_gate_v = 2.5;
    lamp.panel.cells = 10, lamp.panel.voc_v = 6.1, lamp.panel.vmp_v = 5.0, lamp.charger.switching = false;
    lamp.dusk.r1_ohm = 220e3, lamp.dusk.r2_ohm = 68e3, lamp.dusk.r3_ohm = 470e3, lamp.dusk.resistor_ohm = 12e3;
    lamp.head.driver = LW_HEAD_BOOST, lamp.head.driver_start_v = 2.7, lamp.head.leds = 3;
    every_condition(&lamp, "boost driver");
}

static void other_sensors(void **state)
{
    (void)state;
    lw_lamp_circuit lamp = lw_lamp_circuit_default();
    lamp.dusk.sensor = LW_SENSE_TRANSISTORS;
    lamp.dusk.resistor_ohm = 12e3, lamp.dusk.r1_ohm = 270e3, lamp.dusk.r2_ohm = 100e3, lamp.dusk.r3_ohm = 220e3;
    every_condition(&lamp, "transistors");
    lamp = lw_lamp_circuit_default();
    lamp.dusk.sensor = LW_SENSE_PANEL;
    lamp.dusk.resistor_ohm = 4.7e3, lamp.dusk.r1_ohm = 680e3, lamp.dusk.r2_ohm = 56e3, lamp.dusk.r3_ohm = 270e3;
    every_condition(&lamp, "panel as sensor");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(random_circuits), cmocka_unit_test(current_sink),  cmocka_unit_test(switching_elements),
        cmocka_unit_test(whole_lamp),      cmocka_unit_test(other_sensors),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
