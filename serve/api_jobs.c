/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Plans as jobs: asking for one, looking at it, following it, stopping it.
 */
#include "jobs.h"
#include "server.h"

#include "lanewick/desk.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The job on its way out, or the problem that there is none. */
static bool show(const lw_call *call, const char *id, bool with_result, lw_http_response *out)
{
    char *text = lw_jobs_text(call->server->jobs, id, with_result);
    if (text)
        lw_answer_json(out, text);
    else
        lw_answer_problem(out, call->request, "not-found", "",
                          "There is no job %.40s; ended ones are forgotten in time.", id);
    return text != NULL;
}

/* A key is up to 63 visible letters, so that it can be compared and told. */
static bool read_key(const lw_call *call, const char **key, lw_http_response *out)
{
    *key = call->request->idempotency_key ? call->request->idempotency_key : "";
    const size_t length = strlen(*key);
    bool well = length < LW_SERVE_WORD;
    for (size_t i = 0; well && i < length; i++)
        well = (*key)[i] > 32 && (*key)[i] < 127;
    if (!well)
        lw_answer_problem(out, call->request, "bad-request", "Idempotency-Key", "A key has 1 to %d visible letters.",
                          LW_SERVE_WORD - 1);
    return well;
}

void lw_api_plan(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    lw_error err = {0};
    double seed = 1.0;
    const char *key;
    char id[LW_SERVE_JOB_ID], word[LW_SERVE_WORD];
    const char *of = lw_call_text(call, "of", "lamps", word, &err);
    const bool lane = err.family == LW_OK && strcmp(of, "lane") == 0;
    const lw_plan_request check = {
        .brief = request->body, .brief_length = request->body_length, .no_files = true, .lane_only = lane};
    if (!read_key(call, &key, out))
        return;
    if (err.family == LW_OK && !lane && strcmp(of, "lamps") != 0)
        (void)lw_fail(&err, LW_WRONG_INPUT, "of", "of is \"%.20s\"; give lamps or lane.", of);
    if (err.family != LW_OK || !lw_call_number(call, "seed", true, 0.0, 9007199254740992.0, &seed, &err) ||
        !lw_desk_brief_check(&check, &err)) {
        lw_answer_error(out, request, &err);
        return;
    }
    const lw_job_ask ask = {key, request->body, request->body_length, (uint64_t)seed, lane};
    const lw_job_added added = lw_jobs_add(call->server->jobs, &ask, id);
    if (added == LW_JOB_FULL) {
        lw_answer_problem(out, request, "busy", "", "%d plans wait already; try again in a moment.", LW_SERVE_JOBS);
    } else if (added == LW_JOB_OTHER) {
        lw_answer_problem(out, request, "conflict", "Idempotency-Key",
                          "This key was sent before with another brief or seed; a new question needs a new key.");
    } else if (show(call, id, false, out)) {
        out->status = 202;
        (void)snprintf(out->location, sizeof out->location, "/api/v1/jobs/%s", id);
    }
}

void lw_api_jobs(const lw_call *call, lw_http_response *out)
{
    lw_answer_json(out, lw_jobs_list(call->server->jobs));
}

void lw_api_job(const lw_call *call, lw_http_response *out)
{
    (void)show(call, call->name[0], true, out);
}

void lw_api_job_stop(const lw_call *call, lw_http_response *out)
{
    char *text = lw_jobs_text(call->server->jobs, call->name[0], false);
    if (text && lw_jobs_stop(call->server->jobs, call->name[0])) {
        free(text);
        text = lw_jobs_text(call->server->jobs, call->name[0], false);
        if (text)
            lw_answer_json(out, text);
        else
            *out = (lw_http_response){.status = 204};
        return;
    }
    free(text);
    (void)show(call, call->name[0], false, out);
}

void lw_api_job_events(const lw_call *call, lw_http_response *out)
{
    if (!show(call, call->name[0], false, out))
        return;
    lw_response_free(out);
    *out = (lw_http_response){.status = 200, .type = "text/event-stream"};
    (void)snprintf(out->stream, sizeof out->stream, "%.32s", call->name[0]);
}
