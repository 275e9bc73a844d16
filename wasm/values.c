/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values of documents in memory: objects, lists, texts, numbers. See values/jansson.h.
 */
#include "values/jansson.h"

#include <math.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

struct json_t {
    json_type type;
    size_t refs; /* 0: stands for ever */
    union {
        json_int_t integer;
        double real;
        char *text;
        struct {
            char **key; /* NULL in a list */
            json_t **value;
            size_t count, room;
        } in;
    } as;
};

static json_t yes = {.type = JSON_TRUE}, no = {.type = JSON_FALSE}, nothing = {.type = JSON_NULL};

static json_t *make(json_type type)
{
    json_t *value = calloc(1, sizeof *value);
    if (value) {
        value->type = type;
        value->refs = 1;
    }
    return value;
}

json_t *json_object(void)
{
    return make(JSON_OBJECT);
}

json_t *json_array(void)
{
    return make(JSON_ARRAY);
}

json_t *json_stringn(const char *text, size_t length)
{
    json_t *value = text ? make(JSON_STRING) : NULL;
    char *copy = value ? malloc(length + 1) : NULL;
    if (!copy) {
        free(value);
        return NULL;
    }
    memcpy(copy, text, length);
    copy[length] = '\0';
    value->as.text = copy;
    return value;
}

json_t *json_string(const char *text)
{
    return text ? json_stringn(text, strlen(text)) : NULL;
}

json_t *json_integer(json_int_t x)
{
    json_t *value = make(JSON_INTEGER);
    if (value)
        value->as.integer = x;
    return value;
}

json_t *json_real(double x)
{
    json_t *value = isfinite(x) ? make(JSON_REAL) : NULL;
    if (value)
        value->as.real = x;
    return value;
}

json_t *json_boolean(int x)
{
    return x ? &yes : &no;
}

json_t *json_null(void)
{
    return &nothing;
}

json_t *json_incref(json_t *value)
{
    if (value && value->refs > 0)
        value->refs++;
    return value;
}

static bool holds(const json_t *value)
{
    return value && (value->type == JSON_OBJECT || value->type == JSON_ARRAY);
}

void json_decref(json_t *value)
{
    if (!value || value->refs == 0 || --value->refs > 0)
        return;
    if (value->type == JSON_STRING)
        free(value->as.text);
    if (holds(value)) {
        for (size_t i = 0; i < value->as.in.count; i++) {
            json_decref(value->as.in.value[i]);
            if (value->as.in.key)
                free(value->as.in.key[i]);
        }
        free(value->as.in.key);
        free(value->as.in.value);
    }
    free(value);
}

json_type json_typeof(const json_t *value)
{
    return value->type;
}

static bool is(const json_t *value, json_type type)
{
    return value && value->type == type;
}

bool json_is_object(const json_t *value)
{
    return is(value, JSON_OBJECT);
}

bool json_is_array(const json_t *value)
{
    return is(value, JSON_ARRAY);
}

bool json_is_string(const json_t *value)
{
    return is(value, JSON_STRING);
}

bool json_is_integer(const json_t *value)
{
    return is(value, JSON_INTEGER);
}

bool json_is_real(const json_t *value)
{
    return is(value, JSON_REAL);
}

bool json_is_number(const json_t *value)
{
    return is(value, JSON_INTEGER) || is(value, JSON_REAL);
}

bool json_is_boolean(const json_t *value)
{
    return is(value, JSON_TRUE) || is(value, JSON_FALSE);
}

bool json_is_true(const json_t *value)
{
    return is(value, JSON_TRUE);
}

bool json_is_null(const json_t *value)
{
    return is(value, JSON_NULL);
}

/* --- entries --------------------------------------------------------------------------------------------------- */

static size_t find(const json_t *object, const char *key)
{
    size_t i = 0;
    while (i < object->as.in.count && strcmp(object->as.in.key[i], key) != 0)
        i++;
    return i;
}

/* Room for one more entry. */
static bool grow(json_t *value)
{
    if (value->as.in.count < value->as.in.room)
        return true;
    const size_t room = value->as.in.room ? 2 * value->as.in.room : 4;
    json_t **values = realloc(value->as.in.value, room * sizeof *values);
    if (!values)
        return false;
    value->as.in.value = values;
    if (value->type == JSON_OBJECT) {
        char **keys = realloc(value->as.in.key, room * sizeof *keys);
        if (!keys)
            return false;
        value->as.in.key = keys;
    }
    value->as.in.room = room;
    return true;
}

