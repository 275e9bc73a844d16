/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a plan was made from: its brief and its seed. See lanewick/plan.h.
 */
#include "lanewick/plan.h"

#include "json_help.h"
#include "plan_json.h"

#include "lanewick/mast_json.h"
#include "lanewick/plan_code.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static bool from_plan(const json_t *plan, char **brief, uint64_t *seed, lw_error *err)
{
    const json_t *part = json_object_get(plan, "brief"), *number = json_object_get(plan, "seed");
    if (!json_is_object(part) || !json_is_integer(number) || json_integer_value(number) < 0)
        return lw_fail(err, LW_WRONG_INPUT, "brief",
                       "This plan does not hold its brief and seed; plan the lamp again.");
    if (!lw_plan_adds_up(plan, err))
        return false;
    *seed = (uint64_t)json_integer_value(number);
    *brief = json_dumps(part, JSON_COMPACT);
    return *brief || lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the plan.");
}

bool lw_is_plan_or_brief(const char *text, size_t length)
{
    lw_error ignored = {0};
    json_t *json = lw_json_parse(text, length, &ignored);
    const char *format = json_string_value(json_object_get(json, "format"));
    const bool is = format && (strcmp(format, "lanewick.plan/1") == 0 || strcmp(format, "lanewick.brief/1") == 0);
    json_decref(json);
    return is;
}

bool lw_plan_source(const char *text, size_t length, char **brief, uint64_t *seed, lw_error *err)
{
    *brief = NULL;
    *seed = 1;
    json_t *json = lw_json_parse(text, length, err);
    if (!json)
        return false;
    const char *format = json_string_value(json_object_get(json, "format"));
    bool done = false;
    if (format && strcmp(format, "lanewick.plan/1") == 0) {
        done = from_plan(json, brief, seed, err);
    } else {
        *brief = json_dumps(json, JSON_COMPACT); /* a brief, or the brief's reader says what is wrong */
        done = *brief || lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the brief.");
    }
    json_decref(json);
    return done;
}

void lw_plan_code_told(const char *text, size_t length, char out[16])
{
    lw_error ignored = {0};
    json_t *json = lw_json_parse(text, length, &ignored);
    const char *code = json_string_value(json_object_get(json, "code"));
    (void)snprintf(out, 16, "%.15s", code ? code : "");
    json_decref(json);
}

bool lw_document_is(const char *text, size_t length, const char *format)
{
    lw_error ignored = {0};
    json_t *json = lw_json_parse(text, length, &ignored);
    const char *name = json_string_value(json_object_get(json, "format"));
    const bool is = name && strcmp(name, format) == 0;
    json_decref(json);
    return is;
}

/* The wish's own keys that a brief has at other places. */
static void drop_keys(json_t *lane)
{
    json_object_del(lane, "format");
    json_object_del(lane, "name");
    json_object_del(json_object_get(lane, "head"), "lumens_per_w");
}

bool lw_brief_with_lane(const char *brief_text, size_t brief_length, const char *wish_text, size_t wish_length,
                        char **brief, lw_error *err)
{
    *brief = NULL;
    json_t *whole = lw_json_parse(brief_text, brief_length, err);
    json_t *lane = whole ? lw_json_parse(wish_text, wish_length, err) : NULL;
    json_t *want = json_object_get(whole, "want");
    bool done = lane != NULL;
    if (done && (!json_is_object(want) || !json_is_object(lane)))
        done = lw_fail(err, LW_WRONG_INPUT, "want", "The brief has no want, or the wish is not an object in braces.");
    if (done) {
        static const char *const of_lamps[] = {"lamps", "lumens", "head_w", "lane"};
        for (size_t i = 0; i < sizeof of_lamps / sizeof of_lamps[0]; i++)
            json_object_del(want, of_lamps[i]);
        if (json_object_get(lane, "late"))
            json_object_del(want, "schedule");
        if (json_object_get(lane, "heights_m"))
            json_object_del(json_object_get(json_object_get(whole, "build"), "mast"), "height_m");
        drop_keys(lane);
        if (json_array_size(json_object_get(json_object_get(whole, "shelf"), "heads")) > 0)
            json_object_del(lane, "head"); /* those at hand count */
        done = json_object_set(want, "lane", lane) == 0 && (*brief = json_dumps(whole, JSON_COMPACT)) != NULL;
        if (!done)
            (void)lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the brief.");
    }
    json_decref(lane);
    json_decref(whole);
    return done;
}
