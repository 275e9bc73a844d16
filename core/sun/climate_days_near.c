/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Day-to-day spread of the measured stations around, for a climate whose monthly means the user gave.
 */
#include "climate_inner.h"

#include <stdio.h>
#include <string.h>

void lw_climate_days_near(const lw_climate_data *data, double leave_out_km, lw_climate *climate)
{
    const lw_climate_skip skip = {.radius_km = leave_out_km};
    double x[3];
    lw_climate_residual r;
    lw_unit_vector(climate->lat_deg, climate->lon_deg, x);
    lw_climate_residual_at(data, x, climate->elev_m, &skip, &r);
    for (int m = 0; m < 12; m++)
        lw_climate_days(climate, m, r.log_day_sd, r.day_variance);
    const size_t used = strlen(climate->basis);
    if (r.nearest_km < 1500.0)
        snprintf(climate->basis + used, sizeof climate->basis - used, "; spread of days with stations from %.0f km on",
                 r.nearest_km);
}
