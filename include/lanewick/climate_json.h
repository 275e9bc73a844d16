/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Monthly climate of a place as JSON, and places found by their names.
 */
#ifndef LANEWICK_CLIMATE_JSON_H
#define LANEWICK_CLIMATE_JSON_H

#include "lanewick/climate.h"
#include "lanewick/place_names.h"

#include <stddef.h>

/* Position, basis in words and a list of twelve values under each name of lw_climate; free() it. NULL when memory is
 * out. */
LW_MUST_CHECK char *lw_climate_to_json(const lw_climate *climate);

/* {"places": [{"name", "country", "lat_deg", "lon_deg", "elev_m" (null: unknown)}]}; free() it. NULL when memory is
 * out. */
LW_MUST_CHECK char *lw_place_names_to_json(const lw_place_name *const *found, size_t count);

#endif
