/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The textbook worst-month method: see lanewick/sizing.h. It knows no weather but the mean, so it cannot say how
 * many nights go dark; it is the comparison by which the simulated sizes are understood.
 */
#include "lanewick/sizing.h"

lw_worst_month lw_worst_month_size(const double load_wh_day[12], const double sun_kwh_m2_day[12], double performance,
                                   double nights, double depth)
{
    lw_worst_month out = {.month = 1};
    double most_load = 0.0;
    for (int m = 0; m < 12; m++) {
        /* Rated watts give their number of watt-hours for each kWh/m2. */
        const double sun = sun_kwh_m2_day[m] > 0.01 ? sun_kwh_m2_day[m] : 0.01;
        const double panel_w = load_wh_day[m] / (sun * performance);
        if (panel_w > out.panel_w) {
            out.panel_w = panel_w;
            out.month = m + 1;
        }
        if (load_wh_day[m] > most_load)
            most_load = load_wh_day[m];
    }
    out.pack_wh = most_load * nights / depth;
    return out;
}
