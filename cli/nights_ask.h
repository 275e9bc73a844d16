/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the verbs about nights ask alike: a system file, a weather file, a place.
 */
#ifndef LANEWICK_CLI_NIGHTS_ASK_H
#define LANEWICK_CLI_NIGHTS_ASK_H

#include "lanewick/climate.h"
#include "lanewick/system.h"
#include "lanewick/weather.h"

/* A number within low..high; fallback where text is NULL. */
LW_MUST_CHECK bool lw_cli_number(const char *name, const char *text, double fallback, double low, double high,
                                 double *out, lw_error *err);
LW_MUST_CHECK bool lw_cli_read_system(const char *path, lw_system *system, lw_error *err);
LW_MUST_CHECK bool lw_cli_read_weather(const char *path, lw_weather_year *year, lw_error *err);
/* The built-in climate at "LAT,LON"; height (NULL: of the nearest stations) and clock (NULL: of the sun). */
LW_MUST_CHECK bool lw_cli_place_climate(const char *place, const char *elev_text, const char *offset,
                                        lw_climate *climate, double *utc_offset_h, lw_error *err);

/* "latitude,longitude" in degrees, of --place. */
LW_MUST_CHECK bool lw_cli_position(const char *text, double *lat, double *lon, lw_error *err);

#endif
