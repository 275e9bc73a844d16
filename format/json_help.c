/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small helpers around jansson: see json_help.h.
 */
#include "json_help.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

json_t *lw_json_parse(const char *text, size_t length, lw_error *err)
{
    if (length > LW_JSON_MAX_BYTES) {
        (void)lw_fail(err, LW_WRONG_INPUT, "", "The JSON text has %zu bytes; the most is %d.", length,
                      LW_JSON_MAX_BYTES);
        return NULL;
    }
    if (length >= 3 && memcmp(text, "\xef\xbb\xbf", 3) == 0) { /* the mark that some editors put first */
        text += 3;
        length -= 3;
    }
    if (length == 0) {
        (void)lw_fail(err, LW_WRONG_INPUT, "", "This is empty; it must be a JSON document.");
        return NULL;
    }
    json_error_t where;
    json_t *value = json_loadb(text, length, JSON_REJECT_DUPLICATES, &where);
    if (!value)
        (void)lw_fail(err, LW_WRONG_INPUT, "", "This is not valid JSON: line %d, column %d: %s.", where.line,
                      where.column, where.text);
    return value;
}

json_t *lw_json_number(double x)
{
    if (!isfinite(x))
        return json_null();
    if (x == floor(x) && fabs(x) < 1e15)
        return json_integer((json_int_t)x);
    char text[40];
    (void)snprintf(text, sizeof text, "%.*g", LW_JSON_DIGITS, x);
    return json_real(strtod(text, NULL));
}

void lw_json_set(json_t *object, const char *key, double x)
{
    json_object_set_new(object, key, lw_json_number(x));
}

/* Bytes of the letter of UTF-8 that begins here, by its first byte; 1 for what cannot begin one. */
static size_t letter(unsigned char first)
{
    if (first >= 0xf0)
        return 4;
    if (first >= 0xe0)
        return 3;
    return first >= 0xc0 ? 2 : 1;
}

static bool is_letter(const char *text, size_t length)
{
    json_t *one = json_stringn(text, length);
    json_decref(one);
    return one != NULL;
}

json_t *lw_json_text(const char *text)
{
    json_t *whole = json_string(text);
    if (whole)
        return whole;
    char clean[LW_JSON_TEXT + 4];
    size_t length = 0;
    const char *end = text + strlen(text);
    while (text < end && length < LW_JSON_TEXT) {
        const size_t size = letter((unsigned char)*text);
        if (size <= (size_t)(end - text) && is_letter(text, size)) {
            memcpy(clean + length, text, size);
            length += size;
            text += size;
        } else {
            clean[length++] = '?';
            text++;
        }
    }
    return json_stringn(clean, length);
}

json_t *lw_json_list(const double *x, size_t n)
{
    json_t *list = json_array();
    for (size_t i = 0; i < n; i++)
        json_array_append_new(list, lw_json_number(x[i]));
    return list;
}

char *lw_json_line(json_t *object)
{
    char *text = object ? json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS)) : NULL;
    json_decref(object);
    return text;
}
