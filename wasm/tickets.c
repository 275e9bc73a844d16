/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Documents by their tickets: where the rest of the program writes a document as JSON and reads it again, a page keeps
 * the values and hands on a short text that finds them. See values/jansson.h.
 */
#include "values/jansson.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TICKETS = 16, TICKET_BYTES = 16 };

static json_t *kept[TICKETS];

static json_t *copied(const json_t *value);

static bool copy_entries(const json_t *value, json_t *out)
{
    const char *key;
    json_t *one;
    json_object_foreach(value, key, one)
    {
        if (json_object_set_new(out, key, copied(one)) != 0)
            return false;
    }
    for (size_t i = 0; i < json_array_size(value); i++)
        if (json_array_append_new(out, copied(json_array_get(value, i))) != 0)
            return false;
    return true;
}

/* Everything in it anew: who takes a document may change it. */
static json_t *copied(const json_t *value)
{
    if (json_is_string(value))
        return json_string(json_string_value(value));
    if (json_is_integer(value))
        return json_integer(json_integer_value(value));
    if (json_is_real(value))
        return json_real(json_real_value(value));
    if (json_is_boolean(value))
        return json_boolean(json_is_true(value));
    if (json_is_null(value))
        return json_null();
    json_t *out = json_is_array(value) ? json_array() : json_object();
    if (out && copy_entries(value, out))
        return out;
    json_decref(out);
    return NULL;
}

char *json_dumps(const json_t *value, size_t flags)
{
    (void)flags;
    size_t i = 0;
    while (i < TICKETS && kept[i])
        i++;
    char *ticket = i < TICKETS && (json_is_object(value) || json_is_array(value)) ? malloc(TICKET_BYTES) : NULL;
    if (!ticket)
        return NULL;
    kept[i] = copied(value);
    if (!kept[i]) {
        free(ticket);
        return NULL;
    }
    (void)snprintf(ticket, TICKET_BYTES, "%zu", i);
    return ticket;
}

json_t *json_loadb(const char *ticket, size_t length, size_t flags, json_error_t *error)
{
    (void)flags;
    size_t i = length > 0 ? 0 : TICKETS;
    for (size_t k = 0; k < length; k++)
        i = ticket[k] >= '0' && ticket[k] <= '9' && i < TICKETS ? 10 * i + (size_t)(ticket[k] - '0') : TICKETS;
    json_t *value = i < TICKETS && kept[i] ? copied(kept[i]) : NULL;
    if (!value && error)
        *error = (json_error_t){.text = "this is no document of the page"};
    return value;
}

void json_forget_tickets(void)
{
    for (size_t i = 0; i < TICKETS; i++) {
        json_decref(kept[i]);
        kept[i] = NULL;
    }
}
