/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The part of a discharge that was not run. Each open voltage curve of the class says which share of the charge
 * lies between the open voltages at the start, now and at the end; the charge drawn gives the size. The curves
 * disagree: their spread is the uncertainty.
 */
#include "resistor.h"

#include <math.h>

static const double least_share = 0.08; /* of the charge: less drawn tells nothing of the rest */

bool lw_run_remaining(const lw_resistor_run *run, const lw_run_sums *sums, double rate_a, double slow_ohm,
                      double *remaining_ah, double *sd_ah, lw_error *err)
{
    const double first_open =
        run->open_before_v.given ? run->open_before_v.value : sums->first_v * (1.0 + slow_ohm / sums->loop_ohm);
    const double now_open = sums->last_v + sums->last_a * slow_ohm;
    const double end_open = run->end_v + rate_a * slow_ohm;
    double sum = 0.0, low = HUGE_VAL, high = 0.0;
    for (size_t i = 0; i < run->class->curve_count; i++) {
        const lw_cell_curve *curve = run->class->curves[i];
        const double start = lw_curve_charge(curve, first_open), now = lw_curve_charge(curve, now_open);
        const double end = lw_curve_charge(curve, end_open);
        if (start - now < least_share)
            return lw_fail(err, LW_NOT_COMPUTABLE, "volts_v",
                           "The run stopped at %.3f V after %.3f Ah, too early to tell how much was left; go on to "
                           "%.2f V or near it.",
                           sums->last_v, sums->drawn_ah, run->end_v);
        const double rest = fmax(0.0, sums->drawn_ah * (now - end) / (start - now));
        sum += rest;
        low = fmin(low, rest);
        high = fmax(high, rest);
    }
    *remaining_ah = sum / (double)run->class->curve_count;
    /* the spread of the curves, and a tenth for the age of this cell and its unknown resistance */
    *sd_ah = hypot(0.5 * (high - low), 0.10 * *remaining_ah);
    return true;
}
