/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The switch of two transistors against a general circuit solver: where it goes on and off from an empty to a full
 * pack, cold and warm, with weak and strong transistors; what it takes by day and by night.
 */
#include "lanewick/rng.h"
#include "lanewick/trigger.h"
#include "spice.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>

#include <cmocka.h>

static unsigned char memory[1 << 20];

enum { GROUND, PLUS, BASE, FIRST, EMITTER, SECOND, THIRD, GATE, NODES };

static void resistance(lw_netlist *net, int a, int b, double ohm)
{
    lw_netlist_add(net, (lw_element){.kind = LW_RESISTANCE, .a = a, .b = b, .value = ohm});
}

/* The switch as drawn, photoresistor first. */
static void draw(const lw_trigger *t, double ldr_ohm, lw_arena *arena, lw_netlist *net)
{
    lw_error err = {0};
    const double thermal_v = 8.617333e-5 * 298.15;
    lw_element npn = {.kind = LW_TRANSISTOR, .gain = t->gain, .early_v = 100.0, .a = SECOND, .b = EMITTER, .c = FIRST};
    npn.value = 1e-4 * exp(-t->vbe_v / thermal_v);
    lw_element first = npn, pnp = npn;
    first.value = 1e-4 * exp(-(t->vbe_v + t->first_v) / thermal_v);
    first.a = FIRST, first.c = BASE;
    pnp.pnp = true, pnp.a = GATE, pnp.b = PLUS, pnp.c = THIRD;
    assert_true(lw_netlist_begin(net, 16, arena, &err));
    for (int i = 1; i < NODES; i++)
        (void)lw_netlist_node(net);
    net->celsius = t->celsius;
    resistance(net, PLUS, BASE, ldr_ohm);
    lw_netlist_add(net, (lw_element){.kind = LW_VOLTAGE, .a = PLUS, .b = GROUND, .value = t->supply_v});
    resistance(net, BASE, GROUND, t->resistor_ohm);
    resistance(net, PLUS, FIRST, t->r1_ohm);
    resistance(net, EMITTER, GROUND, t->r2_ohm);
    resistance(net, SECOND, THIRD, t->r3_ohm);
    resistance(net, PLUS, THIRD, 470e3);
    resistance(net, GATE, GROUND, 470e3);
    lw_netlist_add(net, first);
    lw_netlist_add(net, npn);
    lw_netlist_add(net, pnp);
}

/* Light at which the solver's switch turns over, swept from bright to dark or back. */
static double solver_lux(const lw_trigger *t, bool darker)
{
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_netlist net;
    double at = 0.0;
    draw(t, 1000.0, &arena, &net);
    const double bright = log(300.0), dark = log(3e6);
    const spice_ramp ramp = {&net,      0, GATE, 0.5 * t->supply_v, darker ? bright : dark, darker ? dark : bright,
                             t->celsius};
    if (!spice_sweep(&ramp, &at))
        fail_msg("the solver's switch does not turn over at %g V", t->supply_v);
    return lw_ldr_lux(t->r10_ohm, t->gamma, exp(at));
}

static void close_to(double is, double should, double part, const char *what, const lw_trigger *t)
{
    if (getenv("SPICE_TALK"))
        (void)fprintf(stderr, "%s at %g V, %g degC, gain %g, %g V: %.4g, solver %.4g (%+.2f %%)\n", what, t->supply_v,
                      t->celsius, t->gain, t->vbe_v, is, should, 100.0 * (is / should - 1.0));
    if (!(fabs(is / should - 1.0) <= part))
        fail_msg("%s at %g V, %g degC, gain %g, %g V: %.4g, but the solver says %.4g", what, t->supply_v, t->celsius,
                 t->gain, t->vbe_v, is, should);
}

static void both_levels(const lw_trigger *t)
{
    lw_trigger_levels l;
    lw_error err = {0};
    assert_true(lw_trigger_at(t, &l, &err));
    close_to(l.lux_on, solver_lux(t, true), 0.03, "goes on", t);
    close_to(l.lux_off, solver_lux(t, false), 0.05, "goes off", t);
}

