/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Flat JSON objects: see lanewick/flat_json.h.
 */
#include "lanewick/flat_json.h"

#include <jansson.h>

static bool read_value(const char *key, const json_t *json, lw_flat_value *out, lw_error *err)
{
    *out = (lw_flat_value){.key = key};
    switch (json_typeof(json)) {
    case JSON_NULL:
        return true;
    case JSON_STRING:
        out->kind = LW_FLAT_TEXT;
        out->text = json_string_value(json);
        return true;
    case JSON_INTEGER:
        out->kind = LW_FLAT_WHOLE;
        out->whole = json_integer_value(json);
        out->real = (double)out->whole;
        return true;
    case JSON_REAL:
        out->kind = LW_FLAT_REAL;
        out->real = json_real_value(json);
        return true;
    default:
        return lw_fail(err, LW_WRONG_INPUT, key, "%.40s must be a word, a number or null.", key);
    }
}

bool lw_flat_json_read(const char *text, size_t length,
                       bool (*each)(void *payload, const lw_flat_value *value, lw_error *err), void *payload,
                       lw_error *err)
{
    json_error_t fault;
    json_t *object = json_loadb(text, length, JSON_REJECT_DUPLICATES, &fault);
    if (!json_is_object(object)) {
        json_decref(object);
        return lw_fail(err, LW_WRONG_INPUT, "", "This is no JSON object: %.120s.",
                       object ? "another value" : fault.text);
    }
    bool done = true;
    const char *key;
    json_t *json;
    json_object_foreach(object, key, json)
    {
        lw_flat_value value;
        done = done && read_value(key, json, &value, err) && each(payload, &value, err);
    }
    json_decref(object);
    return done;
}
