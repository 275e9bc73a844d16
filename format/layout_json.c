/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The wish for masts on a lane and its answer: see lanewick/layout_json.h.
 */
#include "lanewick/layout_json.h"

#include "json_help.h"
#include "lane_wish.h"

#include <string.h>

const char *lw_side_text(lw_side side)
{
    static const char *const texts[] = {"one", "staggered", "middle"};
    return texts[side];
}

const char *lw_layout_stand_text(const lw_layout_wish *wish, const lw_layout *layout)
{
    if (wish->place_count > 0)
        return "given";
    return wish->field.kind == LW_FIELD_POLYGON ? "edge" : lw_side_text(layout->side);
}

bool lw_layout_request_from_json(const char *text, size_t length, lw_layout_request *out, lw_error *err)
{
    memset(out, 0, sizeof *out);
    lw_doc_file file;
    if (!lw_doc_file_open(&file, text, length, "lanewick.lane-wish/1", err))
        return false;
    lw_span late;
    lw_read_lane_wish(&file.doc, false, out, &late);
    return lw_doc_file_close(&file);
}

json_t *lw_json_mast(const lw_lamp *lamp)
{
    return json_pack("{s:o,s:o,s:o,s:o,s:o}", "x_m", lw_json_number(lamp->x_m), "y_m", lw_json_number(lamp->y_m),
                     "height_m", lw_json_number(lamp->height_m), "turn_deg", lw_json_number(lamp->turn_deg), "tilt_deg",
                     lw_json_number(lamp->tilt_deg));
}

static json_t *places(const lw_layout_request *request, const lw_layout *layout)
{
    lw_lamp lamps[LW_LAYOUT_MAX_MASTS];
    json_t *list = json_array();
    lw_layout_lamps(&request->wish, layout, lamps);
    for (size_t i = 0; i < layout->masts; i++)
        json_array_append_new(list, lw_json_mast(&lamps[i]));
    return list;
}

void lw_put_colour(json_t *object, const lw_layout_request *request, const lw_layout *layout)
{
    if (!(request->head[layout->head].colour_k > 0.0))
        return;
    const lw_light_colour colour = lw_layout_colour(request, layout);
    json_object_set_new(object, "white", json_string(colour.grade));
    json_object_set_new(object, "colour_advice", json_string(colour.advice));
}

static json_t *option(const lw_layout_request *request, const lw_layout *layout)
{
    const double watts = layout->lumens_each / request->lumens_per_w[layout->head];
    json_t *one = json_object();
    json_object_set_new(one, "masts", json_integer((json_int_t)layout->masts));
    json_object_set_new(one, "side", json_string(lw_side_text(layout->side)));
    json_object_set_new(one, "height_m", lw_json_number(layout->height_m));
    json_object_set_new(one, "tilt_deg", lw_json_number(layout->tilt_deg));
    json_object_set_new(one, "turn_deg", lw_json_number(layout->turn_deg));
    json_object_set_new(one, "spacing_m", lw_json_number(layout->spacing_m));
    json_object_set_new(one, "end_m", lw_json_number(layout->end_m));
    json_object_set_new(one, "lumens_each", lw_json_number(layout->lumens_each));
    json_object_set_new(one, "watts_each", lw_json_number(watts));
    json_object_set_new(one, "watts_together", lw_json_number(watts * (double)layout->masts));
    if (layout->late_level > 0.0)
        json_object_set_new(one, "late_level", lw_json_number(layout->late_level));
    json_object_set_new(one, "average_lx", lw_json_number(layout->light.average_lx));
    json_object_set_new(one, "minimum_lx", lw_json_number(layout->light.minimum_lx));
    json_object_set_new(one, "uniformity", lw_json_number(layout->light.uniformity));
    json_object_set_new(one, "semicylindrical_minimum_lx", lw_json_number(layout->light.semicylindrical_minimum_lx));
    json_object_set_new(one, "upward_share", lw_json_number(layout->light.upward_share));
    json_object_set_new(one, "in_words", json_string(lw_light_in_words(&layout->light)));
    lw_put_colour(one, request, layout);
    json_object_set_new(one, "places", places(request, layout));
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