static void levels(void **state)
{
    (void)state;
    static const struct {
        double empty_v, full_v, wanted_lx;
    } packs[] = {{3.0, 4.2, 3.0}, {6.0, 8.4, 24.0}, {9.0, 12.6, 3.0}, {10.0, 14.4, 24.0}};
    const lw_resistors e12 = {.series = LW_E12};
    for (size_t i = 0; i < sizeof packs / sizeof packs[0]; i++) {
        lw_trigger t = {.r10_ohm = 15e3, .gamma = 0.6, .vbe_v = 0.60, .gain = 220.0, .celsius = 25.0};
        lw_error err = {0};
        t.supply_v = 0.5 * (packs[i].empty_v + packs[i].full_v);
        assert_true(lw_trigger_choose(&e12, packs[i].wanted_lx, packs[i].empty_v, &t, &err));
        for (int c = 0; c < 3; c++) {
            t.supply_v = c == 0 ? packs[i].empty_v : packs[i].full_v;
            t.celsius = c == 0 ? 5.0 : c == 1 ? 25.0 : 45.0;
            t.gain = c == 1 ? 450.0 : 100.0;
            t.vbe_v = c == 2 ? 0.55 : 0.65;
            t.first_v = 0.01 * (c - 1);
            both_levels(&t);
        }
    }
}

/* The example of tests/cases/circuit/dusk_transistors.case. */
static void example(void **state)
{
    (void)state;
    lw_trigger t = {.r10_ohm = 15e3,
                    .gamma = 0.6,
                    .vbe_v = 0.60,
                    .gain = 220.0,
                    .resistor_ohm = 12e3,
                    .r1_ohm = 270e3,
                    .r2_ohm = 100e3,
                    .r3_ohm = 220e3};
    for (int i = 0; i < 5; i++) {
        t.supply_v = i == 0 ? 9.0 : i == 1 ? 12.6 : 10.8;
        t.celsius = i == 3 ? 5.0 : i == 4 ? 45.0 : 25.0;
        both_levels(&t);
    }
}

/* Sixty switches drawn from the bands of their parts, at any supply and warmth: each switches where the solver's
 * does, so their percentiles do as well. */
static void drawn(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(5, 0, 0);
    for (int k = 0; k < 60; k++) {
        lw_trigger t = {.vbe_v = 0.55 + 0.10 * lw_rng_uniform(&rng), .first_v = 0.02 * lw_rng_uniform(&rng) - 0.01};
        t.r10_ohm = 10e3 + 10e3 * lw_rng_uniform(&rng);
        t.gamma = 0.5 + 0.2 * lw_rng_uniform(&rng);
        t.gain = 100.0 + 350.0 * lw_rng_uniform(&rng);
        t.celsius = 5.0 + 40.0 * lw_rng_uniform(&rng);
        t.supply_v = k % 2 == 0 ? 3.0 + 1.2 * lw_rng_uniform(&rng) : 9.0 + 3.6 * lw_rng_uniform(&rng);
        t.resistor_ohm = 12e3 * (0.95 + 0.1 * lw_rng_uniform(&rng));
        t.r1_ohm = (k % 2 == 0 ? 470e3 : 270e3) * (0.95 + 0.1 * lw_rng_uniform(&rng));
        t.r2_ohm = 100e3 * (0.95 + 0.1 * lw_rng_uniform(&rng));
        t.r3_ohm = 220e3 * (0.95 + 0.1 * lw_rng_uniform(&rng));
        both_levels(&t);
    }
}

/* The current out of the supply, by day and by night. */
static double solver_a(const lw_trigger *t, double ldr_ohm)
{
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_netlist net;
    double v[NODES], start[NODES] = {[PLUS] = t->supply_v, [BASE] = ldr_ohm < 1e4 ? t->supply_v : 0.0};
    draw(t, ldr_ohm, &arena, &net);
    start[GATE] = ldr_ohm < 1e4 ? 0.0 : t->supply_v;
    assert_true(spice_solve(&net, start, v));
    return v[BASE] / t->resistor_ohm + v[EMITTER] / t->r2_ohm + v[GATE] / 470e3;
}

static void own_use(void **state)
{
    (void)state;
    const lw_trigger t = {.r10_ohm = 15e3,
                          .gamma = 0.6,
                          .vbe_v = 0.60,
                          .gain = 220.0,
                          .celsius = 25.0,
                          .supply_v = 11.1,
                          .resistor_ohm = 12e3,
                          .r1_ohm = 270e3,
                          .r2_ohm = 100e3,
                          .r3_ohm = 220e3};
    lw_trigger_levels l;
    lw_error err = {0};
    assert_true(lw_trigger_at(&t, &l, &err));
    close_to(l.day_a, solver_a(&t, 60.0), 0.03, "by day", &t);
    close_to(l.night_a, solver_a(&t, 2e7), 0.03, "by night", &t);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(levels), cmocka_unit_test(example), cmocka_unit_test(drawn),
                                       cmocka_unit_test(own_use)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
