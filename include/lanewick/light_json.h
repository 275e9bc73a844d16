/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Answers about light as JSON.
 */
#ifndef LANEWICK_LIGHT_JSON_H
#define LANEWICK_LIGHT_JSON_H

#include "lanewick/lm63.h"

/* lumens, stated_lumens (null when absolute), max_cd, symmetry, version, type, watts, defects[]; free() it. */
LW_MUST_CHECK char *lw_lm63_to_json(const lw_lm63 *file);

/* {"error": {...}, "defects": [...]} of a file that was refused; free() it. */
LW_MUST_CHECK char *lw_lm63_refused_to_json(const lw_lm63 *file, const lw_error *err);

/* {"svg": ...} of a picture; free() it. */
LW_MUST_CHECK char *lw_picture_to_json(const char *svg);

#endif
