/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Problems as JSON: see lanewick/problem_json.h.
 */
#include "lanewick/problem_json.h"

#include "json_help.h"

#include <stdio.h>
#include <stdlib.h>

static json_t *type_of(const lw_problem_kind *kind)
{
    return json_sprintf("/api/v1/problems#%s", kind->name);
}

static char *dump(json_t *object)
{
    char *text = json_dumps(object, JSON_COMPACT);
    json_decref(object);
    return text;
}

/* Detail and field may quote what was given; bytes that are no UTF-8 are left out rather than the whole answer. */
static json_t *said(const char *text)
{
    json_t *string = json_string(text);
    if (string)
        return string;
    char plain[512];
    size_t used = 0;
    for (; *text && used + 1 < sizeof plain; text++)
        if ((unsigned char)*text < 128)
            plain[used++] = *text;
    return json_stringn(plain, used);
}

char *lw_problem_to_json(const lw_problem_kind *kind, const char *field, const char *detail, const char *instance)
{
    json_t *object = json_pack("{s:o,s:s,s:i,s:o}", "type", type_of(kind), "title", kind->title, "status", kind->status,
                               "detail", said(detail));
    if (!object)
        return NULL;
    if (field && field[0])
        json_object_set_new(object, "field", said(field));
    if (instance && instance[0])
        json_object_set_new(object, "instance", json_sprintf("#%s", instance));
    return dump(object);
}

char *lw_problem_versions(char *problem, const char *stored, const char *sent)
{
    json_t *object = json_loads(problem, 0, NULL);
    free(problem);
    if (stored)
        (void)json_object_set_new(object, "stored", json_loads(stored, 0, NULL));
    if (sent)
        (void)json_object_set_new(object, "sent", json_loads(sent, 0, NULL));
    return dump(object);
}

char *lw_problem_kinds_to_json(const lw_problem_kind *kinds, size_t count)
{
    json_t *list = json_array();
    for (size_t i = 0; i < count; i++)
        json_array_append_new(list, json_pack("{s:o,s:s,s:i,s:s}", "type", type_of(&kinds[i]), "title", kinds[i].title,
                                              "status", kinds[i].status, "meaning", kinds[i].meaning));
    return dump(json_pack("{s:o}", "problems", list));
}
