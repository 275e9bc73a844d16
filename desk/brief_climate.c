/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The climate of a brief's place: see brief_climate.h.
 */
#include "brief_climate.h"

#include "read_file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

/* A file of another place would quietly make a wrong plan. */
static bool same_place(const lw_place *place, const lw_weather_year *year, lw_error *err)
{
    const double east = fabs(remainder(place->lon_deg - year->lon_deg, 360.0));
    if (fabs(place->lat_deg - year->lat_deg) <= 1.0 && east <= 1.0)
        return true;
    return lw_fail(err, LW_WRONG_INPUT, "place.weather_file",
                   "place.weather_file is for %.2f, %.2f and the brief for %.2f, %.2f; they must lie within 1 degree.",
                   year->lat_deg, year->lon_deg, place->lat_deg, place->lon_deg);
}

/* Monthly means of the brief's hourly file. */
static bool climate_of_file(const lw_place *place, const char *folder, lw_weather_year **file_year, lw_climate *out,
                            lw_error *err)
{
    char path[1024], *bytes = NULL;
    size_t length = 0;
    lw_file_beside(folder ? folder : ".", place->weather_file, path, sizeof path);
    lw_weather_year *year = malloc(sizeof *year);
    *file_year = year;
    const lw_file_ask ask = {.field = "place.weather_file", .path = path, .most = LW_WEATHER_MAX_BYTES, .advice = ""};
    const bool read = year && lw_read_file(&ask, &bytes, &length, err) && lw_weather_read(bytes, length, year, err);
    free(bytes);
    if (!read)
        return false;
    return same_place(place, year, err) &&
           lw_climate_of_year(year, place->lat_deg, place->lon_deg, place->elev_m, out, err);
}

static const double *given(const double values[12])
{
    return isnan(values[0]) ? NULL : values;
}

static bool climate_of_means(const lw_place *place, lw_climate *out, lw_error *err)
{
    lw_error why = {0};
    if (lw_climate_from_means(place->lat_deg, place->lon_deg, place->elev_m, place->ghi_kwh_m2_day,
                              given(place->t_mean_c), given(place->t_range_c), given(place->wind_10m_ms),
                              given(place->rain_mm), out, &why))
        return true;
    char field[sizeof why.field + 16];
    (void)snprintf(field, sizeof field, "place.monthly.%s", why.field);
    return lw_fail(err, why.family, field, "place.monthly.%s", why.message);
}

bool lw_brief_climate(const lw_place *place, const char *folder, lw_weather_year **file_year, lw_climate *out,
                      lw_error *err)
{
    lw_climate_data data;
    if (!lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, err))
        return false;
    if (!place->weather_file[0] && !place->monthly)
        return lw_climate_at(&data, place->lat_deg, place->lon_deg, place->elev_m, out, err);
    if (!(place->weather_file[0] ? climate_of_file(place, folder, file_year, out, err)
                                 : climate_of_means(place, out, err)))
        return false;
    lw_climate_days_near(&data, 0.0, out);
    return true;
}
