/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The JSON door of figures: one object of inputs in, one object of outputs out.
 */
#ifndef LANEWICK_FIGURE_JSON_H
#define LANEWICK_FIGURE_JSON_H

#include "lanewick/figure.h"

/* Sets every key of the JSON object in text[0..length). Unknown keys, wrong types and trailing text are errors.
 * null means: not given. */
LW_MUST_CHECK bool lw_figure_from_json(lw_figure_call *call, const char *text, size_t length, lw_arena *arena,
                                       lw_error *err);

/* The outputs of a finished call as one line of JSON (no line end); free() it. NULL when memory is out. */
LW_MUST_CHECK char *lw_figure_to_json(const lw_figure_call *call);

/* {"error": {"field": ..., "message": ...}} as one line; free() it. */
LW_MUST_CHECK char *lw_error_to_json(const lw_error *err);

/* The description of a figure (inputs, units, ranges, defaults, outputs, source, example); free() it. */
LW_MUST_CHECK char *lw_figure_description_json(const lw_figure *figure);
/* The descriptions of all figures as one list, in order of the register; free() it. */
LW_MUST_CHECK char *lw_figure_list_json(void);

#endif
