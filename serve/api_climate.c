/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The monthly climate of a place; places by the names of climate stations.
 */
#include "server.h"

#include "lanewick/desk_place.h"

#include <math.h>

void lw_api_climate(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    double lat = 0.0, lon = 0.0, elev = NAN;
    char *text = NULL;
    const bool done = lw_call_number(call, "lat", false, -90.0, 90.0, &lat, &err) &&
                      lw_call_number(call, "lon", false, -180.0, 360.0, &lon, &err) &&
                      lw_call_number(call, "elev", true, -430.0, 8850.0, &elev, &err) &&
                      lw_desk_climate(lat, lon, elev, &text, &err);
    if (done)
        lw_answer_json(out, text);
    else
        lw_answer_error(out, call->request, &err);
}

void lw_api_places(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char name[LW_SERVE_WORD], *text = NULL;
    if (lw_uri_query(call->request->uri, "name", name, sizeof name) <= 0)
        (void)lw_fail(&err, LW_WRONG_INPUT, "name", "name must come once, in at most %d letters.", LW_SERVE_WORD - 1);
    if (err.family == LW_OK && lw_desk_places(name, &text, &err))
        lw_answer_json(out, text);
    else
        lw_answer_error(out, call->request, &err);
}
