/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Monthly climate of a place as JSON.
 */
#ifndef LANEWICK_CLIMATE_JSON_H
#define LANEWICK_CLIMATE_JSON_H

#include "lanewick/climate.h"

/* Position, basis in words and a list of twelve values under each name of lw_climate; free() it. NULL when memory is
 * out. */
LW_MUST_CHECK char *lw_climate_to_json(const lw_climate *climate);

#endif
