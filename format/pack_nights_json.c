/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The nights of matched cells as JSON: see lanewick/pack_nights.h.
 */
#include "lanewick/pack_nights.h"

#include "match_put.h"

static json_t *band(const lw_dark_band *dark, bool one_year)
{
    json_t *object = json_object();
    json_object_set_new(object, "mean", lw_json_number(dark->mean));
    json_object_set_new(object, "low", one_year ? json_null() : lw_json_number(dark->low));
    json_object_set_new(object, "high", one_year ? json_null() : lw_json_number(dark->high));
    return object;
}

static json_t *wiring(const lw_pack_wiring *pack, int series, int years, bool one_year)
{
    json_t *object = json_object(), *ah = json_array(), *mohm = json_array(), *rows = json_array();
    for (int g = 0; g < series; g++) {
        json_array_append_new(ah, lw_json_number(pack->group[g].capacity_ah));
        json_array_append_new(mohm, lw_json_number(1000.0 * (pack->group[g].r0_ohm + pack->group[g].r1_ohm)));
    }
    for (int y = 0; y <= years; y++) {
        json_t *row = json_object();
        json_object_set_new(row, "year", json_integer(y));
        json_object_set_new(row, "capacity_share", lw_json_number(pack->capacity_share[y]));
        json_object_set_new(row, "dark_per_year", band(&pack->dark[y], one_year));
        json_array_append_new(rows, row);
    }
    json_object_set_new(object, "group_capacity_ah", ah);
    json_object_set_new(object, "group_resistance_mohm", mohm);
    json_object_set_new(object, "weakest_ah", lw_json_number(pack->weakest_ah));
    json_object_set_new(object, "years", rows);
    return object;
}

char *lw_pack_nights_to_json(const lw_pack_nights_ask *ask, const lw_cell_list *list, const lw_pack_nights *nights)
{
    const bool one_year = ask->hours != NULL;
    json_t *object = json_object(), *both = json_object();
    lw_json_put_match(object, list, &ask->match, &nights->match);
    json_object_set_new(both, "lamp", lw_json_text(ask->system->name));
    json_object_set_new(both, "simulated_years", json_integer(one_year ? 1 : ask->draws.years));
    json_object_set_new(both, "seed", json_integer((json_int_t)ask->draws.seed));
    json_object_set_new(both, "confidence", one_year ? json_null() : lw_json_number(ask->draws.confidence));
    json_object_set_new(both, "health", lw_json_number(ask->health));
    json_object_set_new(both, "matched", wiring(&nights->matched, ask->match.series, nights->years, one_year));
    json_object_set_new(both, "as_they_come",
                        wiring(&nights->as_they_come, ask->match.series, nights->years, one_year));
    json_object_set_new(both, "resistance_of_the_system", json_boolean(nights->system_mohm));
    json_object_set_new(both, "class_of_the_system", json_boolean(nights->system_class));
    json_object_set_new(object, "pack_nights", both);
    char *text = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS));
    json_decref(object);
    return text;
}
