/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Monthly climate of any position on Earth, offline: global radiation with its uncertainty, clearness and
 * its day-to-day spread, air temperature, daily range, wind and rain. Method, sources and measured errors:
 * docs/models/climate.md.
 *
 *     lw_climate_data data;
 *     lw_climate c;
 *     lw_error err = {0};
 *     if (lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, &err) &&
 *         lw_climate_at(&data, -11.62, 34.27, NAN, &c, &err))
 *         printf("July: %.2f +/- %.2f kWh/m2 a day\n", c.ghi_kwh_m2_day[6],
 *                c.ghi_kwh_m2_day[6] * c.ghi_spread_pct[6] / 100.0);
 */
#ifndef LANEWICK_CLIMATE_H
#define LANEWICK_CLIMATE_H

#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>

/* Months run from January [0] to December [11]. */
typedef struct lw_climate {
    double lat_deg, lon_deg; /* north and east positive; longitude brought into -180..180 */
    double elev_m;           /* as given, or that of the neighbours */
    double ghi_kwh_m2_day[12];
    double ghi_spread_pct[12];   /* one standard deviation of the error of the monthly mean; 0 for given values */
    double ghi_year_sd_pct[12];  /* one standard deviation of a single year's monthly mean around the long mean */
    double clearness[12];        /* monthly GHI / extraterrestrial (1367 W/m2); 0 where the sun stays down */
    double clearness_day_sd[12]; /* standard deviation of daily clearness within the month */
    double clearness_day_sd_spread[12]; /* one standard deviation of the error of clearness_day_sd */
    double clearness_day_lag1[12];      /* correlation of daily clearness with that of the day before */
    double t_mean_c[12];
    double t_range_c[12]; /* mean of daily maximum minus minimum [K] */
    double wind_10m_ms[12];
    double rain_mm[12]; /* in the month */
    char basis[200];    /* in words: what the values rest on, how far the stations are */
} lw_climate;

/* The user's own monthly means. ghi: 12 values, needed. The other four may be NULL: then t_mean_c falls
 * back to a rough zonal value, range to 10 K, wind to 3 m/s, rain to 60 mm, and basis says so. elev_m may
 * be NAN (0 m). Spread is 0; the day-to-day values come from the model without neighbours.
 * LW_WRONG_INPUT with the field and month: outside its range, or radiation in a wrong unit (clearness
 * above 0.85: Wh/m2 and MJ/m2 are recognised). */
LW_MUST_CHECK bool lw_climate_from_means(double lat_deg, double lon_deg, double elev_m, const double ghi_kwh_m2_day[12],
                                         const double *t_mean_c, const double *t_range_c, const double *wind_10m_ms,
                                         const double *rain_mm, lw_climate *out, lw_error *err);

/* The packed tables, opened: it points into the caller's bytes, which must outlive it. */
typedef struct lw_climate_data {
    const unsigned char *normals, *measured;
    size_t normal_count, measured_count;
} lw_climate_data;

/* LW_WRONG_INPUT when the bytes are not a climate pack of this layout, are cut short or do not match
 * their checksum. */
LW_MUST_CHECK bool lw_climate_open(const unsigned char *bytes, size_t size, lw_climate_data *data, lw_error *err);

/* The pack that is built into the library. */
const unsigned char *lw_climate_packed(void);
size_t lw_climate_packed_size(void);

/* Climate at a position: latitude -90..90, longitude -180..360, elevation -430..8850 m or NAN (then that of
 * the neighbours). Far out at sea or at the poles the answer is given with a wide spread and basis says so. */
LW_MUST_CHECK bool lw_climate_at(const lw_climate_data *data, double lat_deg, double lon_deg, double elev_m,
                                 lw_climate *out, lw_error *err);

/* Day-to-day spread with what the measured stations around tell, for a climate made by lw_climate_from_means; changes
 * clearness_day_sd, its spread, ghi_year_sd_pct and basis. Stations nearer than leave_out_km are not looked at, so
 * that a year's own station cannot tell its own days. Narrows the spread's error by a tenth to a quarter where
 * stations are dense, changes nothing beyond 1,500 km. */
void lw_climate_days_near(const lw_climate_data *data, double leave_out_km, lw_climate *climate);

#endif
