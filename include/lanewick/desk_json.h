/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wishes that are one JSON document in and one out. What each document holds: docs/api/openapi.json and docs/schema/.
 */
#ifndef LANEWICK_DESK_JSON_H
#define LANEWICK_DESK_JSON_H

#include "lanewick/arena.h"
#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>

enum { LW_DESK_JSON_BYTES = 72 << 20 }; /* of arena, enough for each of them; touched only as far as it is used */

/* Files that a document names are not read: it may come from elsewhere. free(*json). */
typedef bool lw_desk_json(const char *text, size_t length, lw_arena *arena, char **json, lw_error *err);

lw_desk_json lw_desk_lane;        /* lanewick.lane/1: light on a lane */
lw_desk_json lw_desk_lane_drawn;  /* the same as a picture, {"svg"} */
lw_desk_json lw_desk_lane_search; /* lanewick.lane-wish/1: masts for a class */
lw_desk_json lw_desk_mast;        /* lanewick.mast/1 */
lw_desk_json lw_desk_lamp_mast;   /* the mast of one lamp of a brief, as a lanewick.mast/1 to ask with */
lw_desk_json lw_desk_circuit;     /* lanewick.circuit/1 */
lw_desk_json lw_desk_nights;      /* a system at a place through synthetic years */
lw_desk_json lw_desk_ribbon;      /* a planned lamp night by night */
lw_desk_json lw_desk_pack;        /* cells into packs */

#endif
