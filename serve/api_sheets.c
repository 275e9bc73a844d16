/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sheets of a plan that a job has made: the list, and each of them to look at, to keep or to print.
 */
#include "jobs.h"
#include "server.h"

#include "lanewick/desk_sheets.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct wish {
    char language[LW_SERVE_WORD], group[LW_SERVE_WORD], paper[LW_SERVE_WORD], print[LW_SERVE_WORD],
        labels[LW_SERVE_WORD];
    lw_sheet_ask ask;
} wish;

static bool read_wish(const lw_call *call, wish *w, lw_error *err)
{
    double page = 1.0;
    w->ask.language = lw_call_text(call, "language", "en", w->language, err);
    w->ask.group = lw_call_text(call, "for", "all", w->group, err);
    w->ask.paper = lw_call_text(call, "paper", "pdf", w->paper, err);
    w->ask.grid = lw_call_text(call, "labels", "auto", w->labels, err);
    w->ask.name = call->name[1];
    const char *print = lw_call_text(call, "print", "no", w->print, err);
    if (err->family != LW_OK || !lw_call_number(call, "page", true, 1.0, 10000.0, &page, err))
        return false;
    w->ask.page = (size_t)page;
    w->ask.prints = strcmp(print, "yes") == 0;
    return w->ask.prints || strcmp(print, "no") == 0 ||
           lw_fail(err, LW_WRONG_INPUT, "print", "print is \"%.20s\"; give yes or no.", print);
}

/* The plan of the job; free() it. NULL: out holds the problem. */
static lw_plan *plan_of(const lw_call *call, lw_http_response *out)
{
    bool known = false;
    lw_plan *plan = malloc(sizeof *plan);
    if (plan && lw_jobs_plan(call->server->jobs, call->name[0], plan, &known))
        return plan;
    if (!plan)
        lw_answer_problem(out, call->request, "internal", "", "Memory is out.");
    else if (known)
        lw_answer_problem(out, call->request, "conflict", "", "This plan is not done; its job tells how far it is.");
    else
        lw_answer_problem(out, call->request, "not-found", "",
                          "There is no job %.40s; ended ones are forgotten in time. Plan again.", call->name[0]);
    free(plan);
    return NULL;
}

static void give_list(const lw_call *call, const lw_sheet_ask *ask, lw_http_response *out)
{
    lw_error err = {0};
    char *json = NULL;
    if (lw_desk_sheet_list(ask, &json, &err))
        lw_answer_json(out, json);
    else
        lw_answer_error(out, call->request, &err);
}

static void give_sheet(const lw_call *call, const lw_sheet_ask *ask, lw_http_response *out)
{
    lw_error err = {0};
    lw_sheet_bytes sheet;
    if (lw_desk_sheet_bytes(ask, &sheet, &err)) {
        lw_answer_bytes(out, sheet.type, sheet.bytes, sheet.length);
        (void)snprintf(out->file, sizeof out->file, "%s", sheet.file);
    } else if (strcmp(err.field, "name") == 0) {
        lw_answer_problem(out, call->request, "not-found", "", "%s", err.message);
    } else {
        lw_answer_error(out, call->request, &err);
    }
}

static void answer(const lw_call *call, void (*give)(const lw_call *, const lw_sheet_ask *, lw_http_response *),
                   lw_http_response *out)
{
    wish w = {0};
    lw_error err = {0};
    lw_plan *plan = plan_of(call, out);
    if (!plan)
        return;
    w.ask.plan = plan;
    if (read_wish(call, &w, &err))
        give(call, &w.ask, out);
    else
        lw_answer_error(out, call->request, &err);
    free(plan);
}

void lw_api_sheets(const lw_call *call, lw_http_response *out)
{
    answer(call, give_list, out);
}

void lw_api_sheet(const lw_call *call, lw_http_response *out)
{
    answer(call, give_sheet, out);
}
