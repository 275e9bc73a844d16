/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * EPW, the open weather layout of building simulation: eight header lines, 8760 rows of 35 fields. Field numbers
 * from 1: 2 month, 3 day, 4 hour 1..24, 7 air, 14 global, 15 direct normal, 16 diffuse, 22 wind, 34 rain.
 */
#include "weather_inside.h"

#include <math.h>
#include <string.h>

enum { HEADER_LINES = 8 };

static bool read_location(lw_weather_reader *r)
{
    lw_weather_split(r);
    if (r->fields < 10)
        return lw_weather_fail(r, "LOCATION", "LOCATION has %d fields; it needs 10.", r->fields);
    lw_weather_station(r, r->field[1]);
    return lw_weather_need(r, 6, "latitude", -90, 90, &r->out->lat_deg) &&
           lw_weather_need(r, 7, "longitude", -180, 360, &r->out->lon_deg) &&
           lw_weather_need(r, 8, "time zone", -14, 14, &r->out->utc_offset_h) &&
           lw_weather_need(r, 9, "elevation", -500, 9000, &r->out->elev_m);
}

static bool read_header(lw_weather_reader *r)
{
    for (int i = 0; i < HEADER_LINES; i++) {
        if (!lw_weather_line(r))
            return lw_weather_fail(r, "weather", "the file ends within its %d header lines.", HEADER_LINES);
        if (i == 0 && !read_location(r))
            return false;
    }
    lw_weather_split(r);
    double periods, per_hour;
    if (strcmp(r->field[0], "DATA PERIODS") != 0)
        return lw_weather_fail(r, "DATA PERIODS", "the eighth line must begin with DATA PERIODS.");
    if (!lw_weather_need(r, 1, "number of data periods", 1, 99, &periods) ||
        !lw_weather_need(r, 2, "records in an hour", 1, 60, &per_hour))
        return false;
    if (periods != 1.0 || per_hour != 1.0)
        return lw_weather_fail(r, "DATA PERIODS",
                               "it announces %g periods of %g records an hour; only one whole year "
                               "of one record an hour is read.",
                               periods, per_hour);
    return true;
}

/* The layout's own codes for a missing value: two of each series. */
static double without_codes(double value, const double code[2])
{
    return value == code[0] || value == code[1] ? NAN : value;
}

static bool read_row(lw_weather_reader *r)
{
    static const int field[LW_SERIES] = {[LW_GHI] = 13, [LW_DNI] = 14, [LW_DHI] = 15, [LW_AIR] = 6, [LW_WIND] = 21};
    static const double code[LW_SERIES][2] = {[LW_GHI] = {9999, 99999},
                                              [LW_DNI] = {9999, 99999},
                                              [LW_DHI] = {9999, 99999},
                                              [LW_AIR] = {99.9, 999},
                                              [LW_WIND] = {99, 999}};
    static const double rain_code[2] = {99, 999};
    lw_weather_split(r);
    if (r->fields < 22)
        return lw_weather_fail(r, "weather", "it has %d fields; a row has 35.", r->fields);
    double month, day, hour;
    if (!lw_weather_need(r, 1, "month", 0, 99, &month) || !lw_weather_need(r, 2, "day", 0, 99, &day) ||
        !lw_weather_need(r, 3, "hour", 0, 99, &hour))
        return false;
    lw_weather_row row = {.month = (int)month, .day = (int)day, .hour = (int)hour};
    for (int k = 0; k < LW_SERIES; k++) {
        if (!lw_weather_number(r, field[k], lw_weather_series_name[k], &row.value[k]))
            return false;
        row.value[k] = without_codes(row.value[k], code[k]);
    }
    if (!lw_weather_number(r, 33, "rain", &row.rain_mm))
        return false;
    row.rain_mm = without_codes(row.rain_mm, rain_code);
    return lw_weather_add(r, &row);
}

bool lw_weather_read_epw(lw_weather_reader *r)
{
    if (!read_header(r))
        return false;
    while (lw_weather_line(r))
        if (r->text[0] && !read_row(r))
            return false;
    return lw_weather_finish(r);
}
