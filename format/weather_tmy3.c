/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Native TMY3 layout (Wilcox & Marion 2008, NREL/TP-581-43156): line 1 station, name, state, zone, latitude,
 * longitude, elevation; line 2 column names; 8760 rows. Columns from 1: 1 date MM/DD/YYYY, 2 time to 24:00, 5
 * global, 8 direct normal, 11 diffuse, 32 air, 47 wind, 65 rain. Missing: -9900.
 */
#include "weather_inside.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

static bool read_station(lw_weather_reader *r)
{
    if (!lw_weather_line(r))
        return lw_weather_fail(r, "weather", "the file ends before its first line.");
    lw_weather_split(r);
    if (r->fields < 7)
        return lw_weather_fail(r, "weather", "the first line has %d fields; it needs 7.", r->fields);
    lw_weather_station(r, r->field[1]);
    if (!lw_weather_need(r, 3, "time zone", -14, 14, &r->out->utc_offset_h) ||
        !lw_weather_need(r, 4, "latitude", -90, 90, &r->out->lat_deg) ||
        !lw_weather_need(r, 5, "longitude", -180, 360, &r->out->lon_deg) ||
        !lw_weather_need(r, 6, "elevation", -500, 9000, &r->out->elev_m))
        return false;
    return lw_weather_line(r) || lw_weather_fail(r, "weather", "the line of column names is missing.");
}

/* Two digits, or -1. */
static int two(const char *text)
{
    const bool digits = isdigit((unsigned char)text[0]) && isdigit((unsigned char)text[1]);
    return digits ? 10 * (text[0] - '0') + (text[1] - '0') : -1;
}

static bool read_clock(lw_weather_reader *r, lw_weather_row *row)
{
    const char *date = r->field[0], *time = r->field[1];
    const bool shape = strlen(date) == 10 && date[2] == '/' && date[5] == '/' && strlen(time) == 5 && time[2] == ':';
    row->month = shape ? two(date) : -1;
    row->day = shape ? two(date + 3) : -1;
    row->hour = shape ? two(time) : -1;
    if (row->month < 0 || row->day < 0 || row->hour < 0)
        return lw_weather_fail(
            r, "date", "date and time are \"%.12s\" and \"%.12s\"; they must be MM/DD/YYYY and HH:MM.", date, time);
    return two(time + 3) == 0 || lw_weather_fail(r, "time", "the time is \"%.12s\"; only whole hours are read.", time);
}

static bool read_row(lw_weather_reader *r)
{
    static const int field[LW_SERIES] = {[LW_GHI] = 4, [LW_DNI] = 7, [LW_DHI] = 10, [LW_AIR] = 31, [LW_WIND] = 46};
    lw_weather_split(r);
    if (r->fields < 47)
        return lw_weather_fail(r, "weather", "it has %d fields; a row needs 47 at least.", r->fields);
    lw_weather_row row;
    if (!read_clock(r, &row))
        return false;
    for (int k = 0; k < LW_SERIES; k++) {
        if (!lw_weather_number(r, field[k], lw_weather_series_name[k], &row.value[k]))
            return false;
        row.value[k] = row.value[k] <= -9900.0 ? NAN : row.value[k];
    }
    if (!lw_weather_number(r, 64, "rain", &row.rain_mm))
        return false;
    row.rain_mm = row.rain_mm < 0.0 ? NAN : row.rain_mm;
    return lw_weather_add(r, &row);
}

bool lw_weather_read_tmy3(lw_weather_reader *r)
{
    if (!read_station(r))
        return false;
    while (lw_weather_line(r))
        if (r->text[0] && !read_row(r))
            return false;
    return lw_weather_finish(r);
}
