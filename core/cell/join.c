/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Joining cells that stand at different voltages: I = dU / (R1 + R2 + path). They settle where both have the same
 * open voltage; how much charge flows until then follows from the mean curve of the class.
 */
#include "lanewick/cell_test.h"

#include <math.h>

static const double usual_difference_v = 0.05; /* common practice; 0.02 V is better */

/* Charge that has left the fuller cell when it stands at v, less what the other has taken. */
static double surplus(const lw_cell_curve *curve, const double open_v[2], const double capacity_ah[2], double v)
{
    return capacity_ah[0] * (lw_curve_charge(curve, open_v[0]) - lw_curve_charge(curve, v)) +
           capacity_ah[1] * (lw_curve_charge(curve, open_v[1]) - lw_curve_charge(curve, v));
}

static double moved(const lw_cell_curve *curve, const double open_v[2], const double capacity_ah[2])
{
    const int high = open_v[1] > open_v[0];
    double a = open_v[1 - high], b = open_v[high];
    for (int i = 0; i < 60; i++) {
        const double mid = 0.5 * (a + b);
        if (surplus(curve, open_v, capacity_ah, mid) > 0.0)
            a = mid;
        else
            b = mid;
    }
    return capacity_ah[high] * (lw_curve_charge(curve, open_v[high]) - lw_curve_charge(curve, 0.5 * (a + b)));
}

bool lw_equalising_current(const double open_v[2], const double ohm[2], const double capacity_ah[2], double path_ohm,
                           double limit_a, const lw_test_class *class, lw_join *out, lw_error *err)
{
    *out = (lw_join){0};
    if (!lw_cell_volts("open_v", open_v, 2, err))
        return false;
    const double loop = ohm[0] + ohm[1] + path_ohm;
    if (!(loop > 0.0))
        return lw_fail(err, LW_WRONG_INPUT, "resistance_ohm",
                       "The resistances add up to %g ohm; two cells and their path have more than 0 ohm.", loop);
    const double difference = fabs(open_v[0] - open_v[1]);
    out->current_a = difference / loop;
    out->allowed_difference_v = fmin(usual_difference_v, limit_a * loop);
    out->allowed = difference <= out->allowed_difference_v + 1e-9;
    if (capacity_ah && capacity_ah[0] > 0.0 && capacity_ah[1] > 0.0 && difference > 0.0)
        for (size_t i = 0; i < class->curve_count; i++)
            out->charge_moved_ah += moved(class->curves[i], open_v, capacity_ah) / (double)class->curve_count;
    return true;
}
