/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light on a lane, and masts for a wished class, from document to document.
 */
#include "lanewick/desk_json.h"

#include "lanewick/desk.h"
#include "lanewick/desk_head.h"
#include "lanewick/desk_light.h"
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

/* A brief: with the nights in the loop. */
static bool search_with_nights(const char *text, size_t length, char **json, lw_error *err)
{
    const lw_plan_request request = {
        .brief = text, .brief_length = length, .seed = 1, .lane_only = true, .no_files = true};
    lw_plan *plan = malloc(sizeof *plan);
    bool done = plan || lw_fail(err, LW_STORAGE, "", "Memory is out.");
    done = done && lw_desk_plan(&request, plan, err);
    if (done && plan->refused.count > 0)
        done = lw_fail(err, LW_REFUSED, "brief", "%s %s", plan->refused.item[0].reason, plan->refused.item[0].remedy);
    done = done && give(lw_plan_lane_to_json(plan), json, err);
    free(plan);
    return done;
}

bool lw_desk_lane_search(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_lane_layouts *found;
    if (lw_document_is(text, length, "lanewick.brief/1"))
        return search_with_nights(text, length, json, err);
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
