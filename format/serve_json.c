/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Small documents of the JSON API: see lanewick/serve_json.h.
 */
#include "lanewick/serve_json.h"

#include "json_help.h"

static char *dump(json_t *object)
{
    char *text = object ? json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS)) : NULL;
    json_decref(object);
    return text;
}

char *lw_state_to_json(const char *version, const char *role, const char *door)
{
    return dump(json_pack("{s:s,s:s,s:s,s:s}", "name", "lanewick", "version", version, "role", role, "door", door));
}
