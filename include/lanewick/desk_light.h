/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light on a lane, and masts for a wished light: the calls behind both doors (the command line prints, the API writes
 * JSON). A folder is where files that a document names lie; NULL: files are not read, for it may come from elsewhere.
 */
#ifndef LANEWICK_DESK_LIGHT_H
#define LANEWICK_DESK_LIGHT_H

#include "lanewick/lane_json.h"
#include "lanewick/layout_json.h"

typedef struct lw_lane_light {
    lw_lane lane;
    lw_field_point *points;
    size_t count;
    lw_field_sum sum;
} lw_lane_light;

/* A lane document (lanewick.lane/1) and the light on it; all of it in the arena. */
LW_MUST_CHECK bool lw_desk_lane_light(const char *text, size_t length, const char *folder, lw_arena *arena,
                                      lw_lane_light **out, lw_error *err);

typedef struct lw_lane_layouts {
    lw_layout_request request;
    lw_layout layout[LW_LAYOUT_MAX_MASTS];
    size_t count;
} lw_lane_layouts;

/* A wish (lanewick.lane-wish/1) and the layouts that meet it; all of it in the arena. */
LW_MUST_CHECK bool lw_desk_lane_layouts(const char *text, size_t length, const char *folder, lw_arena *arena,
                                        lw_lane_layouts **out, lw_error *err);

#endif