size_t json_object_size(const json_t *object)
{
    return json_is_object(object) ? object->as.in.count : 0;
}

json_t *json_object_get(const json_t *object, const char *key)
{
    if (!json_is_object(object) || !key)
        return NULL;
    const size_t i = find(object, key);
    return i < object->as.in.count ? object->as.in.value[i] : NULL;
}

int json_object_set_new(json_t *object, const char *key, json_t *value)
{
    const bool able = json_is_object(object) && key && value && value != object;
    const size_t i = able ? find(object, key) : 0;
    if (able && i < object->as.in.count) {
        json_decref(object->as.in.value[i]);
        object->as.in.value[i] = value;
        return 0;
    }
    char *name = able && grow(object) ? strdup(key) : NULL;
    if (!name) {
        json_decref(value);
        return -1;
    }
    object->as.in.key[object->as.in.count] = name;
    object->as.in.value[object->as.in.count++] = value;
    return 0;
}

int json_object_set(json_t *object, const char *key, json_t *value)
{
    return json_object_set_new(object, key, json_incref(value));
}

int json_object_del(json_t *object, const char *key)
{
    const size_t i = json_is_object(object) && key ? find(object, key) : 0;
    if (i >= json_object_size(object))
        return -1;
    json_decref(object->as.in.value[i]);
    free(object->as.in.key[i]);
    object->as.in.count--;
    const size_t after = object->as.in.count - i;
    memmove(&object->as.in.key[i], &object->as.in.key[i + 1], after * sizeof object->as.in.key[0]);
    memmove(&object->as.in.value[i], &object->as.in.value[i + 1], after * sizeof object->as.in.value[0]);
    return 0;
}

const char *json_object_key_at(const json_t *object, size_t i)
{
    return i < json_object_size(object) ? object->as.in.key[i] : NULL;
}

json_t *json_object_at(const json_t *object, size_t i)
{
    return i < json_object_size(object) ? object->as.in.value[i] : NULL;
}

size_t json_array_size(const json_t *array)
{
    return json_is_array(array) ? array->as.in.count : 0;
}

json_t *json_array_get(const json_t *array, size_t i)
{
    return i < json_array_size(array) ? array->as.in.value[i] : NULL;
}

int json_array_append_new(json_t *array, json_t *value)
{
    if (!json_is_array(array) || !value || value == array || !grow(array)) {
        json_decref(value);
        return -1;
    }
    array->as.in.value[array->as.in.count++] = value;
    return 0;
}

const char *json_string_value(const json_t *value)
{
    return json_is_string(value) ? value->as.text : NULL;
}

json_int_t json_integer_value(const json_t *value)
{
    return json_is_integer(value) ? value->as.integer : 0;
}

double json_real_value(const json_t *value)
{
    return json_is_real(value) ? value->as.real : 0.0;
}

double json_number_value(const json_t *value)
{
    return json_is_integer(value) ? (double)value->as.integer : json_real_value(value);
}

/* --- an object written at once --------------------------------------------------------------------------------- */

static json_t *text_or_null(const char *text, bool may_miss)
{
    return text ? json_string(text) : may_miss ? json_null() : NULL;
}

json_t *json_pack(const char *format, ...)
{
    json_t *out = json_object();
    bool well = out != NULL;
    const char *key = NULL;
    va_list given;
    va_start(given, format);
    for (const char *sign = format; *sign; sign++) {
        if (strchr("{}:,?", *sign))
            continue;
        if (!key) {
            key = va_arg(given, const char *);
            continue;
        }
        json_t *value = NULL;
        if (*sign == 'o')
            value = va_arg(given, json_t *);
        else if (*sign == 's')
            value = text_or_null(va_arg(given, const char *), sign[1] == '?');
        else if (*sign == 'I')
            value = json_integer(va_arg(given, json_int_t));
        else if (*sign == 'i')
            value = json_integer(va_arg(given, int));
        else if (*sign == 'b')
            value = json_boolean(va_arg(given, int));
        well = json_object_set_new(out, key, value) == 0 && well;
        key = NULL;
    }
    va_end(given);
    if (well)
        return out;
    json_decref(out);
    return NULL;
}
