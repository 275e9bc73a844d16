/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nights of a system at a place, from document to document.
 */
#include "lanewick/desk_json.h"

#include "lanewick/nights_desk.h"
#include "lanewick/nights_request_json.h"

bool lw_desk_nights(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_nights_request *ask = lw_arena_take(arena, 1, sizeof *ask, err);
    lw_climate climate;
    lw_climate_data data;
    lw_dark_band band;
    if (!ask || !lw_nights_request_from_json(text, length, ask, err) ||
        !lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, err) ||
        !lw_climate_at(&data, ask->lat_deg, ask->lon_deg, ask->elev_m, &climate, err))
        return false;
    const lw_night_draws draws = {.system = &ask->system,
                                  .climate = &climate,
                                  .utc_offset_h = ask->utc_offset_h,
                                  .years = (uint32_t)ask->years,
                                  .seed = ask->seed,
                                  .confidence = ask->confidence};
    lw_nights_summary *summaries = lw_arena_take(arena, draws.years, sizeof *summaries, err);
    if (!summaries || !lw_desk_night_draws(&draws, summaries, &band, err))
        return false;
    *json = lw_night_draws_to_json(&draws, summaries, &band);
    return *json || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}
