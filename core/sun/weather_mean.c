/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Monthly and yearly means of a weather year.
 */
#include "lanewick/utc.h"
#include "lanewick/weather.h"

#include <math.h>

lw_weather_month lw_weather_mean(const lw_weather_year *year, int month)
{
    const int first = month == 0 ? 0 : lw_first_day_of_month(month);
    const int days = month == 0 ? LW_DAYS : lw_days_in_month(2026, month);
    double ghi = 0.0, dhi = 0.0, air = 0.0, wind = 0.0, range = 0.0, rain = 0.0;
    for (int day = first; day < first + days; day++) {
        double low = HUGE_VAL, high = -HUGE_VAL;
        for (int i = 24 * day; i < 24 * day + 24; i++) {
            ghi += year->ghi_w_m2[i];
            dhi += year->dhi_w_m2[i];
            air += year->air_c[i];
            wind += year->wind_m_s[i];
            low = fmin(low, year->air_c[i]);
            high = fmax(high, year->air_c[i]);
        }
        range += high - low;
        rain += year->rain_mm[day];
    }
    return (lw_weather_month){.ghi_kwh_m2_day = ghi / 1000.0 / days,
                              .air_c = air / 24.0 / days,
                              .air_range_k = range / days,
                              .wind_m_s = wind / 24.0 / days,
                              .diffuse_share = ghi > 0.0 ? dhi / ghi : 0.0,
                              .rain_mm = rain};
}

bool lw_climate_of_year(const lw_weather_year *year, double lat_deg, double lon_deg, double elev_m, lw_climate *out,
                        lw_error *err)
{
    double ghi[12], mean[12], range[12], wind[12], rain[12];
    for (int m = 0; m < 12; m++) {
        const lw_weather_month month = lw_weather_mean(year, m + 1);
        ghi[m] = month.ghi_kwh_m2_day;
        mean[m] = month.air_c;
        range[m] = month.air_range_k;
        wind[m] = month.wind_m_s;
        rain[m] = month.rain_mm;
    }
    return lw_climate_from_means(lat_deg, lon_deg, elev_m, ghi, mean, range, wind, year->has_rain ? rain : NULL, out,
                                 err);
}
