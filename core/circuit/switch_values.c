/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values of a switching circuit: see lanewick/switch_values.h. Every choice is among what is at hand, and what is told
 * back is what those parts do.
 */
#include "switch_sensors.h"

#include <math.h>

/* Outputs of the common counter of fourteen stages that are led out and count hours: it has no eleventh. */
enum { TIMER_LAST = 14 };
static const int timer_outputs[] = {14, 13, 12, 10};
/* Film capacitors of 10 %, counter chips with 5 % and 2.3 R C, timer chips: data sheets of common parts (from memory).
 */
static const double timer_factor = 2.3, capacitor_part = 0.10, chip_part = 0.05;
static const double dim_hz = 1200.0, dim_f = 10e-9, ln2 = 0.693147180559945;
static const double counter_a = 0.03e-3, dimmer_a = 0.15e-3;
/* Resistor before the gate of a timed switch: while the gate is held low in the dark it carries the pack's volts. */
static const double held_ohm = 22e3;

lw_switch_parts lw_switch_parts_default(void)
{
    return (lw_switch_parts){.resistors = {.series = LW_E12, .tolerance = 0.05},
                             .r10_low_ohm = 10e3,
                             .r10_high_ohm = 20e3,
                             .gamma_low = 0.5,
                             .gamma_high = 0.7,
                             .supply_a = 0.6e-3,
                             .offset_v = 0.005,
                             .headroom_v = 1.5,
                             .vbe_low_v = 0.55,
                             .vbe_high_v = 0.65,
                             .gain_low = 100.0,
                             .gain_high = 450.0,
                             .shunt_low_ohm = 1e3,
                             .shunt_high_ohm = 10e3,
                             .leak_a = 20e-6};
}

double lw_timer_h(double ohm, double farad, int stages, double factor)
{
    return ldexp(1.0, stages - 1) * factor * ohm * farad / 3600.0;
}

double lw_dimmer_ohm(double seconds, double farad)
{
    return seconds / (ln2 * farad);
}

/* Resistor, capacitor and output that come nearest to the hours. */
static bool choose_timer(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out, lw_error *err)
{
    static const double film_uf[] = {0.47, 0.22, 1.0, 0.1};
    double best = INFINITY;
    for (size_t o = 0; o < sizeof timer_outputs / sizeof timer_outputs[0]; o++)
        for (size_t c = 0; c < sizeof film_uf / sizeof film_uf[0]; c++) {
            const int stages = timer_outputs[o];
            const double farad = film_uf[c] * 1e-6;
            const double ideal = wish->step_h / lw_timer_h(1.0, farad, stages, timer_factor);
            const double ohm = lw_resistor_near(&parts->resistors, ideal);
            const double here = fabs(log(ohm / ideal)) + 1e-3 * (TIMER_LAST - stages) + 1e-3 * (double)c;
            if (ohm < 10e3 || ohm > 2.2e6 || here >= best)
                continue;
            best = here;
            out->timer_ohm = ohm;
            out->timer_uf = film_uf[c];
            out->timer_stages = stages;
        }
    if (!(best < 0.15))
        return lw_fail(err, LW_NOT_COMPUTABLE, "resistors",
                       "No resistor at hand between 10 kohm and 2.2 Mohm times %.3g h: add one near %.3g ohm.",
                       wish->step_h, wish->step_h / lw_timer_h(1.0, 0.47e-6, TIMER_LAST, timer_factor));
    const double r = parts->resistors.tolerance;
    out->timer_h = lw_timer_h(out->timer_ohm, out->timer_uf * 1e-6, out->timer_stages, timer_factor);
    out->timer_low_h = out->timer_h * (1.0 - r) * (1.0 - capacitor_part) * (1.0 - chip_part);
    out->timer_high_h = out->timer_h * (1.0 + r) * (1.0 + capacitor_part) * (1.0 + chip_part);
    return true;
}

static bool choose_dimmer(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out,
                          lw_error *err)
{
    const double on = lw_resistor_near(&parts->resistors, lw_dimmer_ohm(wish->level / dim_hz, dim_f));
    const double off = lw_resistor_near(&parts->resistors, lw_dimmer_ohm((1.0 - wish->level) / dim_hz, dim_f));
    const double t = parts->resistors.tolerance;
    out->dim_on_ohm = on;
    out->dim_off_ohm = off;
    out->dim_nf = dim_f * 1e9;
    out->dim_hz = 1.0 / (ln2 * dim_f * (on + off));
    out->level = on / (on + off);
    out->level_low = on * (1.0 - t) / (on * (1.0 - t) + off * (1.0 + t));
    out->level_high = on * (1.0 + t) / (on * (1.0 + t) + off * (1.0 - t));
    if (fabs(out->level - wish->level) <= 0.05 && out->dim_hz >= 500.0 && on >= 1e3 && off >= 1e3)
        return true;
    return lw_fail(
        err, LW_NOT_COMPUTABLE, "resistors",
        "With the resistors at hand the lower level would be %.2g at %.3g Hz, not %.2g at 1200 Hz: add about "
        "%.3g and %.3g ohm.",
        out->level, out->dim_hz, wish->level, lw_dimmer_ohm(wish->level / dim_hz, dim_f),
        lw_dimmer_ohm((1.0 - wish->level) / dim_hz, dim_f));
}

bool lw_switch_values_for(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out,
                          lw_error *err)
{
    const bool timed = wish->kind == LW_SWITCH_DUSK_TIMER || wish->kind == LW_SWITCH_TWO_LEVELS;
    *out = (lw_switch_values){.level = 1.0, .sensor = wish->sensor};
    if (!lw_switch_sensor_for(parts, wish, out, err) || (timed && !choose_timer(parts, wish, out, err)) ||
        (wish->kind == LW_SWITCH_TWO_LEVELS && !choose_dimmer(parts, wish, out, err)))
        return false;
    if (wish->kind == LW_SWITCH_DUSK_TIMER)
        out->level = 0.0;
    const double held = timed ? fmax(0.0, 12.0 - wish->step_h) / 24.0 * (1.0 - out->level) : 0.0;
    out->standby_a += (timed ? counter_a : 0.0) + (wish->kind == LW_SWITCH_TWO_LEVELS ? dimmer_a : 0.0) +
                      held * wish->middle_v / held_ohm;
    return true;
}
