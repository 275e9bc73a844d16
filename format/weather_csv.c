/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Our own hourly CSV: lines "# key: value", one line of column names, 8760 rows. Columns in any order.
 */
#include "weather_inside.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MONTH = LW_SERIES, DAY, HOUR, RAIN, COLUMNS, NEEDED = RAIN };

static const struct {
    const char *name;
    int column;
} names[] = {
    {"month", MONTH},    {"day", DAY},         {"hour", HOUR},        {"ghi_Wm2", LW_GHI},  {"ghi_w_m2", LW_GHI},
    {"dhi_Wm2", LW_DHI}, {"dhi_w_m2", LW_DHI}, {"dni_Wm2", LW_DNI},   {"dni_w_m2", LW_DNI}, {"temp_C", LW_AIR},
    {"air_c", LW_AIR},   {"wind_ms", LW_WIND}, {"wind_m_s", LW_WIND}, {"rain_mm", RAIN},
};
static const char *const column_name[COLUMNS] = {"ghi_w_m2", "dhi_w_m2", "dni_w_m2", "air_c",  "wind_m_s",
                                                 "month",    "day",      "hour",     "rain_mm"};

typedef struct place {
    bool lat, lon, offset;
} place;

static bool read_comment(lw_weather_reader *r, place *found)
{
    const char *key = r->text + strspn(r->text, "# \t");
    char *colon = strchr(key, ':');
    if (!colon)
        return true;
    const size_t length = (size_t)(colon - key);
    r->field[0] = colon + 1 + strspn(colon + 1, " \t");
    r->fields = 1;
    for (size_t end = strlen(r->field[0]); end && r->field[0][end - 1] == ' '; end--)
        r->field[0][end - 1] = '\0';
    static const struct {
        const char *key;
        double low, high;
    } keys[] = {{"latitude_deg", -90, 90},
                {"longitude_deg_east", -180, 360},
                {"utc_offset_h", -14, 14},
                {"elevation_m", -500, 9000},
                {"station", 0, 0}};
    double *const values[] = {&r->out->lat_deg, &r->out->lon_deg, &r->out->utc_offset_h, &r->out->elev_m};
    bool *const marks[] = {&found->lat, &found->lon, &found->offset, NULL};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (strlen(keys[i].key) != length || strncmp(key, keys[i].key, length) != 0)
            continue;
        if (i == 4) {
            lw_weather_station(r, r->field[0]);
            return true;
        }
        if (marks[i])
            *marks[i] = true;
        return lw_weather_need(r, 0, keys[i].key, keys[i].low, keys[i].high, values[i]);
    }
    return true;
}

static bool one_column(lw_weather_reader *r, int i, int at[COLUMNS])
{
    for (size_t k = 0; k < sizeof names / sizeof names[0]; k++) {
        if (strcmp(r->field[i], names[k].name) != 0)
            continue;
        if (at[names[k].column] >= 0)
            return lw_weather_fail(r, "weather", "the column %s stands there twice.", names[k].name);
        at[names[k].column] = i;
        return true;
    }
    return lw_weather_fail(r, "weather",
                           "the column \"%.24s\" is not known; columns are month, day, hour, ghi_w_m2, dhi_w_m2, "
                           "dni_w_m2, air_c, wind_m_s and rain_mm, separated by commas.",
                           r->field[i]);
}

static bool read_names(lw_weather_reader *r, int at[COLUMNS])
{
    lw_weather_split(r);
    for (int k = 0; k < COLUMNS; k++)
        at[k] = -1;
    for (int i = 0; i < r->fields; i++)
        if (!one_column(r, i, at))
            return false;
    for (int k = 0; k < NEEDED; k++)
        if (at[k] < 0)
            return lw_weather_fail(r, column_name[k], "the column %s is missing.", column_name[k]);
    return true;
}

/* Codes by which loggers mark a missing value. */
static double without_codes(int series, double value)
{
    const bool code = value == -999.0 || value == -9999.0 || value == 9999.0 || value == 99999.0 ||
                      (series >= LW_AIR && value == 999.0);
    return code ? NAN : value;
}

static bool read_row(lw_weather_reader *r, const int at[COLUMNS], int columns)
{
    lw_weather_split(r);
    if (r->fields != columns)
        return lw_weather_fail(r, "weather", "it has %d fields; the line of names has %d.", r->fields, columns);
    lw_weather_row row = {.rain_mm = NAN};
    double month, day, hour;
    if (!lw_weather_need(r, at[MONTH], "month", 0, 99, &month) || !lw_weather_need(r, at[DAY], "day", 0, 99, &day) ||
        !lw_weather_need(r, at[HOUR], "hour", 0, 99, &hour))
        return false;
    row.month = (int)month;
    row.day = (int)day;
    row.hour = (int)hour;
    if (month != row.month || day != row.day || hour != row.hour)
        return lw_weather_fail(r, "hour", "month, day and hour must be whole numbers.");
    for (int k = 0; k < LW_SERIES; k++) {
        if (!lw_weather_number(r, at[k], column_name[k], &row.value[k]))
            return false;
        row.value[k] = without_codes(k, row.value[k]);
    }
    if (at[RAIN] >= 0 && !lw_weather_number(r, at[RAIN], "rain_mm", &row.rain_mm))
        return false;
    row.rain_mm = without_codes(LW_WIND, row.rain_mm);
    return lw_weather_add(r, &row);
}

bool lw_weather_read_csv(lw_weather_reader *r)
{
    place found = {0};
    int at[COLUMNS], columns = 0;
    while (lw_weather_line(r)) {
        if (r->text[strspn(r->text, " \t,")] == '\0')
            continue;
        if (r->text[0] == '#') {
            if (!read_comment(r, &found))
                return false;
        } else if (columns == 0) {
            if (!read_names(r, at))
                return false;
            columns = r->fields;
        } else if (!read_row(r, at, columns)) {
            return false;
        }
    }
    if (r->err && r->err->family != LW_OK)
        return false;
    if (!found.lat || !found.lon || !found.offset)
        return lw_fail(r->err, LW_WRONG_INPUT,
                       !found.lat   ? "latitude_deg"
                       : !found.lon ? "longitude_deg_east"
                                    : "utc_offset_h",
                       "The weather file must say where it is from: lines \"# latitude_deg: ...\", "
                       "\"# longitude_deg_east: ...\" and \"# utc_offset_h: ...\" before the data.");
    return lw_weather_finish(r);
}
