/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mast as a document, format lanewick.mast/1 (docs/schema/mast-1.schema.json), and the result of its check.
 */
#ifndef LANEWICK_MAST_JSON_H
#define LANEWICK_MAST_JSON_H

#include "lanewick/mast_check.h"
#include "lanewick/plan.h"

LW_MUST_CHECK bool lw_mast_from_json(const char *text, size_t length, lw_mast_wish *out, lw_error *err);

/* verdict, forces, stress, reserve, sway, frequency, base depth, reasons[], cautions[]; free() it. */
LW_MUST_CHECK char *lw_mast_to_json(const lw_mast_wish *wish, const lw_mast_result *result);

/* The masts of a plan: {"masts": [{"lamp", "count", "pole", ..., as above}]}; free() it. */
LW_MUST_CHECK char *lw_plan_masts_to_json(const lw_plan *plan);
/* Whether a text is a plan or a brief, whose masts are worked out anew. */
bool lw_is_plan_or_brief(const char *text, size_t length);

#endif
