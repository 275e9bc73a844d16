/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the verbs about nights ask alike: a system file, a weather file, a place.
 */
#include "nights_ask.h"

#include "cli.h"

#include <math.h>
#include <stdlib.h>

bool lw_cli_number(const char *name, const char *text, double fallback, double low, double high, double *out,
                   lw_error *err)
{
    *out = fallback;
    if (!text)
        return true;
    char *end = NULL;
    *out = strtod(text, &end);
    if (end == text || *end != '\0')
        return lw_fail(err, LW_WRONG_INPUT, name, "%s is \"%.40s\"; it must be a number.", name, text);
    return lw_in_range(err, name, *out, low, high, "");
}

bool lw_cli_read_system(const char *path, lw_system *system, lw_error *err)
{
    char *text = NULL;
    size_t length = 0;
    const bool done =
        lw_cli_read_file(path, 4 << 20, &text, &length, err) && lw_system_from_json(text, length, system, err);
    free(text);
    return done;
}

bool lw_cli_read_weather(const char *path, lw_weather_year *year, lw_error *err)
{
    char *bytes = NULL;
    size_t length = 0;
    const bool done =
        lw_cli_read_file(path, LW_WEATHER_MAX_BYTES, &bytes, &length, err) && lw_weather_read(bytes, length, year, err);
    free(bytes);
    return done;
}

bool lw_cli_position(const char *text, double *lat, double *lon, lw_error *err)
{
    char *middle = NULL, *end = NULL;
    *lat = strtod(text, &middle);
    *lon = middle != text && *middle == ',' ? strtod(middle + 1, &end) : 0.0;
    if (!end || end == middle + 1 || *end != '\0')
        return lw_fail(err, LW_WRONG_INPUT, "--place",
                       "--place is \"%.40s\"; it must be latitude,longitude in degrees such as -11.62,34.27.", text);
    return true;
}

bool lw_cli_place_climate(const char *place, const char *elev_text, const char *offset, lw_climate *climate,
                          double *utc_offset_h, lw_error *err)
{
    double lat = 0.0, lon = 0.0, elev = NAN;
    if (!lw_cli_position(place, &lat, &lon, err))
        return false;
    if (!lw_in_range(err, "latitude", lat, -90.0, 90.0, "degree") ||
        !lw_in_range(err, "longitude", lon, -180.0, 360.0, "degree") ||
        !lw_cli_number("--elev", elev_text, NAN, -430.0, 8850.0, &elev, err))
        return false;
    lw_climate_data data;
    if (!lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, err) ||
        !lw_climate_at(&data, lat, lon, elev, climate, err))
        return false;
    const double solar_h = round((lon > 180.0 ? lon - 360.0 : lon) / 15.0);
    return lw_cli_number("--utc-offset", offset, solar_h, -12.0, 14.0, utc_offset_h, err);
}
