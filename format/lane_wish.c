/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reader of the wish for light on a lane: see lane_wish.h and docs/lane.md.
 */
#include "lane_wish.h"

#include "brief_read.h"
#include "head_read.h"
#include "json_help.h"

#include "lanewick/layout_json.h"
#include "lanewick/units.h"

#include <math.h>
#include <string.h>

static void read_corners(lw_doc *doc, const char *key, lw_field *field)
{
    const json_t *list = lw_doc_list(doc, key, 2, LW_LANE_MAX_CORNERS);
    field->corner_count = json_array_size(list);
    for (size_t i = 0; i < field->corner_count; i++) {
        const json_t *pair = json_array_get(list, i);
        const json_t *x = json_array_get(pair, 0), *y = json_array_get(pair, 1);
        if (json_array_size(pair) != 2 || !json_is_number(x) || !json_is_number(y))
            lw_doc_fail(doc, key, "must be a list of pairs [x, y] in metres; pair %zu is not one.", i + 1);
        else
            field->corners[i] = (lw_corner){json_number_value(x), json_number_value(y)};
    }
}

void lw_lane_read_field(lw_doc *doc, lw_field_range range, lw_field *field)
{
    const bool polygon = lw_doc_has(doc, "polygon"), line = lw_doc_has(doc, "line");
    field->kind = polygon ? LW_FIELD_POLYGON : LW_FIELD_STRIP;
    if (polygon) {
        read_corners(doc, "polygon", field);
        return;
    }
    field->width_m = lw_doc_number(doc, "width_m", range.least_width_m, range.most_width_m, "m");
    field->corner_count = 2;
    if (line)
        read_corners(doc, "line", field);
    else if (!range.row || lw_doc_has(doc, "length_m"))
        field->corners[1].x_m = lw_doc_number(doc, "length_m", 0.5, range.most_length_m, "m");
}

/* A list of numbers, or the default list. */
static size_t read_choices(lw_doc *doc, const char *key, double low, double high, const char *unit,
                           const double *fallback, size_t fallback_count, double *out)
{
    const json_t *list = lw_doc_list(doc, key, 0, LW_LAYOUT_CHOICES);
    if (!list || json_array_size(list) == 0) {
        memcpy(out, fallback, fallback_count * sizeof *out);
        return fallback_count;
    }
    (void)lw_doc_numbers(doc, key, low, high, unit, out, json_array_size(list));
    return json_array_size(list);
}

static void read_light(lw_doc *doc, char name[8], lw_light_wish *out)
{
    lw_doc_text(doc, "class", "", name, 8);
    const lw_light_class *wanted = name[0] ? lw_light_class_find(name) : NULL;
    if (name[0] && !wanted)
        lw_doc_fail(doc, "class", "is \"%s\"; there are P1 to P6 and C0 to C5.", name);
    out->average_lx =
        lw_doc_number_or(doc, "average_lx", 0.0, 200.0, (lw_doc_or){wanted ? wanted->average_lx : 0.0, "lx", NULL});
    out->minimum_lx =
        lw_doc_number_or(doc, "minimum_lx", 0.0, 200.0, (lw_doc_or){wanted ? wanted->minimum_lx : 0.0, "lx", NULL});
    out->uniformity =
        lw_doc_number_or(doc, "uniformity", 0.0, 1.0, (lw_doc_or){wanted ? wanted->uniformity : 0.0, "", NULL});
    out->semicylindrical_lx = lw_doc_number_or(doc, "face_lx", 0.0, 200.0, (lw_doc_or){0.0, "lx", NULL});
}

/* Less light late at night: from when, until when, how much. */
static void read_late(lw_doc *wish, lw_layout_request *out, lw_span *late)
{
    *late = (lw_span){{LW_AT_DAWN, 0.0}, {LW_AT_DAWN, 0.0}, 1.0};
    if (!lw_doc_has(wish, "late"))
        return;
    lw_doc doc = lw_doc_part(wish, "late", false);
    late->from = lw_brief_read_moment(&doc, "from");
    if (lw_doc_has(&doc, "to"))
        late->until = lw_brief_read_moment(&doc, "to");
    read_light(&doc, out->late_class, &out->wish.late);
    const lw_light_wish *l = &out->wish.late, *full = &out->wish.light;
    const bool light = l->average_lx > 0.0 || l->minimum_lx > 0.0 || l->semicylindrical_lx > 0.0;
    late->level = NAN;
    if (lw_doc_has(&doc, "level"))
        late->level = lw_doc_number(&doc, "level", 0.0, 1.0, "of full light");
    if (isnan(late->level) != light)
        lw_doc_fail(&doc, "level", "%s; say how much light is enough late: a class, lux or a level.",
                    light ? "is given besides the light in lux" : "is missing");
    if (l->average_lx > full->average_lx || l->minimum_lx > full->minimum_lx ||
        l->semicylindrical_lx > full->semicylindrical_lx)
        lw_doc_fail(&doc, "average_lx",
                    "or minimum_lx or face_lx is more than the lane's at full light, or that is not "
                    "given.");
    (void)lw_doc_done(&doc);
}

