/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Fade of an LFP/graphite 26650: calendar Naumann et al. (2018), J. Energy Storage 17, 153; cycles Naumann et al.
 * (2020), J. Power Sources 451, 227666. The coefficients were read in public code that cites the papers.
 */
#include "lanewick/ageing.h"

#include <math.h>

typedef struct rates {
    double calendar; /* per sqrt(second) */
    double cycle;    /* per sqrt(full cycle) */
} rates;

static rates rates_of(double charge, double cell_c, double depth, double rate_per_h)
{
    const double t = cell_c + 273.15, off = charge - 0.5, deep = depth - 0.6;
    rates r;
    r.calendar = 1.2571e-5 * exp(-17126.0 / 8.3145 * (1.0 / t - 1.0 / 298.15)) * (2.8575 * off * off * off + 0.60225);
    r.cycle = 0.01 * (0.0630 * rate_per_h + 0.0971) * (4.0253 * deep * deep * deep + 1.0923);
    return r;
}

lw_fade lw_fade_lfp(double days, double full_cycles, double charge, double cell_c, double depth, double rate_per_h)
{
    const rates r = rates_of(charge, cell_c, depth, rate_per_h);
    lw_fade f;
    f.calendar = r.calendar * sqrt(days * 86400.0);
    f.cycle = r.cycle * sqrt(full_cycles);
    f.capacity_share = fmax(0.0, 1.0 - f.calendar - f.cycle);
    f.resistance_share = 1.0;
    return f;
}
