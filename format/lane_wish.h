/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The wish for light on a lane, as a document of its own or as the part want.lane of a brief.
 */
#ifndef LANEWICK_LANE_WISH_H
#define LANEWICK_LANE_WISH_H

#include "doc.h"

#include "lanewick/layout.h"

typedef struct lw_field_range {
    double least_width_m, most_width_m, most_length_m;
    bool row; /* its spacing counts, and length_m may be left out */
} lw_field_range;

/* One of length_m, line (with width_m) or polygon. */
void lw_lane_read_field(lw_doc *doc, lw_field_range range, lw_field *field);

/* Everything but the format's name and the masts' prices. In a brief (brief true) heads are told by the shelf or by
 * `head` without lumens_per_w. late: when the late light is wanted; its level is NAN when it follows from the light. */
void lw_read_lane_wish(lw_doc *doc, bool brief, lw_layout_request *out, lw_span *late);
/* white and colour_advice of a layout whose head states its colour. */
void lw_put_colour(json_t *object, const lw_layout_request *request, const lw_layout *layout);
/* A head's light: the keys of the head document without lumens, and most_lumens. */
void lw_read_lane_head(lw_doc *doc, size_t head, lw_layout_request *out);

/* x_m, y_m, height_m, turn_deg, tilt_deg, as the lane document has them. */
json_t *lw_json_mast(const lw_lamp *lamp);

#endif
