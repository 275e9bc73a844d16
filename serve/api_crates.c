/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Crates, cells, tests and instruments of the workshop's store, to read; slips from the bench, to take in.
 */
#include "server.h"

#include "lanewick/desk_crate_json.h"
#include "lanewick/desk_slip_json.h"

#include <stdlib.h>
#include <string.h>

static void answer(const lw_call *call, bool done, char *text, const lw_error *err, lw_http_response *out)
{
    if (done)
        lw_answer_json(out, text);
    else if (err->family == LW_WRONG_INPUT && strcmp(err->field, "limit") != 0 && strcmp(err->field, "after") != 0)
        lw_answer_problem(out, call->request, "not-found", err->field, "%s", err->message); /* no such store or crate */
    else
        lw_answer_error(out, call->request, err);
}

void lw_api_crates(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char *text = NULL;
    const bool done = lw_desk_crates_json(call->server->store, &text, &err);
    answer(call, done, text, &err, out);
}

void lw_api_cells(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char search[LW_SERVE_WORD], verdict[LW_SERVE_WORD], after[LW_SERVE_WORD], *text = NULL;
    double limit = 100.0;
    const lw_cells_ask ask = {.crate = call->name[0][0] ? call->name[0] : NULL,
                              .search = lw_call_text(call, "search", NULL, search, &err),
                              .verdict = lw_call_text(call, "verdict", NULL, verdict, &err),
                              .after = lw_call_text(call, "after", NULL, after, &err)};
    if (err.family != LW_OK || !lw_call_number(call, "limit", true, 1.0, LW_CELLS_PAGE, &limit, &err)) {
        lw_answer_error(out, call->request, &err);
        return;
    }
    lw_cells_ask with_limit = ask;
    with_limit.limit = (int)limit;
    const bool done = lw_desk_cells_json(call->server->store, &with_limit, &text, &err);
    answer(call, done, text, &err, out);
}

void lw_api_cell(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char *text = NULL;
    const bool done = lw_desk_cell_json(call->server->store, call->name[0], &text, &err);
    answer(call, done, text, &err, out);
}

void lw_api_tests(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char after[LW_SERVE_WORD], *text = NULL;
    double limit = 100.0;
    const char *from = lw_call_text(call, "after", NULL, after, &err);
    if (err.family != LW_OK || !lw_call_number(call, "limit", true, 1.0, LW_CELLS_PAGE, &limit, &err)) {
        lw_answer_error(out, call->request, &err);
        return;
    }
    const bool done = lw_desk_tests_json(call->server->store, call->name[0], from, (int)limit, &text, &err);
    answer(call, done, text, &err, out);
}

void lw_api_tools(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char *text = NULL;
    const bool done = lw_desk_tools_json(call->server->store, &text, &err);
    answer(call, done, text, &err, out);
}

void lw_api_runs(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char *text = NULL;
    const bool done = lw_desk_runs_json(call->server->store, &text, &err);
    answer(call, done, text, &err, out);
}

void lw_api_slip(const lw_call *call, lw_http_response *out)
{
    static const char *const problems[] = {[LW_SLIP_TAKEN] = "",
                                           [LW_SLIP_CONFLICT] = "conflict",
                                           [LW_SLIP_MISSING] = "not-found",
                                           [LW_SLIP_REUSED] = "reused"};
    const lw_http_request *request = call->request;
    lw_error err = {0};
    lw_slip_reply reply;
    const char *who = call->device_name[0] ? call->device_name : NULL;
    if (!lw_desk_slip_json(call->server->store, who, request->body, request->body_length, &reply, &err)) {
        lw_answer_error(out, request, &err);
        return;
    }
    if (reply.outcome == LW_SLIP_TAKEN) {
        lw_answer_json(out, reply.answer);
        reply.answer = NULL;
    } else {
        lw_answer_versions(out, request, problems[reply.outcome], reply.field, reply.detail, reply.stored, reply.sent);
    }
    lw_slip_reply_free(&reply);
}
