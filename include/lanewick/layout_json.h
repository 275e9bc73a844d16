/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The wish for masts on a lane, format lanewick.lane-wish/1 (docs/lane.md), and its answer.
 */
#ifndef LANEWICK_LAYOUT_JSON_H
#define LANEWICK_LAYOUT_JSON_H

#include "lanewick/layout.h"

/* A head's intensity_file is read by the caller, who puts its table and lumens into the head. */
LW_MUST_CHECK bool lw_layout_request_from_json(const char *text, size_t length, lw_layout_request *out, lw_error *err);

/* options[]: masts, side, height_m, tilt_deg, spacing_m, lumens_each, watts_each, watts_together and the light reached;
 * free() it. */
LW_MUST_CHECK char *lw_layouts_to_json(const lw_layout_request *request, const lw_layout *layouts, size_t count);

const char *lw_side_text(lw_side side);
/* The same for tables: "edge" around a polygon, "given" for places that were given. */
const char *lw_layout_stand_text(const lw_layout_wish *wish, const lw_layout *layout);

#endif
