/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * LED strings, straight-line forward voltage: see lanewick/led_string.h.
 */
#include "lanewick/led_string.h"

#include <math.h>

double lw_led_string_v(const lw_led_string *s, double current_a)
{
    return s->count * (s->vf_v + s->slope_ohm * (current_a - s->current_a));
}

static double kept_a(const lw_led_string *s)
{
    return s->kept_a > 0.0 ? s->kept_a : s->current_a;
}

double lw_led_string_a(const lw_led_string *s, double supply_v)
{
    const double start_v = lw_led_string_v(s, 0.0);
    switch (s->drive) {
    case LW_DRIVE_RESISTOR:
        return fmax(0.0, (supply_v - start_v) / (s->resistor_ohm + s->count * s->slope_ohm));
    case LW_DRIVE_CONSTANT: {
        const double left_v = supply_v - s->dropout_v - start_v;
        if (left_v >= s->count * s->slope_ohm * kept_a(s))
            return kept_a(s);
        return s->slope_ohm > 0.0 ? fmax(0.0, left_v / (s->count * s->slope_ohm)) : 0.0;
    }
    case LW_DRIVE_BUCK:
    case LW_DRIVE_BOOST:
        break;
    }
    return kept_a(s);
}

double lw_led_string_efficiency(const lw_led_string *s, double supply_v)
{
    const double amps = lw_led_string_a(s, supply_v), volts = lw_led_string_v(s, amps);
    if (amps <= 0.0)
        return 0.0;
    if (s->drive == LW_DRIVE_BUCK || s->drive == LW_DRIVE_BOOST)
        return s->converter * volts / (volts + s->resistor_ohm * amps);
    return volts / supply_v;
}

bool lw_led_string_fits(const lw_led_string *s, double supply_min_v, double supply_max_v, lw_error *err)
{
    const double volts = lw_led_string_v(s, s->current_a);
    const double start = lw_led_string_v(s, 0.0) + (s->drive == LW_DRIVE_CONSTANT ? s->dropout_v : 0.0);
    if ((s->drive == LW_DRIVE_RESISTOR || s->drive == LW_DRIVE_CONSTANT) && start >= supply_max_v)
        return lw_fail(err, LW_NOT_COMPUTABLE, "count_series",
                       "The string needs %.4g V before it lights, the full supply has %g V: the lamp stays dark. Take "
                       "fewer LEDs in series, or a boost driver.",
                       start, supply_max_v);
    if (s->drive == LW_DRIVE_BUCK && volts > 0.8 * supply_min_v)
        return lw_fail(err, LW_NOT_COMPUTABLE, "count_series",
                       "A step-down driver wants the string (%.4g V) below 0.8 of the lowest supply (%.4g V). Take "
                       "fewer LEDs in series.",
                       volts, 0.8 * supply_min_v);
    if (s->drive == LW_DRIVE_BOOST && volts < 1.15 * supply_max_v)
        return lw_fail(
            err, LW_NOT_COMPUTABLE, "count_series",
            "A step-up driver wants the string (%.4g V) above 1.15 of the highest supply (%.4g V). Take more "
            "LEDs in series.",
            volts, 1.15 * supply_max_v);
    if (s->drive == LW_DRIVE_BOOST && volts > 30.0)
        return lw_fail(
            err, LW_REFUSED, "count_series",
            "The string needs %.4g V; a step-up driver on a hand-made board must stay below 30 V. Take fewer "
            "LEDs in series.",
            volts);
    return true;
}
