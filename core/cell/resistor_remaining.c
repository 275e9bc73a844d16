/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The part of a discharge that was not run. Each open voltage curve of the class says which share of the charge
 * lies between the open voltages at the start, now and at the end; the charge drawn gives the size. A curve whose
 * shape misses the readings in between gets little weight; what the curves still disagree about is the uncertainty.
 */
#include "resistor.h"

#include <math.h>

static const double least_share = 0.08;    /* of the charge: less drawn tells nothing of the rest */
static const double misfit_v = 0.015;      /* usual distance of an aged cell from the curve of its own kind */
static const double least_relative = 0.25; /* of the rest: age of this cell, its unknown resistance */
static const double knee_share = 0.03;     /* of the charge drawn: where the knee of an aged cell lies */

typedef struct guess {
    double rest_ah, weight;
} guess;

/* Mean square distance between the readings and the curve laid through the first and the last of them. */
static double misfit(const lw_resistor_run *run, const lw_run_sums *sums, const lw_cell_curve *curve, double start,
                     double now, double slow_ohm)
{
    const double lead = run->lead_ohm / run->load_ohm;
    double charge = sums->first_after_s * sums->first_v, square = 0.0;
    const double whole = sums->drawn_ah * 3600.0 * sums->loop_ohm;
    for (size_t k = 0; k < run->n; k++) {
        const double v = run->meter_on_load ? run->volts_v[k] * (1.0 + lead) : run->volts_v[k];
        if (k > 0)
            charge += 0.5 * (run->times_s[k] - run->times_s[k - 1]) * (run->volts_v[k] + run->volts_v[k - 1]);
        const double open = lw_curve_v(curve, start - (start - now) * charge / whole);
        const double e = open / (1.0 + slow_ohm / sums->loop_ohm) - v;
        square += e * e / (double)run->n;
    }
    return square;
}

bool lw_run_remaining(const lw_resistor_run *run, const lw_run_sums *sums, double rate_a, double slow_ohm,
                      double *remaining_ah, double *sd_ah, lw_error *err)
{
    const double first_open =
        run->open_before_v.given ? run->open_before_v.value : sums->first_v * (1.0 + slow_ohm / sums->loop_ohm);
    const double now_open = sums->last_v + sums->last_a * slow_ohm;
    const double end_open = run->end_v + rate_a * slow_ohm;
    guess guesses[LW_CLASS_CURVES] = {{0}};
    double weights = 0.0, mean = 0.0, square = 0.0;
    for (size_t i = 0; i < run->class->curve_count; i++) {
        const lw_cell_curve *curve = run->class->curves[i];
        const double start = lw_curve_charge(curve, first_open), now = lw_curve_charge(curve, now_open);
        if (start - now < least_share)
            return lw_fail(err, LW_NOT_COMPUTABLE, "volts_v",
                           "The run stopped at %.3f V after %.3f Ah, too early to tell how much was left; go on to "
                           "%.2f V or near it.",
                           sums->last_v, sums->drawn_ah, run->end_v);
        const double rest = sums->drawn_ah * (now - lw_curve_charge(curve, end_open)) / (start - now);
        const double far = misfit(run, sums, curve, start, now, slow_ohm) / (misfit_v * misfit_v);
        guesses[i] = (guess){fmax(0.0, rest), exp(-0.5 * far)};
        weights += guesses[i].weight;
        mean += guesses[i].weight * guesses[i].rest_ah;
    }
    mean = weights > 1e-12 ? mean / weights : guesses[0].rest_ah;
    for (size_t i = 0; i < run->class->curve_count; i++) {
        const double share = weights > 1e-12 ? guesses[i].weight / weights : 1.0 / (double)run->class->curve_count;
        square += share * (guesses[i].rest_ah - mean) * (guesses[i].rest_ah - mean);
    }
    *remaining_ah = mean;
    *sd_ah = hypot(hypot(sqrt(square), least_relative * mean), knee_share * sums->drawn_ah);
    return true;
}
