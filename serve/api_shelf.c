/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The shelf and its prices: to look at, to change part by part, and put into a brief.
 */
#include "server.h"

#include "lanewick/desk_shelf.h"

#include <stdlib.h>

void lw_api_shelf(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char *text = NULL;
    if (lw_desk_shelf_json(call->server->store, &text, &err))
        lw_answer_json(out, text);
    else
        lw_answer_error(out, call->request, &err);
}

void lw_api_shelf_change(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    const char *who = call->device_name[0] ? call->device_name : NULL;
    lw_error err = {0};
    lw_shelf_reply reply;
    if (!lw_desk_shelf_change_json(call->server->store, who, request->body, request->body_length, &reply, &err)) {
        lw_answer_error(out, request, &err);
    } else if (reply.outcome == LW_SHELF_CHANGED) {
        lw_answer_versions(out, request, "conflict", "mark",
                           "Somebody else has changed this part meanwhile: look at it again.", reply.part, NULL);
    } else if (reply.outcome == LW_SHELF_GONE) {
        lw_answer_problem(out, request, "not-found", "name", "This part is not on the shelf any more.");
    } else if (reply.part) {
        lw_answer_json(out, reply.part);
        reply.part = NULL;
    } else {
        *out = (lw_http_response){.status = 204}; /* removed */
    }
    free(reply.part);
}

void lw_api_shelf_brief(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    lw_error err = {0};
    lw_priced_brief how = {.replace = true};
    char *priced = NULL, *text = NULL;
    bool done = lw_desk_brief_prices(call->server->store, request->body, request->body_length, &how, &priced, &err);
    if (done && !priced)
        done = lw_fail(&err, LW_WRONG_INPUT, "", "There are no prices on the shelf yet.");
    if (done)
        text = lw_priced_brief_to_json(priced, &how);
    if (text)
        lw_answer_json(out, text);
    else
        lw_answer_error(out, request, &err);
    free(priced);
}
