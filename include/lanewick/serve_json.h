/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small documents of the JSON API that belong to no other room.
 */
#ifndef LANEWICK_SERVE_JSON_H
#define LANEWICK_SERVE_JSON_H

#include "lanewick/error.h"

/* {"name": "lanewick", "version", "role", "door"}; free() it. */
LW_MUST_CHECK char *lw_state_to_json(const char *version, const char *role, const char *door, const char *language);

/* What is said of a long computation. */
typedef struct lw_job_said {
    const char *id, *state, *what;
    const char *name; /* of the brief, "" for none */
    double done;
    const char *result;  /* JSON text, NULL: none */
    const lw_error *err; /* NULL: none */
} lw_job_said;

/* {"id", "state", "done", "what", "name", "result", "error": {"family", "field", "message"}}; the last three where
 * there are such. free() it; NULL when memory is out. */
LW_MUST_CHECK char *lw_job_to_json(const lw_job_said *said);

/* The name of a brief, or that of its place; "" where it tells none. */
void lw_brief_title(const char *brief, size_t length, char *out, size_t size);

#endif
