/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The question about a system's nights: see lanewick/nights_request_json.h.
 */
#include "lanewick/nights_request_json.h"

#include "doc.h"
#include "json_help.h"
#include "system_read.h"

#include <math.h>

static void read_place(lw_doc *doc, lw_nights_request *out)
{
    lw_doc place = lw_doc_part(doc, "place", true);
    out->lat_deg = lw_doc_number(&place, "lat_deg", -90.0, 90.0, "degree");
    out->lon_deg = lw_doc_number(&place, "lon_deg", -180.0, 360.0, "degree");
    const double solar_h = round((out->lon_deg > 180.0 ? out->lon_deg - 360.0 : out->lon_deg) / 15.0);
    out->elev_m = lw_doc_number_or(&place, "elev_m", -430.0, 8850.0, (lw_doc_or){NAN, "m", NULL});
    out->utc_offset_h = lw_doc_number_or(&place, "utc_offset_h", -12.0, 14.0, (lw_doc_or){solar_h, "h", NULL});
    (void)lw_doc_done(&place);
}

static bool read(const json_t *value, lw_nights_request *out, lw_error *err)
{
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, value, "");
    read_place(&doc, out);
    const lw_doc system = lw_doc_part(&doc, "system", true);
    out->years = lw_doc_integer_or(&doc, "years", 1, LW_NIGHTS_REQUEST_YEARS, (lw_doc_or){200.0, "", NULL});
    out->seed = (uint64_t)lw_doc_integer_or(&doc, "seed", 0, 2147483647, (lw_doc_or){1.0, "", NULL});
    out->confidence = lw_doc_number_or(&doc, "confidence", 0.01, 0.999, (lw_doc_or){0.8, "", NULL});
    return lw_doc_done(&doc) && lw_system_from_value(system.object, &out->system, err);
}

bool lw_nights_request_from_json(const char *text, size_t length, lw_nights_request *out, lw_error *err)
{
    json_t *value = lw_json_parse(text, length, err);
    if (!value)
        return false;
    const bool done = read(value, out, err);
    json_decref(value);
    return done;
}
