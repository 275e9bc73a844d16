/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The climate of a brief's place: the hourly file or the monthly means that it has, else what the climate data tell.
 */
#ifndef LANEWICK_BRIEF_CLIMATE_H
#define LANEWICK_BRIEF_CLIMATE_H

#include "lanewick/brief.h"
#include "lanewick/climate.h"
#include "lanewick/weather.h"

/* folder: where the brief's weather file lies; NULL: here. *file_year is made when the brief has such a file, also when
 * this fails later: free() it. */
LW_MUST_CHECK bool lw_brief_climate(const lw_place *place, const char *folder, lw_weather_year **file_year,
                                    lw_climate *out, lw_error *err);

#endif
