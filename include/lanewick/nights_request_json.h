/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The question about a system's nights at a place: {"system": lanewick.system/1, "place": {"lat_deg", "lon_deg",
 * "elev_m", "utc_offset_h"}, "years", "seed", "confidence"}.
 */
#ifndef LANEWICK_NIGHTS_REQUEST_JSON_H
#define LANEWICK_NIGHTS_REQUEST_JSON_H

#include "lanewick/system.h"

#include <stdint.h>

enum { LW_NIGHTS_REQUEST_YEARS = 2000 };

typedef struct lw_nights_request {
    lw_system system;
    double lat_deg, lon_deg, elev_m, utc_offset_h; /* elev_m NAN: that of the nearest stations */
    int years;
    uint64_t seed;
    double confidence;
} lw_nights_request;

/* Left out: years 200, seed 1, confidence 0.8, the clock of the sun to the hour. */
LW_MUST_CHECK bool lw_nights_request_from_json(const char *text, size_t length, lw_nights_request *out, lw_error *err);

#endif
