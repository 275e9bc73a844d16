/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Circuit room: tables by what must be true, laws that invert each other.
 */
#include "lanewick/charging.h"
#include "lanewick/dusk.h"
#include "lanewick/eseries.h"
#include "lanewick/rng.h"
#include "lanewick/wire.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

/* Members rise, lie within 5 % of their power (E3 to E24) or a rounding step (above), and every smaller series is part
 * of the larger one of its kind. IEC 60063: index 0, 10, 50, 95 of E96 are 1.00, 1.27, 3.32, 9.76; 16 of E48 is 2.15.
 */
static void series_lie_on_their_powers(void **state)
{
    (void)state;
    for (int s = 0; s < LW_ESERIES_COUNT; s++) {
        const lw_eseries series = (lw_eseries)s;
        const int size = lw_eseries_size(series);
        for (int i = 0; i < size; i++) {
            const double value = lw_eseries_value(series, i), power = pow(10.0, (double)i / size);
            assert_true(fabs(value - power) <= (size <= 24 ? 0.055 * power : 0.0101));
            assert_true(i == 0 || value > lw_eseries_value(series, i - 1));
        }
    }
    for (int i = 0; i < 48; i++)
        assert_true(lw_eseries_value(LW_E48, i) == lw_eseries_value(LW_E96, 2 * i));
    for (int i = 0; i < 96; i++)
        assert_true(lw_eseries_value(LW_E96, i) == lw_eseries_value(LW_E192, 2 * i));
    assert_true(lw_eseries_value(LW_E96, 10) == 1.27 && lw_eseries_value(LW_E96, 50) == 3.32);
    assert_true(lw_eseries_value(LW_E96, 95) == 9.76 && lw_eseries_value(LW_E48, 16) == 2.15);
    assert_true(lw_eseries_value(LW_E192, 185) == 9.20);
}

static void rounding_brackets(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(5, 0, 0);
    for (int k = 0; k < 20000; k++) {
        const double x = pow(10.0, -7.0 + 14.0 * lw_rng_uniform(&rng));
        const lw_eseries series = (lw_eseries)lw_rng_below(&rng, LW_ESERIES_COUNT);
        const double down = lw_eseries_round(x, series, LW_ROUND_DOWN), up = lw_eseries_round(x, series, LW_ROUND_UP);
        const double near = lw_eseries_round(x, series, LW_ROUND_NEAREST);
        assert_true(down <= x * (1 + 1e-9) && up >= x * (1 - 1e-9) && up / down < 2.3);
        assert_true(near == down || near == up);
        assert_true(fabs(log(near / x)) <= fmin(fabs(log(down / x)), fabs(log(up / x))) + 1e-12);
        const lw_resistor_pair pair = lw_eseries_pair(x, series);
        assert_true(fabs(log(pair.together_ohm / x)) <= fabs(log(near / x)) + 0.2);
    }
}

static void node_and_lux_invert(void **state)
{
    (void)state;
    for (int ground = 0; ground < 2; ground++)
        for (double lux = 0.13; lux < 9000.0; lux *= 1.7) {
            const lw_dusk_divider d = {13700.0, 0.63, 27000.0, ground != 0};
            assert_true(fabs(lw_dusk_lux(&d, lw_dusk_node(&d, lux)) / lux - 1.0) < 1e-10);
        }
}

static void daylight_rises_and_inverts(void **state)
{
    (void)state;
    double before = 0.0;
    for (double altitude = -12.7; altitude < 88.0; altitude += 0.37) {
        const double lux = lw_sun_lux(altitude, 3.0);
        double back = 0.0;
        lw_error err = {0};
        assert_true(lux > before);
        assert_true(lw_sun_altitude_for_lux(lux, 3.0, &back, &err));
        assert_true(fabs(back - altitude) < 1e-6);
        before = lux;
    }
}

/* Thicker wire has less resistance and carries no less; ASTM B258: AWG 20 is 0.8118 mm, 0.5176 mm2 (formula). */
static void wires_are_in_order(void **state)
{
    (void)state;
    for (double area = 0.08; area < 30.0; area *= 1.09)
        for (int c = 0; c <= 6; c++) {
            if (c == 3 || c == 4)
                continue;
            assert_true(lw_wire_ohm_per_km(area * 1.09, c, LW_COPPER) < lw_wire_ohm_per_km(area, c, LW_COPPER));
            assert_true(lw_wire_ohm_per_km(area, c, LW_COPPER) >= 17.24 / area);
            assert_true(lw_wire_ampacity_a(area * 1.09, 43.0) >= lw_wire_ampacity_a(area, 43.0));
        }
    assert_true(fabs(lw_awg_diameter_mm(20.0) - 0.8118) < 0.0004);
    assert_true(fabs(lw_awg_area_mm2(20.0) - 0.5176) < 0.0003);
    assert_true(lw_wire_ampacity_a(1.5, 71.0) == 0.0);
}

/* A trial drawn with known efficiency and meter errors: the 90 % band holds the truth about nine times in ten. */
static void trials_believe_their_band(void **state)
{
    (void)state;
    enum { TRIALS = 2000, READINGS = 6 };
    int inside = 0;
    for (unsigned k = 0; k < TRIALS; k++) {
        lw_rng rng = lw_rng_stream(9, k, 0);
        double v[4][READINGS], scale[4];
        for (int q = 0; q < 4; q++)
            scale[q] = 1.0 + 0.01 * lw_rng_normal(&rng);
        for (int i = 0; i < READINGS; i++) {
            const double panel = 17.0 + 0.2 * lw_rng_normal(&rng), amps = 0.9 * (0.8 + 0.4 * lw_rng_uniform(&rng));
            const double pack = 11.3, out = 0.87 * panel * amps / pack * (1.0 + 0.02 * lw_rng_normal(&rng));
            v[0][i] = panel * scale[0], v[1][i] = amps * scale[1], v[2][i] = pack * scale[2], v[3][i] = out * scale[3];
        }
        lw_charger_trial trial;
        lw_error err = {0};
        assert_true(lw_charger_trial_of(v[0], v[1], v[2], v[3], READINGS, 0.01, &trial, &err));
        inside += fabs(trial.efficiency - 0.87) <= 1.645 * trial.standard_error;
    }
    assert_true(inside > 0.86 * TRIALS && inside < 0.94 * TRIALS);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(series_lie_on_their_powers), cmocka_unit_test(rounding_brackets),
        cmocka_unit_test(node_and_lux_invert),        cmocka_unit_test(daylight_rises_and_inverts),
        cmocka_unit_test(wires_are_in_order),         cmocka_unit_test(trials_believe_their_band),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