void lw_read_lane_head(lw_doc *doc, size_t head, lw_layout_request *out)
{
    lw_head *from = &out->head[head];
    lw_layout_head *to = &out->wish.head[head];
    lw_head_read_shape(doc, from);
    from->colour_k = lw_head_read_colour(doc);
    to->beam = (lw_beam){.cos_power = from->cos_power,
                         .round = from->round,
                         .street_plane_deg = from->street_plane_deg,
                         .peak_cd = from->round ? 1.0 / (4.0 * lw_pi) : lw_cosine_peak_cd(1.0, from->cos_power)};
    to->yellowed = 1.0;
    to->most_lumens = lw_doc_number_or(doc, "most_lumens", 0.0, 1e6, (lw_doc_or){5000.0, "lm", NULL});
}

static void read_sides(lw_doc *wish, lw_layout_wish *w)
{
    const json_t *sides = lw_doc_list(wish, "sides", 0, 3);
    for (size_t i = 0; i < 3; i++)
        w->sides[i] = json_array_size(sides) == 0 && i != LW_SIDE_MIDDLE;
    for (size_t i = 0; i < json_array_size(sides); i++) {
        const char *text = json_string_value(json_array_get(sides, i));
        int side = 0;
        while (side < 3 && (!text || strcmp(text, lw_side_text((lw_side)side)) != 0))
            side++;
        if (side == 3)
            lw_doc_fail(wish, "sides", "must hold the words one, staggered or middle.");
        else
            w->sides[side] = true;
    }
    if (w->field.kind == LW_FIELD_POLYGON && !w->sides[LW_SIDE_ONE])
        lw_doc_fail(wish, "sides", "must hold one: around a polygon masts stand on its edge.");
}

/* Given places, an exact number, or a range. */
static void read_number_of_masts(lw_doc *wish, int most, lw_layout_wish *w)
{
    lw_field places = {.corner_count = 0};
    const bool exact = lw_doc_has(wish, "masts"), given = lw_doc_has(wish, "mast_places");
    const bool range = lw_doc_has(wish, "fewest_masts") || lw_doc_has(wish, "most_masts");
    if (exact + given + range > 1)
        lw_doc_fail(wish, "masts",
                    "tells the number in more than one way; give masts, mast_places, or fewest_masts and "
                    "most_masts.");
    const int fewest = lw_doc_integer_or(wish, "fewest_masts", 1, most, (lw_doc_or){1.0, "", NULL});
    const double by_length = wish->root->failed ? 1.0 : floor(lw_layout_length_m(&w->field) / 4.0);
    const double fallback = fmin(most, fmax(fewest, fmin(40.0, by_length)));
    w->fewest_masts = (size_t)fewest;
    w->most_masts = (size_t)lw_doc_integer_or(wish, "most_masts", 1, most, (lw_doc_or){fallback, "", NULL});
    if (exact)
        w->fewest_masts = w->most_masts = (size_t)lw_doc_integer_or(wish, "masts", 1, most, (lw_doc_or){1.0, "", NULL});
    if (!given)
        return;
    if (json_array_size(json_object_get(wish->object, "mast_places")) == 1)
        lw_doc_fail(wish, "mast_places", "must hold at least two places; for one mast write \"masts\": 1.");
    read_corners(wish, "mast_places", &places);
    w->place_count = w->fewest_masts = w->most_masts = places.corner_count;
    memcpy(w->place, places.corners, places.corner_count * sizeof places.corners[0]);
    if ((int)w->place_count > most)
        lw_doc_fail(wish, "mast_places", "are %zu; %d are possible.", w->place_count, most);
}

void lw_read_lane_wish(lw_doc *doc, bool brief, lw_layout_request *out, lw_span *late)
{
    static const double heights_m[] = {3.0, 3.5, 4.0, 5.0}, tilts_deg[] = {0.0, 10.0, 20.0}, turns_deg[] = {0.0};
    lw_layout_wish *w = &out->wish;
    lw_lane_read_field(doc, (lw_field_range){0.5, 50.0, 2000.0, false}, &w->field);
    w->offset_m = lw_doc_number_or(doc, "offset_m", 0.0, 10.0, (lw_doc_or){0.3, "m", NULL});
    read_light(doc, out->wanted_class, &w->light);
    read_late(doc, out, late);
    if (!brief) {
        w->maintenance = lw_doc_number_or(doc, "maintenance", 0.01, 1.0, (lw_doc_or){0.8, "", NULL});
        lw_doc head = lw_doc_part(doc, "head", false);
        lw_read_lane_head(&head, 0, out);
        out->lumens_per_w[0] = lw_doc_number_or(&head, "lumens_per_w", 5.0, 250.0, (lw_doc_or){80.0, "lm/W", NULL});
        w->head_count = 1;
        (void)lw_doc_done(&head);
    }
    w->height_count = read_choices(doc, "heights_m", 1.0, 20.0, "m", heights_m, 4, w->heights_m);
    w->tilt_count = read_choices(doc, "tilts_deg", -45.0, 45.0, "degree", tilts_deg, 3, w->tilts_deg);
    w->turn_count = read_choices(doc, "turns_deg", -180.0, 180.0, "degree", turns_deg, 1, w->turns_deg);
    read_sides(doc, w);
    read_number_of_masts(doc, brief ? LW_BRIEF_LAMPS : LW_LAYOUT_MAX_MASTS, w);
    out->aim = (lw_lane_aim)lw_doc_choice(doc, "aim", "cost|masts|watts", brief ? LW_AIM_COST : LW_AIM_WATTS, NULL);
    if (!brief && !doc->root->failed && out->aim == LW_AIM_COST)
        lw_doc_fail(doc, "aim", "is cost, which needs a place and a shelf with prices: give a brief (--brief).");
}
