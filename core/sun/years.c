/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Synthetic years: a block of LW_LANES years, and a single year as the first lane of its block.
 */
#include "lanewick/hot.h"
#include "years_inner.h"

#include <stdio.h>
#include <string.h>

/* Temperature and wind run from yesterday's level to today's over the day, the daily course on top. */
LW_HOT static void air_and_wind(const lw_synth *synth, const double swing[LW_LANES], const lw_month_lanes *days, int d,
                                const lw_day_rows *out)
{
    for (int h = 0; h < 24; h++) {
        const double part = (h + 0.5) / 24.0, shape = synth->air_shape[h], course = synth->wind_course[h];
        for (int l = 0; l < LW_LANES; l++) {
            const double air = days->air_c[d][l], gust = days->wind_m_s[d][l];
            out->air[h][l] = air + part * (days->air_c[d + 1][l] - air) + shape * days->range_k[d][l];
            out->wind[h][l] = (1.0 + swing[l] * course) * (gust + part * (days->wind_m_s[d + 1][l] - gust));
        }
    }
}

static void make_day(const lw_synth *synth, int day, int d, const lw_month_lanes *days, lw_year_lanes *lanes,
                     const lw_day_rows *out)
{
    lw_synth_hours(synth, day, days->clearness[d], lanes, out);
    air_and_wind(synth, lanes->wind_swing, days, d, out);
}

void lw_synth_block(const lw_synth *synth, uint32_t first_year, lw_weather_block *out)
{
    lw_year_lanes lanes;
    lw_month_lanes days;
    lw_synth_draw(synth, first_year, &lanes);
    for (int m = 0, day = 0; m < LW_MONTHS; m++) {
        lw_synth_days(synth, m, day, &lanes, &days);
        for (int d = 0; d < synth->month[m].days; d++, day++) {
            const int i = 24 * day;
            const lw_day_rows rows = {&out->ghi_w_m2[i], &out->dhi_w_m2[i], &out->dni_w_m2[i], &out->air_c[i],
                                      &out->wind_m_s[i]};
            make_day(synth, day, d, &days, &lanes, &rows);
            memcpy(out->rain_mm[day], days.rain_mm[d], sizeof out->rain_mm[day]);
        }
    }
}

static void first_lane(double (*rows)[LW_LANES], double *out)
{
    for (int h = 0; h < 24; h++)
        out[h] = rows[h][0];
}

void lw_synth_year(const lw_synth *synth, uint32_t year, lw_weather_year *out)
{
    lw_year_lanes lanes;
    lw_month_lanes days;
    double hours[5][24][LW_LANES];
    const lw_day_rows rows = {hours[0], hours[1], hours[2], hours[3], hours[4]};
    memset(out, 0, sizeof *out);
    out->lat_deg = synth->lat_deg;
    out->lon_deg = synth->lon_deg;
    out->elev_m = synth->elev_m;
    out->utc_offset_h = synth->utc_offset_h;
    out->has_rain = true;
    snprintf(out->station, sizeof out->station, "synthetic year %lu, seed %llu", (unsigned long)year,
             (unsigned long long)synth->options.seed);
    lw_synth_draw(synth, year, &lanes);
    for (int m = 0, day = 0; m < LW_MONTHS; m++) {
        lw_synth_days(synth, m, day, &lanes, &days);
        for (int d = 0; d < synth->month[m].days; d++, day++) {
            make_day(synth, day, d, &days, &lanes, &rows);
            first_lane(hours[0], &out->ghi_w_m2[24 * day]);
            first_lane(hours[1], &out->dhi_w_m2[24 * day]);
            first_lane(hours[2], &out->dni_w_m2[24 * day]);
            first_lane(hours[3], &out->air_c[24 * day]);
            first_lane(hours[4], &out->wind_m_s[24 * day]);
            out->rain_mm[day] = days.rain_mm[d][0];
        }
    }
}
