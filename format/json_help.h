/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small helpers around jansson shared by the documents of this room.
 */
#ifndef LANEWICK_JSON_HELP_H
#define LANEWICK_JSON_HELP_H

#include "lanewick/error.h"

#include <jansson.h>

/* Sums of money are exact to LW_MONEY_DIGITS; a number rounded to fewer is printed with no more than it has. */
enum { LW_JSON_DIGITS = 12, LW_MONEY_DIGITS = 15, LW_JSON_MAX_BYTES = 4 * 1024 * 1024 };

/* Parses one JSON value, refusing duplicate keys and documents over LW_JSON_MAX_BYTES; the error names line and
 * column. NULL on error; json_decref() the result. */
json_t *lw_json_parse(const char *text, size_t length, lw_error *err);

/* A number rounded to LW_JSON_DIGITS significant digits, null when not finite. */
json_t *lw_json_number(double x);
/* The same, put in under a key. */
void lw_json_set(json_t *object, const char *key, double x);
/* A text; bytes that are no UTF-8 (a name cut in the middle of a letter) become "?", and such a text is cut after
 * LW_JSON_TEXT bytes. */
enum { LW_JSON_TEXT = 1024 };
json_t *lw_json_text(const char *text);
json_t *lw_json_list(const double *x, size_t n);
/* {"field": ..., "message": ..., "family": ...} */
json_t *lw_json_error(const lw_error *err);
/* The object as one line of text, free() it; the object is let go. NULL when memory is out. */
char *lw_json_line(json_t *object);

#endif
