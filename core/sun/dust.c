/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dust on the panel: the loss grows evenly with every day since the glass was last washed by rain or wiped, up to
 * a limit. Washing threshold: Kimber, Mitchell, Nogradi & Wenger (2006), IEEE 4th World Conf. Photovoltaic Energy
 * Conversion, 2391 (from memory).
 */
#include "lanewick/dust.h"

#include <math.h>

lw_dust lw_dust_default(void)
{
    return (lw_dust){.loss_per_day = 0.002, .most = 0.25, .wash_rain_mm = 5.0, .clean_every_days = 30};
}

bool lw_dust_check(const lw_dust *dust, lw_error *err)
{
    return lw_in_range(err, "loss_per_day", dust->loss_per_day, 0.0, 0.05, "") &&
           lw_in_range(err, "most", dust->most, 0.0, 0.9, "") &&
           lw_in_range(err, "wash_rain_mm", dust->wash_rain_mm, 0.1, 100.0, "mm") &&
           lw_in_range(err, "clean_every_days", dust->clean_every_days, 0.0, 365.0, "days");
}

void lw_dust_year(const lw_dust *dust, const double rain_mm[LW_DAYS], double factor[LW_DAYS])
{
    double loss = 0.0;
    for (int pass = 0; pass < 2; pass++) /* the first pass only finds how dirty the glass is on 1 January */
        for (int day = 0; day < LW_DAYS; day++) {
            const bool wiped = dust->clean_every_days > 0 && day % dust->clean_every_days == 0;
            const bool washed = rain_mm[day] >= dust->wash_rain_mm;
            loss = wiped || washed ? 0.0 : fmin(loss + dust->loss_per_day, dust->most);
            factor[day] = 1.0 - loss;
        }
}
