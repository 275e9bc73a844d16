/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The calls of the jansson library that format/ makes, for a page: the same names and manners (json(3), version 2.14),
 * on values that stand in memory. Nothing here reads or writes JSON; that stays with the browser. A "text" of a
 * document is a ticket instead: json_dumps() keeps the value and gives its ticket, json_loadb() takes a ticket and
 * gives the value again. So format/ and desk/ compile as they are. See values.c and plan_door.c.
 */
#ifndef LANEWICK_VALUES_JANSSON_H
#define LANEWICK_VALUES_JANSSON_H

#include <stdbool.h>
#include <stddef.h>

typedef enum json_type {
    JSON_OBJECT,
    JSON_ARRAY,
    JSON_STRING,
    JSON_INTEGER,
    JSON_REAL,
    JSON_TRUE,
    JSON_FALSE,
    JSON_NULL
} json_type;
typedef long long json_int_t;
typedef struct json_t json_t;
typedef struct json_error_t {
    int line, column;
    char text[80];
} json_error_t;

/* How a text is read and written: no matter here. */
enum { JSON_REJECT_DUPLICATES = 1, JSON_COMPACT = 32, JSON_ENSURE_ASCII = 64 };
#define JSON_INDENT(n) (n)
#define JSON_REAL_PRECISION(n) ((n) << 11)

json_t *json_object(void);
json_t *json_array(void);
json_t *json_string(const char *text);
json_t *json_stringn(const char *text, size_t length);
json_t *json_integer(json_int_t x);
json_t *json_real(double x); /* NULL when not finite */
json_t *json_boolean(int x);
json_t *json_null(void);
json_t *json_incref(json_t *value);
void json_decref(json_t *value);

/* json_pack() with the signs { } : , s s? i I b o. NULL when a text is missing; values that it was given are let go. */
json_t *json_pack(const char *format, ...);

json_type json_typeof(const json_t *value);
bool json_is_object(const json_t *value);
bool json_is_array(const json_t *value);
bool json_is_string(const json_t *value);
bool json_is_integer(const json_t *value);
bool json_is_real(const json_t *value);
bool json_is_number(const json_t *value);
bool json_is_boolean(const json_t *value);
bool json_is_true(const json_t *value);
bool json_is_null(const json_t *value);

size_t json_object_size(const json_t *object);
json_t *json_object_get(const json_t *object, const char *key);
int json_object_set_new(json_t *object, const char *key, json_t *value); /* 0; -1: nothing was set */
int json_object_set(json_t *object, const char *key, json_t *value);
int json_object_del(json_t *object, const char *key);
size_t json_array_size(const json_t *array);
json_t *json_array_get(const json_t *array, size_t i);
int json_array_append_new(json_t *array, json_t *value);
const char *json_string_value(const json_t *value);
json_int_t json_integer_value(const json_t *value);
double json_real_value(const json_t *value);
double json_number_value(const json_t *value);

/* Entry i of an object, in the order in which they came. */
const char *json_object_key_at(const json_t *object, size_t i);
json_t *json_object_at(const json_t *object, size_t i);
#define json_object_foreach(object, key, value) \
    for (size_t at_ = 0; ((key) = json_object_key_at(object, at_)) && ((value) = json_object_at(object, at_)); at_++)
#define json_array_foreach(array, i, value) \
    for ((i) = 0; (i) < json_array_size(array) && ((value) = json_array_get(array, i)); (i)++)

json_t *json_loadb(const char *ticket, size_t length, size_t flags, json_error_t *error);
char *json_dumps(const json_t *value, size_t flags); /* free() it */
void json_forget_tickets(void);

#endif
