/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mast as a document, format lanewick.mast/1 (docs/schema/mast-1.schema.json), and the result of its check.
 */
#ifndef LANEWICK_MAST_JSON_H
#define LANEWICK_MAST_JSON_H

#include "lanewick/mast_check.h"

LW_MUST_CHECK bool lw_mast_from_json(const char *text, size_t length, lw_mast_wish *out, lw_error *err);

/* verdict, forces, stress, reserve, sway, frequency, base depth, reasons[], cautions[]; free() it. */
LW_MUST_CHECK char *lw_mast_to_json(const lw_mast_wish *wish, const lw_mast_result *result);

#endif
