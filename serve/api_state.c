/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the server says of itself: version, role of the one who asks, kinds of problems, its own description.
 */
#include "devices.h"
#include "page.h"
#include "server.h"

#include "lanewick/serve_json.h"
#include "lanewick/version.h"

void lw_api_state(const lw_call *call, lw_http_response *out)
{
    lw_answer_json(out, lw_state_to_json(LW_VERSION, lw_role_text(call->role),
                                         call->request->door == LW_DOOR_LOCAL ? "local" : "lan"));
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
