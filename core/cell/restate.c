/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A capacity restated at another current, end voltage and 25 degC: on each open voltage curve of the class the
 * discharge ends where the open voltage is end + I R; the share of charge between the two ends is added.
 */
#include "lanewick/cell_test.h"

#include "lanewick/cell_class.h"

#include <math.h>

/* Share of the restated capacity that the read one is, on one curve. */
static double share_read(const lw_cell_curve *curve, const lw_restate *ask, double full_v)
{
    const double full = lw_curve_charge(curve, full_v);
    const double from = lw_curve_charge(curve, ask->from_end_v + ask->from_a * ask->resistance_ohm);
    const double to = lw_curve_charge(curve, ask->to_end_v + ask->to_a * ask->resistance_ohm);
    return (full - from) / (full - to);
}

bool lw_capacity_restated(const lw_restate *ask, double *capacity_ah, double *sd_ah, lw_error *err)
{
    double sum = 0.0, low = HUGE_VAL, high = 0.0;
    const lw_test_class *class = ask->class;
    for (size_t i = 0; i < class->curve_count; i++) {
        const double share = share_read(class->curves[i], ask, class->full_v);
        if (!(share > 0.3))
            return lw_fail(err, LW_NOT_COMPUTABLE, "from_a",
                           "At %g A this cell of %g ohm reaches %g V almost at once; the reading tells nothing of its "
                           "capacity.",
                           ask->from_a, ask->resistance_ohm, ask->from_end_v);
        const double factor = 1.0 / share;
        sum += factor;
        low = fmin(low, factor);
        high = fmax(high, factor);
    }
    const double rate = sum / (double)class->curve_count;
    const double warm = 1.0 / lw_cell_capacity_share(ask->from_c);
    *capacity_ah = ask->capacity_ah * rate * warm;
    const double per_ohm =
        ask->resistance_ohm > 0.0 ? (rate - 1.0) * ask->resistance_sd_ohm / ask->resistance_ohm : 0.0;
    const double relative = hypot(hypot(0.5 * (high - low), 0.3 * (rate - 1.0)), hypot(per_ohm, 0.3 * (warm - 1.0)));
    *sd_ah = hypot(ask->capacity_sd_ah * rate * warm, ask->capacity_ah * relative);
    return true;
}
