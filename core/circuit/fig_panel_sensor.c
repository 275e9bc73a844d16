/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure panel_sensor: the panel itself as the dusk sensor.
 */
#include "lanewick/figure.h"
#include "lanewick/roots.h"
#include "lanewick/units.h"

#include <math.h>

enum { CELLS, ISC, BLEEDER, SHUNT, LUX, THRESHOLD, LEAK, IS, NF, CELSIUS };
static const lw_input inputs[] = {
    [CELLS] = {"cells", "", "cells in series in the panel", LW_INTEGER, 1, 144, NULL, NULL, 0, 0},
    [ISC] = {"isc_a", "A", "short-circuit current on the label", LW_NUMBER, 0.01, 20, NULL, NULL, 0, 0},
    [BLEEDER] = {"bleeder_ohm", "ohm", "resistor across the panel, before the blocking diode", LW_NUMBER, 100,
                 10000000.0, NULL, NULL, 0, 0},
    [SHUNT] = {"shunt_ohm", "ohm", "the panel's own leak, measured in the dark", LW_NUMBER, 100, 100000000.0, NULL,
               "3000", 0, 0},
    [LUX] = {"lux", "lx", "light on the panel (or give threshold_v)", LW_NUMBER, 0.01, 150000, NULL, "", 0, 0},
    [THRESHOLD] = {"threshold_v", "V", "switching voltage (or give lux)", LW_NUMBER, 0.01, 100, NULL, "", 0, 0},
    [LEAK] = {"leak_ua", "uA", "blocking diode's reverse current into the panel, hot", LW_NUMBER, 0, 10000, NULL, "0",
              0, 0},
    [IS] = {"saturation_a", "A", "diode of one cell", LW_NUMBER, 1e-15, 0.001, NULL, "1e-8", 0, 0},
    [NF] = {"ideality", "", "of one cell", LW_NUMBER, 1, 3, NULL, "1.2", 0, 0},
    [CELSIUS] = {"cell_c", "degC", "panel temperature", LW_NUMBER, -30, 80, NULL, "27", 0, 0},
};

enum { VOLTS, OUT_LUX, FALSE_V, SCALE, ROBUST };
static const lw_output outputs[] = {
    [VOLTS] = {"panel_v", "V", "panel voltage in that light", LW_NUMBER},
    [OUT_LUX] = {"lux", "lx", "light at which the panel has the threshold", LW_NUMBER},
    [FALSE_V] = {"false_v", "V", "voltage that the leak alone makes in the dark", LW_NUMBER},
    [SCALE] = {"ohm", "ohm", "bleeder and leak together: they set the scale", LW_NUMBER},
    [ROBUST] = {"robust", "", "switching light of 30 lux or more and leak below a third of the threshold", LW_FLAG},
};

typedef struct sensor {
    double light_a, ohm, saturation_a, slope_v;
} sensor;

/* Current into the node less current out of it, at this voltage. */
static double excess(double volts, const void *payload)
{
    const sensor *s = payload;
    return s->light_a - volts / s->ohm - s->saturation_a * expm1(fmin(volts / s->slope_v, 300.0));
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    if (in[LUX].given == in[THRESHOLD].given)
        return lw_fail(err, LW_WRONG_INPUT, "lux", "Give either lux or threshold_v, one of the two.");
    sensor s = {.ohm = 1.0 / (1.0 / in[BLEEDER].number + 1.0 / in[SHUNT].number),
                .saturation_a = in[IS].number,
                .slope_v = in[CELLS].number * in[NF].number * lw_boltzmann_j_k *
                           (in[CELSIUS].number + lw_zero_celsius_k) / lw_electron_charge_c};
    const double leak = in[LEAK].number * 1e-6;
    double volts = in[THRESHOLD].number, lux = in[LUX].number, dark = 0.0;
    s.light_a = leak;
    if (leak > 0.0 && !lw_root(excess, &s, 0.0, leak * s.ohm, 1e-9, &dark, err))
        return false;
    if (in[LUX].given) {
        s.light_a = lux / 100000.0 * in[ISC].number + leak;
        if (!lw_root(excess, &s, 0.0, fmin(s.light_a * s.ohm, s.slope_v * log(s.light_a / s.saturation_a + 1.0)) + 1.0,
                     1e-10, &volts, err))
            return false;
    } else {
        s.light_a = 0.0;
        const double amps = -excess(volts, &s) - leak;
        if (!(amps > 0.0) || volts / s.slope_v > 200.0 || amps > 1.5 * in[ISC].number)
            return lw_fail(err, LW_NOT_COMPUTABLE, "threshold_v",
                           "threshold_v is %g V; the panel %s with this bleeder.", volts,
                           amps > 0.0 ? "never reaches it" : "stands above it even in the dark");
        lux = 100000.0 * amps / in[ISC].number;
    }
    out[VOLTS] = lw_value_number(volts);
    out[OUT_LUX] = lw_value_number(lux);
    out[FALSE_V] = lw_value_number(dark);
    out[SCALE] = lw_value_number(s.ohm);
    out[ROBUST] = lw_value_flag(lux >= 30.0 && dark < volts / 3.0);
    return true;
}

const lw_figure lw_fig_panel_sensor = {
    .name = "panel_sensor",
    .room = "circuit",
    .summary = "Voltage of a bled panel in dim light, and the light at a threshold.",
    .source = "single-diode panel; photocurrent in proportion to light, short-circuit current at 100,000 lux "
              "(common practice)",
    .limits = "The leak of an old panel (1 to 10 kohm) sets the scale: 30 to 100 lux is robust, 3 lux is not",
    .example = "cells=36 isc_a=1.2 bleeder_ohm=10000 lux=30",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
