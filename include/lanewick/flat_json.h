/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A JSON object without nesting, key by key: one line of an exported table.
 */
#ifndef LANEWICK_FLAT_JSON_H
#define LANEWICK_FLAT_JSON_H

#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef enum lw_flat_kind { LW_FLAT_NULL, LW_FLAT_TEXT, LW_FLAT_WHOLE, LW_FLAT_REAL } lw_flat_kind;
typedef struct lw_flat_value {
    const char *key, *text; /* during the call only */
    lw_flat_kind kind;
    int64_t whole;
    double real; /* also of a whole number */
} lw_flat_value;

/* Calls each with every key; it returns false (with err filled) to stop. Nested values, true and false are errors. */
LW_MUST_CHECK bool lw_flat_json_read(const char *text, size_t length,
                                     bool (*each)(void *payload, const lw_flat_value *value, lw_error *err),
                                     void *payload, lw_error *err);

#endif
