/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small documents of the JSON API: see lanewick/serve_json.h.
 */
#include "lanewick/serve_json.h"

#include "json_help.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static char *dump(json_t *object)
{
    char *text = object ? json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS)) : NULL;
    json_decref(object);
    return text;
}

char *lw_state_to_json(const char *version, const char *role, const char *door, const char *language)
{
    return dump(json_pack("{s:s,s:s,s:s,s:s,s:s?}", "name", "lanewick", "version", version, "role", role, "door", door,
                          "language", language));
}

char *lw_job_to_json(const lw_job_said *said)
{
    json_t *object = json_pack("{s:s,s:s,s:o,s:s}", "id", said->id, "state", said->state, "done",
                               lw_json_number(said->done), "what", said->what);
    if (said->name[0])
        json_object_set_new(object, "name", json_string(said->name));
    if (said->err)
        json_object_set_new(object, "error",
                            json_pack("{s:s,s:s,s:s}", "family", lw_family_text(said->err->family), "field",
                                      said->err->field, "message", said->err->message));
    char *head = dump(object);
    if (!head || !said->result)
        return head;
    /* the result is JSON already; reading it again would only cost time */
    const size_t size = strlen(head) + strlen(said->result) + 16;
    char *text = malloc(size);
    if (text)
        (void)snprintf(text, size, "%.*s,\"result\":%s}", (int)strlen(head) - 1, head, said->result);
    free(head);
    return text;
}

void lw_brief_title(const char *brief, size_t length, char *out, size_t size)
{
    json_t *json = json_loadb(brief, length, 0, NULL);
    const char *name = json_string_value(json_object_get(json, "name"));
    if (!name)
        name = json_string_value(json_object_get(json_object_get(json, "place"), "name"));
    (void)snprintf(out, size, "%s", name ? name : "");
    json_decref(json);
}
