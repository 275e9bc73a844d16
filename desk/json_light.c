/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light on a lane, and masts for a wished class, from document to document.
 */
#include "lanewick/desk_json.h"

#include "lanewick/desk_head.h"
#include "lanewick/light_json.h"

#include <stdlib.h>

static bool give(char *text, char **json, lw_error *err)
{
    *json = text;
    return text || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}

bool lw_desk_lane(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_lane_light *light;
    return lw_desk_lane_light(text, length, NULL, arena, &light, err) &&
           give(lw_lane_to_json(&light->lane, &light->sum, light->points, light->count), json, err);
}

bool lw_desk_lane_search(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_lane_layouts *found;
    return lw_desk_lane_layouts(text, length, NULL, arena, &found, err) &&
           give(lw_layouts_to_json(&found->request, found->layout, found->count), json, err);
}

bool lw_desk_lane_drawn(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_lane_light *light;
    char *svg = NULL;
    const bool done = lw_desk_lane_light(text, length, NULL, arena, &light, err) &&
                      lw_desk_lane_svg(light, LW_SHOW_ALL, NULL, &svg, err) && give(lw_picture_to_json(svg), json, err);
    free(svg);
    return done;
}
