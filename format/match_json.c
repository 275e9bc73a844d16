/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matched packs as JSON: see lanewick/match_json.h.
 */
#include "lanewick/match_json.h"

#include "match_put.h"

#include <stdlib.h>

/* Common practice of pack building, said wherever cells are put together. */
static const char *const cautions[] = /* words */ {
    "Wear eye protection and gloves, work with a second person near, keep a bucket of dry sand at hand.",
    "Bring all cells of a group to the same voltage, within 0.05 V (0.02 V is better), before they are joined.",
    "Do not solder on a cell: use factory tabs, spot welding or holders. The can is the negative pole up to the rim.",
    "Every series group needs a board that watches it; a pack needs a fuse at its plus. A pack is not certified.",
    "Charge the first time attended, on a surface that cannot burn, away from where people sleep.",
    "A swollen or hot cell goes out of the house. Local rules on moving packs and on battery waste come first.",
};

const char *lw_pack_caution(size_t i)
{
    return i < sizeof cautions / sizeof cautions[0] ? cautions[i] : NULL;
}

static json_t *group_ids(const lw_cell_list *list, const lw_match *match)
{
    json_t *groups = json_array();
    for (int g = 0; g < match->groups; g++)
        json_array_append_new(groups, json_array());
    for (size_t i = 0; i < list->n && match->groups > 0; i++)
        if (match->group[i] >= 0)
            json_array_append_new(json_array_get(groups, (size_t)match->group[i]), json_string(list->cells[i].id));
    return groups;
}

static json_t *left_out(const lw_cell_list *list, const lw_match *match)
{
    json_t *ids = json_array();
    for (size_t i = 0; i < list->n; i++)
        if (match->groups == 0 || match->group[i] < 0)
            json_array_append_new(ids, json_string(list->cells[i].id));
    return ids;
}

static void put(json_t *object, const char *key, json_t *value)
{
    json_object_set_new(object, key, value);
}

void lw_json_put_match(json_t *object, const lw_cell_list *list, const lw_match_ask *ask, const lw_match *match)
{
    const size_t n = (size_t)match->groups;
    const bool some = n > 0, sure = some && match->guaranteed_ah;
    put(object, "series", json_integer(ask->series));
    put(object, "groups", group_ids(list, match));
    put(object, "group_capacity_ah", lw_json_list(match->capacity_ah, n));
    put(object, "weakest_ah", some ? lw_json_number(match->weakest_ah) : json_null());
    put(object, "bound_ah", some ? lw_json_number(match->bound_ah) : json_null());
    put(object, "spread_pct", some ? lw_json_number(match->spread_pct) : json_null());
    put(object, "proven_best", json_boolean(match->proven));
    if (sure) {
        put(object, "confidence", lw_json_number(ask->confidence));
        put(object, "group_guaranteed_ah", lw_json_list(match->guaranteed_ah, n));
        put(object, "weakest_guaranteed_ah", lw_json_number(match->guaranteed_weakest_ah));
        put(object, "bound_guaranteed_ah", lw_json_number(match->guaranteed_bound_ah));
    }
    put(object, "group_resistance_mohm", lw_json_list(match->group_mohm, n));
    put(object, "resistance_spread_pct", lw_json_number(match->resistance_spread_pct));
    put(object, "left_out", left_out(list, match));
    json_t *notes = json_array();
    if (list->decimal_commas)
        json_array_append_new(notes, json_string("Decimal commas were read as decimal points."));
    if (list->doubt[0])
        json_array_append_new(notes, json_string(list->doubt));
    put(object, "notes", notes);
    json_t *said = json_array();
    for (size_t i = 0; lw_pack_caution(i); i++)
        json_array_append_new(said, json_string(lw_pack_caution(i)));
    put(object, "cautions", said);
}

static char *finish(json_t *object)
{
    char *text = object ? json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS)) : NULL;
    json_decref(object);
    return text;
}

char *lw_match_to_json(const lw_cell_list *list, const lw_match_ask *ask, const lw_match *match)
{
    json_t *object = json_object();
    if (ask->packs > 1)
        put(object, "packs", json_integer(ask->packs));
    lw_json_put_match(object, list, ask, match);
    return finish(object);
}

char *lw_count_to_json(const lw_cell_list *list, const lw_match_ask *ask, double need_ah, const lw_count *count)
{
    json_t *object = json_object();
    put(object, "packs", json_integer(count->packs));
    put(object, "upper_bound", json_integer(count->upper_bound));
    put(object, "need_ah", lw_json_number(need_ah));
    lw_json_put_match(object, list, ask, &count->match);
    return finish(object);
}
