/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Problems of an HTTP interface as JSON (RFC 9457, "Problem Details for HTTP APIs", 2023).
 */
#ifndef LANEWICK_PROBLEM_JSON_H
#define LANEWICK_PROBLEM_JSON_H

#include "lanewick/error.h"

#include <stddef.h>

typedef struct lw_problem_kind {
    const char *name; /* last part of the type's address */
    int status;       /* HTTP status */
    const char *title, *meaning;
} lw_problem_kind;

/* {"type", "title", "status", "detail", "instance"} and "field" unless it is ""; free() it. instance: the number of
 * the request, may be NULL. NULL when memory is out. */
LW_MUST_CHECK char *lw_problem_to_json(const lw_problem_kind *kind, const char *field, const char *detail,
                                       const char *instance);

/* The same with two versions of one thing more, "stored" and "sent" (JSON texts, NULL: none); frees problem; free() it.
 */
LW_MUST_CHECK char *lw_problem_versions(char *problem, const char *stored, const char *sent);

/* {"problems": [{"type", "title", "status", "meaning"}]}; free() it. */
LW_MUST_CHECK char *lw_problem_kinds_to_json(const lw_problem_kind *kinds, size_t count);

#endif
