/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mast as a document, format lanewick.mast/1 (docs/schema/mast-1.schema.json), and the result of its check.
 */
#ifndef LANEWICK_MAST_JSON_H
#define LANEWICK_MAST_JSON_H

#include "lanewick/mast_check.h"
#include "lanewick/plan.h"

LW_MUST_CHECK bool lw_mast_from_json(const char *text, size_t length, lw_mast_wish *out, lw_error *err);

/* The other way: a mast in soil (its place in LW_SOIL_WORDS, LW_SOIL_SOFT + 1: told by its pressure) as such a
 * document; free() it. */
LW_MUST_CHECK char *lw_mast_document(const lw_mast_wish *wish, int soil);

/* The question for the mast of one lamp: {"brief", "lamp", "instead"}, all of which may be left out;
 * docs/api/openapi.json (MastRequest) says what they hold. What is told instead of the brief's stands in the brief
 * already. About 40 kB: give it a home that lasts. */
typedef struct lw_mast_request {
    lw_brief brief;
    lw_lamp_mast lamp;
} lw_mast_request;
LW_MUST_CHECK bool lw_mast_request_from_json(const char *text, size_t length, lw_mast_request *out, lw_error *err);

/* verdict, forces, stress, reserve, sway, frequency, base depth, reasons[], cautions[]; free() it. */
LW_MUST_CHECK char *lw_mast_to_json(const lw_mast_wish *wish, const lw_mast_result *result);

/* The masts of a plan: {"masts": [{"lamp", "count", "pole", ..., as above}]}; free() it. */
LW_MUST_CHECK char *lw_plan_masts_to_json(const lw_plan *plan);
/* Whether a text is a plan or a brief, whose masts are worked out anew. */
bool lw_is_plan_or_brief(const char *text, size_t length);

#endif
