/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One year of hourly weather and the readers of weather files: our CSV, EPW, TMY3. What is accepted, what is
 * refused: docs/models/weather-files.md.
 *
 * Local standard time, 365 days. Hour i is the mean of the clock hour that ends at (i % 24) + 1 on day i / 24.
 */
#ifndef LANEWICK_WEATHER_H
#define LANEWICK_WEATHER_H

#include "lanewick/climate.h"
#include "lanewick/error.h"
#include "lanewick/units.h"

#include <stdbool.h>
#include <stddef.h>

typedef struct lw_weather_year {
    double lat_deg, lon_deg, elev_m, utc_offset_h;
    double ghi_w_m2[LW_HOURS]; /* global on the horizontal, 0..1600 */
    double dhi_w_m2[LW_HOURS]; /* diffuse on the horizontal, 0..1000 */
    double dni_w_m2[LW_HOURS]; /* direct normal to the beam, 0..1400 */
    double air_c[LW_HOURS];    /* -90..65 */
    double wind_m_s[LW_HOURS]; /* at 10 m, 0..90 */
    double rain_mm[LW_DAYS];   /* 0 when the source has none */
    bool has_rain;
    int filled;       /* single missing values filled from their neighbours */
    int leap_rows;    /* rows of 29 February left out */
    char station[80]; /* as the file says, printable characters only */
} lw_weather_year;

enum { LW_WEATHER_MAX_BYTES = 16 << 20, LW_WEATHER_MAX_LINE = 4096, LW_WEATHER_MAX_FILLED = 48 };

/* Reads a file's bytes (they need no 0 at the end), told apart by content. LW_WRONG_INPUT with the line, the
 * column, what was found and what is allowed: gaps, repeated hours, negative radiation, a wrong unit of
 * radiation, a wrong number of rows, too many missing values, UTF-16, cut-off files. */
LW_MUST_CHECK bool lw_weather_read(const char *bytes, size_t length, lw_weather_year *out, lw_error *err);

typedef struct lw_weather_month {
    double ghi_kwh_m2_day, air_c, air_range_k, wind_m_s, diffuse_share, rain_mm;
} lw_weather_month;

/* Means of a month 1..12; 0: of the year (air_range_k: mean over days of highest minus lowest hour). */
lw_weather_month lw_weather_mean(const lw_weather_year *year, int month);

/* The year's monthly means as the climate of a place near it: lw_climate_from_means, its errors and ranges. */
LW_MUST_CHECK bool lw_climate_of_year(const lw_weather_year *year, double lat_deg, double lon_deg, double elev_m,
                                      lw_climate *out, lw_error *err);

#endif
