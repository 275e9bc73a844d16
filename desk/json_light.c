/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light on a lane, and masts for a wished class, from document to document.
 */
#include "lanewick/desk_json.h"

#include "lanewick/lane_json.h"
#include "lanewick/layout_json.h"

enum { WINDOW_LAMPS = 50 }; /* for the share of light that goes upward, when there are more */

static bool no_file(const char *file, lw_error *err)
{
    return !file[0] || lw_fail(err, LW_WRONG_INPUT, "intensity_file",
                               "intensity_file names a file; here the head is given by its cos_power (a figure, "
                               "beam_fit, finds one).");
}

static bool give(char *text, char **json, lw_error *err)
{
    *json = text;
    return text || lw_fail(err, LW_STORAGE, "", "Memory is out.");
}

bool lw_desk_lane(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    lw_field_point *points = NULL;
    size_t count = 0;
    lw_lane *lane = lw_arena_take(arena, 1, sizeof *lane, err);
    if (!lane || !lw_lane_from_json(text, length, lane, err) || !no_file(lane->intensity_file, err) ||
        !lw_field_grid(&lane->field, arena, &points, &count, err))
        return false;
    lw_field_light(lane->lamps, lane->lamp_count, lane->reach_heights, points, count);
    lw_field_sum sum = lw_field_summary(points, count);
    sum.upward_share = lw_upward_share(lane->lamps, lane->lamp_count < WINDOW_LAMPS ? lane->lamp_count : 1);
    sum.threshold_increment_pct = lw_threshold_increment_pct(lane->lamps, lane->lamp_count, points, count,
                                                             sum.average_lx, lane->ground_reflectance);
    return give(lw_lane_to_json(lane, &sum, points, count), json, err);
}

bool lw_desk_lane_search(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err)
{
    size_t count = 0;
    lw_layout_request *request = lw_arena_take(arena, 1, sizeof *request, err);
    lw_layout *layouts = lw_arena_take(arena, LW_LAYOUT_MAX_MASTS, sizeof *layouts, err);
    return request && layouts && lw_layout_request_from_json(text, length, request, err) &&
           no_file(request->intensity_file, err) && lw_layout_search(&request->wish, arena, layouts, &count, err) &&
           give(lw_layouts_to_json(request, layouts, count), json, err);
}
