/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The wish for masts on a lane and its answer: see lanewick/layout_json.h.
 */
#include "lanewick/layout_json.h"

#include "doc.h"
#include "json_help.h"

#include <string.h>

const char *lw_side_text(lw_side side)
{
    static const char *const texts[] = {"one", "staggered", "middle"};
    return texts[side];
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

static void read_light(lw_doc *wish, lw_layout_request *out)
{
    lw_layout_wish *w = &out->wish;
    lw_doc_text(wish, "class", "", out->wanted_class, sizeof out->wanted_class);
    const lw_light_class *wanted = out->wanted_class[0] ? lw_light_class_find(out->wanted_class) : NULL;
    if (out->wanted_class[0] && !wanted)
        lw_doc_fail(wish, "class", "is \"%s\"; there are P1 to P6 and C0 to C5.", out->wanted_class);
    w->average_lx =
        lw_doc_number_or(wish, "average_lx", 0.0, 200.0, (lw_doc_or){wanted ? wanted->average_lx : 0.0, "lx", NULL});
    w->minimum_lx =
        lw_doc_number_or(wish, "minimum_lx", 0.0, 200.0, (lw_doc_or){wanted ? wanted->minimum_lx : 0.0, "lx", NULL});
    w->uniformity =
        lw_doc_number_or(wish, "uniformity", 0.0, 1.0, (lw_doc_or){wanted ? wanted->uniformity : 0.0, "", NULL});
    w->semicylindrical_lx = lw_doc_number_or(wish, "face_lx", 0.0, 200.0, (lw_doc_or){0.0, "lx", NULL});
    w->maintenance = lw_doc_number_or(wish, "maintenance", 0.01, 1.0, (lw_doc_or){0.8, "", NULL});
}

static void read_head(lw_doc *wish, lw_layout_request *out)
{
    lw_doc doc = lw_doc_part(wish, "head", false);
    lw_doc_text(&doc, "intensity_file", "", out->intensity_file, sizeof out->intensity_file);
    const double power = lw_doc_number_or(&doc, "cos_power", 0.0, 100.0, (lw_doc_or){1.0, "", NULL});
    out->lumens_per_w = lw_doc_number_or(&doc, "lumens_per_w", 5.0, 250.0, (lw_doc_or){80.0, "lm/W", NULL});
    out->wish.beam.street_plane_deg =
        lw_doc_number_or(&doc, "street_plane_deg", 0.0, 360.0, (lw_doc_or){0.0, "degree", NULL});
    out->wish.beam.cos_power = power;
    out->wish.beam.peak_cd = lw_cosine_peak_cd(1.0, power);
    out->wish.most_lumens = lw_doc_number_or(&doc, "most_lumens", 0.0, 1e6, (lw_doc_or){5000.0, "lm", NULL});
    (void)lw_doc_done(&doc);
}

static void read_choices_of_masts(lw_doc *wish, lw_layout_wish *w)
{
    static const double heights_m[] = {3.0, 3.5, 4.0, 5.0}, tilts_deg[] = {0.0, 10.0, 20.0};
    w->height_count = read_choices(wish, "heights_m", 1.0, 20.0, "m", heights_m, 4, w->heights_m);
    w->tilt_count = read_choices(wish, "tilts_deg", -45.0, 45.0, "degree", tilts_deg, 3, w->tilts_deg);
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
    w->fewest_masts =
        (size_t)lw_doc_integer_or(wish, "fewest_masts", 1, LW_LAYOUT_MAX_MASTS, (lw_doc_or){1.0, "", NULL});
    const double most = w->length_m / 4.0;
    const double fallback = most < (double)w->fewest_masts ? (double)w->fewest_masts
                            : most > 40.0                  ? 40.0
                                                           : (double)(int)most;
    w->most_masts =
        (size_t)lw_doc_integer_or(wish, "most_masts", 1, LW_LAYOUT_MAX_MASTS, (lw_doc_or){fallback, "", NULL});
}

bool lw_layout_request_from_json(const char *text, size_t length, lw_layout_request *out, lw_error *err)
{
    memset(out, 0, sizeof *out);
    lw_doc_file file;
    if (!lw_doc_file_open(&file, text, length, "lanewick.lane-wish/1", err))
        return false;
    out->wish.length_m = lw_doc_number(&file.doc, "length_m", 1.0, 2000.0, "m");
    out->wish.width_m = lw_doc_number(&file.doc, "width_m", 0.5, 50.0, "m");
    out->wish.offset_m = lw_doc_number_or(&file.doc, "offset_m", 0.0, 10.0, (lw_doc_or){0.3, "m", NULL});
    read_light(&file.doc, out);
    read_head(&file.doc, out);
    read_choices_of_masts(&file.doc, &out->wish);
    return lw_doc_file_close(&file);
}

static json_t *option(const lw_layout_request *request, const lw_layout *layout)
{
    const double watts = layout->lumens_each / request->lumens_per_w;
    json_t *one = json_object();
    json_object_set_new(one, "masts", json_integer((json_int_t)layout->masts));
    json_object_set_new(one, "side", json_string(lw_side_text(layout->side)));
    json_object_set_new(one, "height_m", lw_json_number(layout->height_m));
    json_object_set_new(one, "tilt_deg", lw_json_number(layout->tilt_deg));
    json_object_set_new(one, "spacing_m", lw_json_number(layout->spacing_m));
    json_object_set_new(one, "lumens_each", lw_json_number(layout->lumens_each));
    json_object_set_new(one, "watts_each", lw_json_number(watts));
    json_object_set_new(one, "watts_together", lw_json_number(watts * (double)layout->masts));
    json_object_set_new(one, "average_lx", lw_json_number(layout->light.average_lx));
    json_object_set_new(one, "minimum_lx", lw_json_number(layout->light.minimum_lx));
    json_object_set_new(one, "uniformity", lw_json_number(layout->light.uniformity));
    json_object_set_new(one, "semicylindrical_minimum_lx", lw_json_number(layout->light.semicylindrical_minimum_lx));
    json_object_set_new(one, "upward_share", lw_json_number(layout->light.upward_share));
    json_object_set_new(one, "in_words", json_string(lw_light_in_words(&layout->light)));
    return one;
}

char *lw_layouts_to_json(const lw_layout_request *request, const lw_layout *layouts, size_t count)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, option(request, &layouts[i]));
    json_t *object =
        json_pack("{s:s?,s:o}", "class", request->wanted_class[0] ? request->wanted_class : NULL, "options", list);
    return lw_json_line(object);
}
