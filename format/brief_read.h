/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of a brief, each read by its own file.
 */
#ifndef LANEWICK_BRIEF_READ_H
#define LANEWICK_BRIEF_READ_H

#include "doc.h"

/* Keys of shelf.cells[].left_out, in the order of lw_left_reason. */
extern const char *const lw_brief_left_keys[LW_LEFT_REASONS];

/* A whole brief that is part of another document; errors name its fields as in a brief of its own. */
LW_MUST_CHECK bool lw_brief_from_value(const json_t *value, lw_brief *brief, lw_error *err);

void lw_brief_read_place(lw_doc *brief, lw_place *place);
/* The wind of the place: brief_mast.c. */
void lw_brief_read_wind(lw_doc *place, lw_place *out);
void lw_brief_read_want(lw_doc *brief, lw_want *want);
void lw_brief_read_shelf(lw_doc *brief, lw_shelf *shelf, lw_layout_request *light);
void lw_brief_read_chargers(lw_doc *shelf, lw_shelf *out);
void lw_brief_read_boards(lw_doc *shelf, lw_shelf *out);
void lw_brief_read_drivers(lw_doc *shelf, lw_shelf *out);
void lw_brief_read_masts(lw_doc *shelf, lw_shelf *out);
/* heights_sought: all masts are those of a lane, whose heights are sought. */
void lw_brief_read_build_mast(lw_doc *build, bool heights_sought, lw_build_mast *out);
void lw_brief_read_switch_parts(lw_doc *shelf, lw_shelf *out);
void lw_brief_read_sensor(lw_doc *build, lw_build *out);
/* When all is read: whether the switch can do what is wanted. */
void lw_brief_end_switch(lw_doc *brief, lw_brief *out);
/* After all parts: their prices become the true cost of a good piece. */
void lw_brief_read_prices(lw_doc *shelf, lw_shelf *out);
/* shelf.heads, with their light. */
void lw_brief_read_heads(lw_doc *shelf, lw_shelf *out, lw_layout_request *light);
/* want.lane, after want, shelf and build. */
void lw_brief_read_lane(lw_doc *brief, lw_brief *out);

/* A moment of the night: "dusk", "dusk+3.5h", "dawn-1h", "22:30", "50%". */
lw_moment lw_brief_read_moment(lw_doc *doc, const char *key);
/* A price, exact in the currency's smallest unit. */
int64_t lw_brief_read_price(lw_doc *doc, const lw_currency *currency);
int64_t lw_brief_read_price_or(lw_doc *doc, const char *key, const lw_currency *currency); /* 0 when missing */
/* How many are there; missing: enough. */
int lw_brief_read_count(lw_doc *doc, bool needed);
/* "series": 3 or [1, 4]. */
void lw_brief_read_series(lw_doc *doc, int *least, int *most);

#endif
