/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a plan was made from: its brief and its seed. See lanewick/plan.h.
 */
#include "lanewick/plan.h"

#include "json_help.h"

#include "lanewick/mast_json.h"

#include <stdlib.h>
#include <string.h>

static bool from_plan(const json_t *plan, char **brief, uint64_t *seed, lw_error *err)
{
    const json_t *part = json_object_get(plan, "brief"), *number = json_object_get(plan, "seed");
    if (!json_is_object(part) || !json_is_integer(number) || json_integer_value(number) < 0)
        return lw_fail(err, LW_WRONG_INPUT, "brief",
                       "This plan does not hold its brief and seed; plan the lamp again.");
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
