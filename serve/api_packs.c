/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Packs of the workshop's store: reserving the cells that a plan names, looking at what is reserved, taking a pack
 * apart.
 */
#include "jobs.h"
#include "server.h"

#include "lanewick/desk_crate_json.h"

#include <stdlib.h>
#include <string.h>

void lw_api_job_packs(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    lw_error err = {0};
    bool known;
    const char *who = call->device_name[0] ? call->device_name : NULL;
    char *text = NULL, *document = lw_jobs_document(call->server->jobs, call->name[0], &known);
    if (!known)
        lw_answer_problem(out, request, "not-found", "", "There is no job %.40s; ended ones are forgotten in time.",
                          call->name[0]);
    else if (!document)
        lw_answer_problem(out, request, "conflict", "", "The job %.40s has made no plan (yet).", call->name[0]);
    else if (lw_desk_use_plan_json(call->server->store, who, document, &text, &err))
        lw_answer_json(out, text);
    else if (err.family == LW_WRONG_INPUT && strcmp(err.field, "cells") == 0) /* others were quicker */
        lw_answer_problem(out, request, "conflict", err.field, "%s", err.message);
    else
        lw_answer_error(out, request, &err);
    free(document);
}

void lw_api_packs(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    lw_error err = {0};
    char plan[LW_SERVE_WORD], after[LW_SERVE_WORD], *text = NULL;
    double limit = 100.0;
    lw_packs_ask ask = {.plan = lw_call_text(call, "plan", NULL, plan, &err),
                        .after = lw_call_text(call, "after", NULL, after, &err)};
    if (err.family != LW_OK || !lw_call_number(call, "limit", true, 1.0, LW_CELLS_PAGE, &limit, &err)) {
        lw_answer_error(out, request, &err);
        return;
    }
    ask.limit = (int)limit;
    if (lw_desk_packs_json(call->server->store, &ask, &text, &err))
        lw_answer_json(out, text);
    else if (err.family == LW_WRONG_INPUT) /* no such store or plan */
        lw_answer_problem(out, request, "not-found", err.field, "%s", err.message);
    else
        lw_answer_error(out, request, &err);
}

void lw_api_pack_apart(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    lw_error err = {0};
    char *text = NULL;
    const char *who = call->device_name[0] ? call->device_name : NULL;
    if (lw_desk_apart_json(call->server->store, who, call->name[0], &text, &err))
        lw_answer_json(out, text);
    else if (err.family == LW_WRONG_INPUT) /* no such store or pack; or it is apart already */
        lw_answer_problem(out, request, strcmp(err.field, "state") == 0 ? "conflict" : "not-found", err.field, "%s",
                          err.message);
    else
        lw_answer_error(out, request, &err);
}
