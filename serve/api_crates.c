/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Crates and cells of the workshop's store, to read.
 */
#include "server.h"

#include "lanewick/desk_crate_json.h"

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

/* A text of the query; NULL when it did not come. */
static const char *given(const lw_call *call, const char *key, char out[LW_SERVE_WORD], lw_error *err)
{
    const int found = lw_uri_query(call->request->uri, key, out, LW_SERVE_WORD);
    if (found < 0)
        (void)lw_fail(err, LW_WRONG_INPUT, key, "%s must come once, in at most %d letters.", key, LW_SERVE_WORD - 1);
    return found > 0 && out[0] ? out : NULL;
}

void lw_api_cells(const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char search[LW_SERVE_WORD], verdict[LW_SERVE_WORD], after[LW_SERVE_WORD], *text = NULL;
    double limit = 100.0;
    const lw_cells_ask ask = {.crate = call->name[0],
                              .search = given(call, "search", search, &err),
                              .verdict = given(call, "verdict", verdict, &err),
                              .after = given(call, "after", after, &err)};
    if (err.family != LW_OK || !lw_call_number(call, "limit", true, 1.0, LW_CELLS_PAGE, &limit, &err)) {
        lw_answer_error(out, call->request, &err);
        return;
    }
    lw_cells_ask with_limit = ask;
    with_limit.limit = (int)limit;
    const bool done = lw_desk_cells_json(call->server->store, &with_limit, &text, &err);
    answer(call, done, text, &err, out);
}
