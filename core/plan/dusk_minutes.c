/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Minutes of burning from switching light: see dusk_minutes.h. The middle of each month stands for it.
 */
#include "dusk_minutes.h"

#include "lanewick/dusk.h"
#include "lanewick/sun.h"

#include <math.h>

static const double lowest_deg = -12.0, step_deg = 0.25;

bool lw_dusk_table_of(const lw_place *place, double wished_deg, lw_dusk_table *out, lw_error *err)
{
    for (int i = 0; i < LW_DUSK_HEIGHTS; i++) {
        const double height = lowest_deg + i * step_deg;
        double sum_h = 0.0;
        for (int month = 1; month <= 12; month++) {
            lw_night night;
            if (!lw_night_at(place->lat_deg, place->lon_deg, (lw_date){2025, month, 15}, height, &night, err))
                return false;
            sum_h += night.below_h / 12.0;
        }
        out->half_min[i] = 30.0 * sum_h;
        out->ln_lux[i] = log(lw_sun_lux(height, 1.0));
    }
    const double at = (wished_deg - lowest_deg) / step_deg;
    const int i = (int)fmin(LW_DUSK_HEIGHTS - 2, fmax(0.0, floor(at)));
    out->wished_min = out->half_min[i] + (at - i) * (out->half_min[i + 1] - out->half_min[i]);
    return true;
}

double lw_dusk_longer_min(const lw_dusk_table *table, double lux, double sky_divisor)
{
    const double sought = log(lux * sky_divisor);
    int low = 0, high = LW_DUSK_HEIGHTS - 1;
    if (sought <= table->ln_lux[low])
        return table->half_min[low] - table->wished_min;
    if (sought >= table->ln_lux[high])
        return table->half_min[high] - table->wished_min;
    while (high - low > 1) {
        const int middle = (low + high) / 2;
        *(table->ln_lux[middle] <= sought ? &low : &high) = middle;
    }
    const double part = (sought - table->ln_lux[low]) / (table->ln_lux[high] - table->ln_lux[low]);
    return table->half_min[low] + part * (table->half_min[high] - table->half_min[low]) - table->wished_min;
}
