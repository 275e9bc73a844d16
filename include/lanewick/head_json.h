/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The head document, format lanewick.head/1 (docs/head.md). A lane document has the same keys in its part "head".
 */
#ifndef LANEWICK_HEAD_JSON_H
#define LANEWICK_HEAD_JSON_H

#include "lanewick/head.h"

LW_MUST_CHECK bool lw_head_from_json(const char *text, size_t length, lw_head *out, lw_error *err);

/* The answer as JSON; free() it. */
LW_MUST_CHECK char *lw_head_to_json(const lw_head *head, const lw_head_light *light);

#endif
