/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readings at every condition with the band of lamps built from scattered parts. Bands of the parts: photoresistor 40 %
 * and slope 0.1, resistors 5 %, LED 0.1 V, small transistors 0.05 V and half
 * their gain, panel and charger current 10 %, pack resistance 30 %, cells 0.05 V, wires
 * 10 %, transistor 30 % (common practice); the charger's voltage by its tolerance. All uniform.
 */
#include "lamp_inside.h"
#include "lanewick/rng.h"
#include "lanewick/stats.h"

#include <math.h>

/* 1 give or take part. */
static double about(lw_rng *rng, double part)
{
    return 1.0 + part * (2.0 * lw_rng_uniform(rng) - 1.0);
}

static lw_lamp_build draw_lamp(const lw_lamp_circuit *lamp, lw_rng *rng)
{
    lw_lamp_build b = lw_lamp_nominal(lamp);
    b.lamp.dusk.r10_ohm *= exp(0.336 * (2.0 * lw_rng_uniform(rng) - 1.0)); /* 1.4 either way */
    b.lamp.dusk.gamma = fmax(0.2, lamp->dusk.gamma + 0.1 * (2.0 * lw_rng_uniform(rng) - 1.0));
    double *const resistors[] = {&b.lamp.dusk.resistor_ohm, &b.lamp.dusk.r1_ohm, &b.lamp.dusk.r2_ohm,
                                 &b.lamp.dusk.r3_ohm, &b.lamp.head.ballast_ohm};
    for (size_t i = 0; i < sizeof resistors / sizeof resistors[0]; i++)
        *resistors[i] *= about(rng, 0.05);
    b.lamp.head.vf_v += 0.1 * (2.0 * lw_rng_uniform(rng) - 1.0);
    b.rest_vf_v += 0.1 / sqrt(fmax(1.0, lamp->head.strings - 1)) * (2.0 * lw_rng_uniform(rng) - 1.0);
    b.light_factor = about(rng, 0.10);
    b.lamp.charger.limit_a *= about(rng, 0.10);
    b.lamp.pack.cell_ohm *= about(rng, 0.30);
    b.cell_v = 0.05 * (2.0 * lw_rng_uniform(rng) - 1.0);
    b.wire_factor = about(rng, 0.10);
    b.lamp.dusk.fet_ohm *= about(rng, 0.30);
    b.full_factor = about(rng, lamp->charger.tolerance_pct / 100.0);
    b.lamp.dusk.vbe_v += 0.05 * (2.0 * lw_rng_uniform(rng) - 1.0);
    b.lamp.dusk.gain *= about(rng, 0.5);
    return b;
}

/* How the scattered lamps are drawn. */
typedef struct lottery {
    int draws;
    uint64_t seed;
    lw_lamp_condition condition;
} lottery;

static bool band(const lw_lamp_circuit *lamp, const lottery *lot, lw_arena *arena, double near[LW_LAMP_NODES],
                 lw_circuit_reading readings[LW_TEST_POINTS], lw_error *err)
{
    const size_t n = (size_t)lot->draws;
    double *list = lw_arena_take(arena, n * LW_TEST_POINTS, sizeof *list, err);
    if (!list)
        return false;
    for (size_t k = 0; k < n; k++) {
        lw_rng rng = lw_rng_stream(lot->seed, k, 0); /* the same lamp in every condition */
        const lw_lamp_build build = draw_lamp(lamp, &rng);
        double points[LW_TEST_POINTS];
        if (!lw_lamp_build_solve(&build, lot->condition, arena, near, points, err))
            return false;
        for (size_t p = 0; p < LW_TEST_POINTS; p++)
            list[p * n + k] = points[p];
    }
    for (size_t p = 0; p < LW_TEST_POINTS; p++) {
        lw_sort(&list[p * n], n);
        readings[p].low = fmin(readings[p].expected, lw_quantile_sorted(&list[p * n], n, 0.05));
        readings[p].high = fmax(readings[p].expected, lw_quantile_sorted(&list[p * n], n, 0.95));
    }
    return true;
}

bool lw_lamp_read(const lw_lamp_circuit *lamp, int draws, uint64_t seed, lw_arena *arena, lw_lamp_readings *out,
                  lw_error *err)
{
    if (!lw_lamp_circuit_check(lamp, err))
        return false;
    const lw_lamp_build nominal = lw_lamp_nominal(lamp);
    out->finding_count = 0;
    out->sensor = lamp->dusk.sensor;
    for (int c = 0; c < LW_LAMP_CONDITIONS; c++) {
        const size_t used = arena->used;
        const lottery lot = {draws, seed, (lw_lamp_condition)c};
        double points[LW_TEST_POINTS], near[LW_LAMP_NODES] = {0};
        if (!lw_lamp_build_solve(&nominal, lot.condition, arena, near, points, err))
            return false;
        for (int p = 0; p < LW_TEST_POINTS; p++)
            out->at[c][p] = (lw_circuit_reading){points[p], points[p], points[p]};
        if (draws > 0 && !band(lamp, &lot, arena, near, out->at[c], err))
            return false;
        arena->used = used;
    }
    lw_lamp_judge(lamp, out);
    return true;
}
