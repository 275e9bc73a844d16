/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Direct-current resistance by two currents: IEC 61960-3, (U1 - U2) / (I2 - I1); 0.2 C for 10 s, then 1 C for 1 s
 * (the times from memory).
 */
#include "lanewick/cell_test.h"

#include <math.h>

bool lw_resistance_two_pulse(double u1_v, double i1_a, double u2_v, double i2_a, const lw_meter *meter, double *ohm,
                             double *sd_ohm, lw_error *err)
{
    if (!lw_cell_volts("u1_v", &u1_v, 1, err) || !lw_cell_volts("u2_v", &u2_v, 1, err))
        return false;
    if (i2_a <= i1_a)
        return lw_fail(err, LW_WRONG_INPUT, "i2_a",
                       "i2_a is %g A, not more than i1_a (%g A); the second load is the "
                       "larger one.",
                       i2_a, i1_a);
    if (u2_v >= u1_v)
        return lw_fail(err, LW_WRONG_INPUT, "u2_v",
                       "u2_v is %g V, not below u1_v (%g V); under the larger load the "
                       "voltage is lower.",
                       u2_v, u1_v);
    *ohm = (u1_v - u2_v) / (i2_a - i1_a);
    /* the same meter on both: its percentage acts on the difference, its digits on each reading */
    const double digit_v = meter->digits * meter->step / sqrt(3.0);
    *sd_ohm = hypot(meter->percent / 100.0 / sqrt(3.0) * *ohm, sqrt(2.0) * digit_v / (i2_a - i1_a));
    return true;
}
