/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fade of an NMC/graphite 18650: Schmalstieg et al. (2014), J. Power Sources 257, 325. The coefficients were read
 * in public code that cites the paper, not in the paper itself.
 */
#include "lanewick/ageing.h"

#include "lanewick/units.h"

#include <math.h>

typedef struct rates {
    double calendar;     /* per day^0.75 */
    double cycle;        /* per sqrt(Ah) of a 2.05 Ah cell */
    double calendar_ohm; /* per day^0.75 */
    double cycle_ohm;    /* per Ah */
} rates;

static rates rates_of(double mean_v, double cell_c, double cycle_mean_v, double depth)
{
    const double t = cell_c + lw_zero_celsius_k;
    const double off_low = cycle_mean_v - 3.667, off_high = cycle_mean_v - 3.725;
    rates r;
    r.calendar = fmax(0.0, 7.543 * mean_v - 23.75) * 1e6 * exp(-6976.0 / t);
    r.cycle = 7.348e-3 * off_low * off_low + 7.6e-4 + 4.081e-3 * depth;
    r.calendar_ohm = fmax(0.0, 5.270 * mean_v - 16.32) * 1e5 * exp(-5986.0 / t);
    r.cycle_ohm = fmax(0.0, 2.153e-4 * off_high * off_high - 1.521e-5 + 2.798e-4 * depth);
    return r;
}

lw_fade lw_fade_nmc(double days, double throughput_ah, double mean_v, double cell_c, double cycle_mean_v, double depth)
{
    const rates r = rates_of(mean_v, cell_c, cycle_mean_v, depth);
    lw_fade f;
    f.calendar = r.calendar * pow(days, 0.75);
    f.cycle = r.cycle * sqrt(throughput_ah);
    f.capacity_share = fmax(0.0, 1.0 - f.calendar - f.cycle);
    f.resistance_share = 1.0 + r.calendar_ohm * pow(days, 0.75) + r.cycle_ohm * throughput_ah;
    return f;
}
