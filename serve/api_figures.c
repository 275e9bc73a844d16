/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figures: the list, the description of one, a run of one.
 */
#include "server.h"

#include "lanewick/figure.h"
#include "lanewick/figure_json.h"

#include <stdlib.h>
#include <string.h>

static const lw_figure *find(const lw_call *call, lw_http_response *out)
{
    const lw_figure *figure = lw_figure_find(call->name[0]);
    if (!figure)
        lw_answer_problem(out, call->request, "not-found", "figure", "There is no figure \"%s\"; did you mean %s?",
                          call->name[0], lw_figure_nearest(call->name[0]));
    return figure;
}

void lw_api_figures(const lw_call *call, lw_http_response *out)
{
    const char *kept = call->server->figures;
    if (kept)
        *out = (lw_http_response){.status = 200, .type = "application/json", .fixed = kept, .length = strlen(kept)};
    else
        lw_answer_json(out, lw_figure_list_json());
}

void lw_api_figure(const lw_call *call, lw_http_response *out)
{
    const lw_figure *figure = find(call, out);
    if (figure)
        lw_answer_json(out, lw_figure_description_json(figure));
}

void lw_api_figure_run(const lw_call *call, lw_http_response *out)
{
    const lw_figure *figure = find(call, out);
    if (!figure)
        return;
    lw_error err = {0};
    lw_figure_call run;
    lw_arena arena = lw_arena_over(malloc(LW_SERVE_ARENA_BYTES), LW_SERVE_ARENA_BYTES);
    lw_figure_begin(&run, figure);
    const bool done = (arena.base || lw_fail(&err, LW_STORAGE, "", "Memory is out.")) &&
                      lw_figure_from_json(&run, call->request->body, call->request->body_length, &arena, &err) &&
                      lw_figure_finish(&run, &arena, &err);
    if (done)
        lw_answer_json(out, lw_figure_to_json(&run));
    else
        lw_answer_error(out, call->request, &err);
    free(arena.base);
}
