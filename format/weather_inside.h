/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the readers of weather files share: lines and fields of text, and the rows of a year checked one by one.
 */
#ifndef LANEWICK_WEATHER_INSIDE_H
#define LANEWICK_WEATHER_INSIDE_H

#include "lanewick/weather.h"

enum { LW_WEATHER_FIELDS = 80 };

/* The five series of a year in the order of lw_weather_series, and the day's rain. */
enum { LW_GHI, LW_DHI, LW_DNI, LW_AIR, LW_WIND, LW_SERIES };

typedef struct lw_weather_reader {
    const char *at, *end;
    int line;                       /* number of the line in text, from 1 */
    char text[LW_WEATHER_MAX_LINE]; /* without its line end */
    char *field[LW_WEATHER_FIELDS];
    int fields;
    int rows; /* hours taken so far */
    lw_weather_year *out;
    lw_error *err;
} lw_weather_reader;

typedef struct lw_weather_row {
    int month, day, hour;    /* hour 1..24, its end */
    double value[LW_SERIES]; /* NAN: missing */
    double rain_mm;          /* NAN: missing */
} lw_weather_row;

/* The reader at the start of the bytes, UTF-8 mark skipped. False: empty, too big, UTF-16 or not text. */
LW_MUST_CHECK bool lw_weather_open(const char *bytes, size_t length, lw_weather_year *out, lw_weather_reader *r,
                                   lw_error *err);

/* The next line into text; false at the end of the bytes or with an error. */
LW_MUST_CHECK bool lw_weather_line(lw_weather_reader *r);
/* Splits text at commas outside double quotes, in place; fields beyond the last are dropped. */
void lw_weather_split(lw_weather_reader *r);

/* Fails with "Line N: " before the sentence. */
bool lw_weather_fail(lw_weather_reader *r, const char *field, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* Field number i (from 0) as a number; NAN when it is empty, "nan" or absent. */
LW_MUST_CHECK bool lw_weather_number(lw_weather_reader *r, int i, const char *name, double *value);
/* The same where a number must stand, between low and high. */
LW_MUST_CHECK bool lw_weather_need(lw_weather_reader *r, int i, const char *name, double low, double high,
                                   double *value);
void lw_weather_station(lw_weather_reader *r, const char *name);

/* One row, which must be the next hour of the year; rows of 29 February are left out and counted. */
LW_MUST_CHECK bool lw_weather_add(lw_weather_reader *r, const lw_weather_row *row);
/* After the last row: number of rows, missing values, units, ranges, clock. */
LW_MUST_CHECK bool lw_weather_finish(lw_weather_reader *r);

double *lw_weather_series(lw_weather_year *year, int series);
extern const char *const lw_weather_series_name[LW_SERIES];

LW_MUST_CHECK bool lw_weather_fill(lw_weather_year *year, lw_error *err);
LW_MUST_CHECK bool lw_weather_judge(lw_weather_year *year, lw_error *err);

/* The three layouts; the reader stands at the first line. */
LW_MUST_CHECK bool lw_weather_read_csv(lw_weather_reader *r);
LW_MUST_CHECK bool lw_weather_read_epw(lw_weather_reader *r);
LW_MUST_CHECK bool lw_weather_read_tmy3(lw_weather_reader *r);

#endif
