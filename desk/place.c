/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a user asks about a place: see lanewick/desk_place.h.
 */
#include "lanewick/desk_place.h"

#include "lanewick/climate_json.h"

bool lw_desk_climate(double lat_deg, double lon_deg, double elev_m, char **json, lw_error *err)
{
    lw_climate_data data;
    lw_climate climate;
    if (!lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, err) ||
        !lw_climate_at(&data, lat_deg, lon_deg, elev_m, &climate, err))
        return false;
    *json = lw_climate_to_json(&climate);
    return *json || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}

bool lw_desk_places(const char *sought, char **json, lw_error *err)
{
    const lw_place_names names = lw_place_names_packed();
    const lw_place_name *found[LW_PLACES_FOUND];
    *json = lw_place_names_to_json(found, lw_place_search(&names, sought, found, LW_PLACES_FOUND));
    return *json || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}
