/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Calculations that are one document in and one out. They may take much memory for a moment, so only a few run at
 * one time; the others are asked to come again.
 */
#include "server.h"

#include "lanewick/desk_json.h"

#include <stdlib.h>
#include <string.h>

static const struct {
    const char *path;
    lw_desk_json *run;
} wishes[] = {
    {"/api/v1/nights", lw_desk_nights},
    {"/api/v1/ribbon", lw_desk_ribbon},
    {"/api/v1/light/lane", lw_desk_lane},
    {"/api/v1/light/search", lw_desk_lane_search},
    {"/api/v1/pack/match", lw_desk_pack},
    {"/api/v1/mast", lw_desk_mast},
    {"/api/v1/mast/document", lw_desk_lamp_mast},
    {"/api/v1/circuit", lw_desk_circuit},
    {"/api/v1/light/picture", lw_desk_lane_drawn},
};

static void compute(lw_desk_json *run, const lw_call *call, lw_http_response *out)
{
    lw_error err = {0};
    char *json = NULL;
    lw_arena arena = lw_arena_over(malloc(LW_DESK_JSON_BYTES), LW_DESK_JSON_BYTES);
    const bool done = (arena.base || lw_fail(&err, LW_STORAGE, "", "Memory is out.")) &&
                      run(call->request->body, call->request->body_length, &arena, &json, &err);
    if (done)
        lw_answer_json(out, json);
    else
        lw_answer_error(out, call->request, &err);
    free(arena.base);
}

void lw_api_compute(const lw_call *call, lw_http_response *out)
{
    atomic_int *computing = &call->server->computing;
    if (atomic_fetch_add(computing, 1) >= LW_SERVE_COMPUTING)
        lw_answer_problem(out, call->request, "busy", "", "Other calculations are under way; try again in a moment.");
    else
        for (size_t i = 0; i < sizeof wishes / sizeof wishes[0]; i++)
            if (strcmp(wishes[i].path, call->path) == 0)
                compute(wishes[i].run, call, out);
    (void)atomic_fetch_sub(computing, 1);
}
