/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Monthly climate of a place as JSON.
 */
#include "lanewick/climate_json.h"

#include "json_help.h"

char *lw_climate_to_json(const lw_climate *c)
{
    const struct {
        const char *key;
        const double *months;
    } lists[] = {{"ghi_kwh_m2_day", c->ghi_kwh_m2_day},
                 {"ghi_spread_pct", c->ghi_spread_pct},
                 {"ghi_year_sd_pct", c->ghi_year_sd_pct},
                 {"clearness", c->clearness},
                 {"clearness_day_sd", c->clearness_day_sd},
                 {"clearness_day_sd_spread", c->clearness_day_sd_spread},
                 {"clearness_day_lag1", c->clearness_day_lag1},
                 {"t_mean_c", c->t_mean_c},
                 {"t_range_c", c->t_range_c},
                 {"wind_10m_ms", c->wind_10m_ms},
                 {"rain_mm", c->rain_mm}};
    json_t *object = json_pack("{s:o,s:o,s:o,s:s}", "lat_deg", lw_json_number(c->lat_deg), "lon_deg",
                               lw_json_number(c->lon_deg), "elev_m", lw_json_number(c->elev_m), "basis", c->basis);
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++)
        json_object_set_new(object, lists[i].key, lw_json_list(lists[i].months, 12));
    char *text = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS));
    json_decref(object);
    return text;
}

char *lw_place_names_to_json(const lw_place_name *const *found, size_t count)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list,
                              json_pack("{s:s,s:s,s:o,s:o,s:o}", "name", found[i]->name, "country", found[i]->country,
                                        "lat_deg", lw_json_number(found[i]->lat_deg), "lon_deg",
                                        lw_json_number(found[i]->lon_deg), "elev_m", lw_json_number(found[i]->elev_m)));
    json_t *object = json_pack("{s:o}", "places", list);
    char *text = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS));
    json_decref(object);
    return text;
}
