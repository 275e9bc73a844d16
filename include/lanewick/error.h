/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Errors as values. A function that can fail returns true when it is done and false when it is not, and
 * then the caller's lw_error says why, in one sentence that names the field, its value and what is allowed.
 */
#ifndef LANEWICK_ERROR_H
#define LANEWICK_ERROR_H

#include <stdbool.h>
#include <stddef.h>

#define LW_MUST_CHECK __attribute__((warn_unused_result))

/* The one list of families: name, text, exit code of the command line, HTTP status, kind of problem (RFC 9457) that the
 * API and the page's own core answer with. */
#define LW_FAMILIES(X)                                                   \
    X(LW_OK, "done", 0, 200, "internal")                                 \
    X(LW_WRONG_INPUT, "wrong input", 2, 400, "wrong-input")              \
    X(LW_NOT_COMPUTABLE, "cannot be computed", 2, 422, "not-computable") \
    X(LW_NOTHING_FOUND, "nothing found", 1, 422, "not-computable")       \
    X(LW_REFUSED, "refused for safety", 3, 422, "refused")               \
    X(LW_STORAGE, "storage", 4, 500, "internal")                         \
    X(LW_BUG, "internal error", 4, 500, "internal")

typedef enum lw_family {
#define LW_FAMILY_NAME(name, text, exit_code, http, problem) name,
    LW_FAMILIES(LW_FAMILY_NAME)
#undef LW_FAMILY_NAME
} lw_family;

typedef struct lw_error {
    lw_family family;
    char field[64];    /* name of the input that is wrong, "" when no single one is */
    char message[640]; /* one sentence for a person */
} lw_error;

/* Fills err (which may be NULL) and returns false, so that callers can write: return lw_fail(...);
 * The first error stays: a later, less precise one does not overwrite it. */
bool lw_fail(lw_error *err, lw_family family, const char *field, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* True when low <= value <= high and the value is finite; else LW_WRONG_INPUT. unit may be "". */
LW_MUST_CHECK bool lw_in_range(lw_error *err, const char *field, double value, double low, double high,
                               const char *unit);

/* As lw_in_range for each of n values; the field is reported as field[i], counted from 1. */
LW_MUST_CHECK bool lw_all_in_range(lw_error *err, const char *field, const double *values, size_t n, double low,
                                   double high, const char *unit);

const char *lw_family_text(lw_family family);
int lw_family_exit_code(lw_family family);
int lw_family_http_status(lw_family family);
const char *lw_family_problem(lw_family family);

#endif
