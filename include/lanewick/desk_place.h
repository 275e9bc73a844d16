/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a user asks about a place.
 */
#ifndef LANEWICK_DESK_PLACE_H
#define LANEWICK_DESK_PLACE_H

#include "lanewick/error.h"

#include <stdbool.h>

/* The built-in climate of a position as JSON; elev_m may be NAN. free(*json). */
LW_MUST_CHECK bool lw_desk_climate(double lat_deg, double lon_deg, double elev_m, char **json, lw_error *err);

enum { LW_PLACES_FOUND = 20 };
/* Climate stations whose names hold the sought text, the best LW_PLACES_FOUND, as JSON. free(*json). */
LW_MUST_CHECK bool lw_desk_places(const char *sought, char **json, lw_error *err);

#endif
