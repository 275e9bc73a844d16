/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the server says of itself: version, role of the one who asks, kinds of problems, its own description.
 */
#include "devices.h"
#include "page.h"
#include "server.h"

#include "lanewick/desk.h"
#include "lanewick/serve_json.h"
#include "lanewick/version.h"

void lw_api_state(const lw_call *call, lw_http_response *out)
{
    const bool local = call->request->door == LW_DOOR_LOCAL;
    const lw_words *kept = local ? lw_desk_language_kept() : NULL; /* a phone has a person of its own */
    lw_answer_json(
        out, lw_state_to_json(LW_VERSION, lw_role_text(call->role), local ? "local" : "lan", kept ? kept->code : NULL));
}

void lw_api_language(const lw_call *call, lw_http_response *out)
{
    char code[LW_SERVE_WORD];
    lw_error err = {0};
    const char *given = lw_call_text(call, "code", "", code, &err);
    const lw_words *words = err.family == LW_OK ? lw_words_find(given) : NULL;
    if (call->request->door != LW_DOOR_LOCAL) {
        lw_answer_problem(out, call->request, "not-allowed", "", "The language of the laptop is chosen at the laptop.");
        return;
    }
    if (!words && err.family == LW_OK)
        (void)lw_fail(&err, LW_WRONG_INPUT, "code", "There is no language \"%.20s\".", given);
    if (words && lw_desk_language_keep(words, &err))
        *out = (lw_http_response){.status = 204};
    else
        lw_answer_error(out, call->request, &err);
}

void lw_api_problems(const lw_call *call, lw_http_response *out)
{
    (void)call;
    lw_answer_json(out, lw_problems_json());
}

void lw_api_openapi(const lw_call *call, lw_http_response *out)
{
    const lw_page_file *file = lw_page_find("/built-in/openapi.json");
    if (file)
        *out =
            (lw_http_response){.status = 200, .type = "application/json", .fixed = file->bytes, .length = file->length};
    else
        lw_answer_problem(out, call->request, "internal", "", "The description is missing from this build.");
}
