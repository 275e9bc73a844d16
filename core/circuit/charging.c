/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Charge limits by voltage class and the thermistor law: see lanewick/charging.h. Full, long-life and recharge voltages
 * as in cell and charger data sheets; hard limits of this project.
 */
#include "lanewick/charging.h"
#include "lanewick/units.h"

#include <math.h>

lw_charge_limits lw_charge_limits_for(lw_charge_class kind, bool long_life, double tolerance)
{
    const bool lfp = kind == LW_CHARGE_LFP;
    const double full = lfp ? (long_life ? 3.45 : 3.60) : (long_life ? 4.10 : 4.20);
    return (lw_charge_limits){
        .full_v = full,
        .full_worst_v = full * (1.0 + tolerance),
        .hard_v = lfp ? 3.70 : 4.25,
        .precharge_v = lfp ? 2.6 : 2.9,
        .recharge_v = full - (lfp ? 0.20 : 0.12),
        .empty_v = lfp ? 2.8 : 3.0,
        .empty_back_v = lfp ? 3.1 : 3.4,
        .floor_v = lfp ? 2.0 : 2.5,
    };
}

void lw_charge_limits_end_at(lw_charge_limits *limits, double empty_v)
{
    limits->empty_v = empty_v;
    limits->empty_back_v = fmax(limits->empty_back_v, empty_v + 0.3);
}

bool lw_charge_limits_check(const lw_charge_limits *limits, lw_error *err)
{
    if (limits->full_worst_v <= limits->hard_v)
        return true;
    return lw_fail(err, LW_REFUSED, "tolerance_pct",
                   "A charger set to %g V with a tolerance of %.3g %% may reach %.4g V a cell; the hard limit is %g V. "
                   "Take a more exact charger or the long-life setting.",
                   limits->full_v, 100.0 * (limits->full_worst_v / limits->full_v - 1.0), limits->full_worst_v,
                   limits->hard_v);
}

double lw_thermistor_ohm(double r25_ohm, double b_k, double celsius)
{
    return r25_ohm * exp(b_k * (1.0 / (celsius + lw_zero_celsius_k) - 1.0 / 298.15));
}
