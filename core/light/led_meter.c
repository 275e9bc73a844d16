/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An LED's voltage at a current from two multimeter readings: diode law with a series resistance,
 * V = V1 + n Vt ln(I/I1) + R (I - I1). Two readings give R once n Vt is taken; n Vt is 0.05 V a die (0.03 to 0.09,
 * white LEDs, from memory), which bounds the voltage away from the readings.
 */
#include "lanewick/led.h"

#include <math.h>

static const double usual_vt_v = 0.05, least_vt_v = 0.03, most_vt_v = 0.09;

static double resistance(const lw_led_reading r[2], double vt_v)
{
    return fmax(0.0, (r[1].volt - r[0].volt - vt_v * log(r[1].amp / r[0].amp)) / (r[1].amp - r[0].amp));
}

/* From the nearer reading, so that the reading itself comes back. */
static double volts(const lw_led_reading r[2], double vt_v, double amp)
{
    const lw_led_reading *from = fabs(log(amp / r[0].amp)) < fabs(log(amp / r[1].amp)) ? &r[0] : &r[1];
    return from->volt + vt_v * log(amp / from->amp) + resistance(r, vt_v) * (amp - from->amp);
}

bool lw_led_from_readings(const lw_led_reading readings[2], double wanted_a, double meter_share, lw_led_meter *out,
                          lw_error *err)
{
    const bool swapped = readings[0].amp > readings[1].amp;
    const lw_led_reading r[2] = {readings[swapped], readings[!swapped]};
    if (!(r[1].amp >= 1.2 * r[0].amp))
        return lw_fail(err, LW_WRONG_INPUT, "reading_ma",
                       "The two currents are %g and %g mA; the larger must be at least 1.2 times the smaller.",
                       1e3 * r[0].amp, 1e3 * r[1].amp);
    if (!(r[1].volt > r[0].volt))
        return lw_fail(err, LW_WRONG_INPUT, "reading_v",
                       "More current must give more voltage, but %g V and %g V were read. Let the LED cool between "
                       "the readings.",
                       r[0].volt, r[1].volt);
    const double dice = fmax(1.0, round(r[1].volt / 3.0));
    const double low = volts(r, most_vt_v * dice, wanted_a), high = volts(r, least_vt_v * dice, wanted_a);
    /* the meter's own error, carried along the line between the readings */
    const double along = (wanted_a - r[0].amp) / (r[1].amp - r[0].amp);
    const double meter = meter_share * r[1].volt * hypot(1.0 - along, along);
    out->dice = (int)dice;
    out->vf_v = volts(r, usual_vt_v * dice, wanted_a);
    out->vf_low_v = fmin(low, high) - meter;
    out->vf_high_v = fmax(low, high) + meter;
    out->slope_ohm = resistance(r, usual_vt_v * dice) + usual_vt_v * dice / wanted_a;
    out->far = wanted_a > 3.0 * r[1].amp || wanted_a < r[0].amp / 3.0;
    return true;
}
