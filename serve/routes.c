/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table of routes, and the way of a request through the checks to its handler. docs/api/openapi.json describes
 * each line; a test compares the two.
 */
#include "server.h"

#include <stdlib.h>
#include <string.h>

static const lw_route routes[] = {
    {"GET", "/api/v1", LW_ROLE_NONE, false, lw_api_state},
    {"POST", "/api/v1/language", LW_ROLE_PLANNER, false, lw_api_language},
    {"GET", "/api/v1/openapi.json", LW_ROLE_NONE, false, lw_api_openapi},
    {"GET", "/api/v1/problems", LW_ROLE_NONE, false, lw_api_problems},
    {"GET", "/api/v1/figures", LW_ROLE_BENCH, false, lw_api_figures},
    {"GET", "/api/v1/figures/*", LW_ROLE_BENCH, false, lw_api_figure},
    {"POST", "/api/v1/figures/*", LW_ROLE_BENCH, true, lw_api_figure_run},
    {"GET", "/api/v1/climate", LW_ROLE_BENCH, false, lw_api_climate},
    {"GET", "/api/v1/places", LW_ROLE_BENCH, false, lw_api_places},
    {"POST", "/api/v1/pair", LW_ROLE_NONE, true, lw_api_pair},
    {"POST", "/api/v1/owner", LW_ROLE_NONE, true, lw_api_owner},
    {"POST", "/api/v1/owner/passphrase", LW_ROLE_OWNER, true, lw_api_passphrase},
    {"POST", "/api/v1/pairing", LW_ROLE_OWNER, true, lw_api_code},
    {"DELETE", "/api/v1/pairing", LW_ROLE_OWNER, false, lw_api_code_close},
    {"GET", "/api/v1/devices", LW_ROLE_OWNER, false, lw_api_devices},
    {"DELETE", "/api/v1/devices/*", LW_ROLE_BENCH, false, lw_api_device_revoke},
    {"POST", "/api/v1/plans", LW_ROLE_PLANNER, true, lw_api_plan},
    {"GET", "/api/v1/jobs", LW_ROLE_PLANNER, false, lw_api_jobs},
    {"GET", "/api/v1/jobs/*", LW_ROLE_PLANNER, false, lw_api_job},
    {"DELETE", "/api/v1/jobs/*", LW_ROLE_PLANNER, false, lw_api_job_stop},
    {"GET", "/api/v1/jobs/*/events", LW_ROLE_PLANNER, false, lw_api_job_events},
    {"POST", "/api/v1/jobs/*/packs", LW_ROLE_PLANNER, false, lw_api_job_packs},
    {"GET", "/api/v1/jobs/*/sheets", LW_ROLE_PLANNER, false, lw_api_sheets},
    {"GET", "/api/v1/jobs/*/sheets/*", LW_ROLE_PLANNER, false, lw_api_sheet},
    {"GET", "/api/v1/crates", LW_ROLE_BENCH, false, lw_api_crates},
    {"GET", "/api/v1/crates/*/cells", LW_ROLE_BENCH, false, lw_api_cells},
    {"GET", "/api/v1/cells", LW_ROLE_BENCH, false, lw_api_cells},
    {"GET", "/api/v1/cells/*", LW_ROLE_BENCH, false, lw_api_cell},
    {"GET", "/api/v1/cells/*/tests", LW_ROLE_BENCH, false, lw_api_tests},
    {"GET", "/api/v1/packs", LW_ROLE_BENCH, false, lw_api_packs},
    {"POST", "/api/v1/packs/*/apart", LW_ROLE_PLANNER, false, lw_api_pack_apart},
    {"GET", "/api/v1/tools", LW_ROLE_BENCH, false, lw_api_tools},
    {"GET", "/api/v1/shelf", LW_ROLE_BENCH, false, lw_api_shelf},
    {"POST", "/api/v1/shelf", LW_ROLE_PLANNER, true, lw_api_shelf_change},
    {"POST", "/api/v1/shelf/brief", LW_ROLE_PLANNER, true, lw_api_shelf_brief},
    {"GET", "/api/v1/runs", LW_ROLE_BENCH, false, lw_api_runs},
    {"POST", "/api/v1/slips", LW_ROLE_BENCH, true, lw_api_slip},
    {"POST", "/api/v1/nights", LW_ROLE_BENCH, true, lw_api_compute},
    {"POST", "/api/v1/ribbon", LW_ROLE_BENCH, true, lw_api_compute},
    {"POST", "/api/v1/light/lane", LW_ROLE_BENCH, true, lw_api_compute},
    {"POST", "/api/v1/light/picture", LW_ROLE_BENCH, true, lw_api_compute},
    {"POST", "/api/v1/light/search", LW_ROLE_BENCH, true, lw_api_compute},
    {"POST", "/api/v1/pack/match", LW_ROLE_BENCH, true, lw_api_compute},
    {"POST", "/api/v1/mast", LW_ROLE_BENCH, true, lw_api_compute},
    {"POST", "/api/v1/mast/document", LW_ROLE_BENCH, true, lw_api_compute},
    {"POST", "/api/v1/circuit", LW_ROLE_BENCH, true, lw_api_compute},
};

enum { ROUTES = sizeof routes / sizeof routes[0] };

/* The path fits the pattern; its open parts go to name. */
static bool fits(const char *pattern, const char *path, char name[2][LW_SERVE_WORD])
{
    size_t open = 0;
    while (*pattern) {
        if (*pattern != '*') {
            if (*pattern++ != *path++)
                return false;
            continue;
        }
        const size_t length = strcspn(path, "/");
        if (length == 0 || length >= LW_SERVE_WORD || open == 2)
            return false;
        memcpy(name[open], path, length);
        name[open++][length] = '\0';
        path += length;
        pattern++;
    }
    return *path == '\0';
}

static const char *methods(bool get, bool post, bool delete)
{
    static const char *const lists[] = {"",       "GET, HEAD",         "POST",         "GET, HEAD, POST",
                                        "DELETE", "GET, HEAD, DELETE", "POST, DELETE", "GET, HEAD, POST, DELETE"};
    return lists[(get ? 1 : 0) + (post ? 2 : 0) + (delete ? 4 : 0)];
}

static const lw_route *find_route(const char *method, lw_call *call, const char **allow)
{
    const char *wanted = strcmp(method, "HEAD") == 0 ? "GET" : method;
    bool get = false, post = false, delete = false;
    for (size_t i = 0; i < ROUTES; i++) {
        if (!fits(routes[i].pattern, call->path, call->name))
            continue;
        if (strcmp(routes[i].method, wanted) == 0)
            return &routes[i];
        get = get || routes[i].method[0] == 'G';
        post = post || routes[i].method[0] == 'P';
        delete = delete || routes[i].method[0] == 'D';
    }
    *allow = methods(get, post, delete);
    return NULL;
}

static void not_found(const lw_call *call, const char *allow, lw_http_response *out)
{
    if (!allow[0]) {
        lw_answer_problem(out, call->request, "not-found", "", "There is nothing at %.100s.", call->path);
        return;
    }
    lw_answer_problem(out, call->request, "wrong-method", "", "%.100s takes %s.", call->path, allow);
    out->allow = allow;
}

static bool read_path(lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    if (strlen(request->uri) >= LW_SERVE_URI_BYTES)
        lw_answer_problem(out, request, "too-long", "", "Path and query may have %d bytes at most.",
                          LW_SERVE_URI_BYTES - 1);
    else if (!lw_uri_path(request->uri, call->path, sizeof call->path))
        lw_answer_problem(out, request, "bad-request", "",
                          "The path may hold letters, digits, - . _ ~ and / only, and no empty or dotted parts.");
    else
        return true;
    return false;
}

bool lw_serve_waits(const lw_http_request *request)
{
    return strcmp(request->method, "POST") == 0 &&
           (strcmp(request->uri, "/api/v1/slips") == 0 || strcmp(request->uri, "/api/v1/shelf") == 0);
}

void lw_serve_answer(lw_server *server, const lw_http_request *request, lw_http_response *out)
{
    lw_call call = {.server = server, .request = request};
    const char *allow = "";
    *out = (lw_http_response){0};
    if (!lw_guard_name(&call, out) || !read_path(&call, out))
        return;
    if (request->door == LW_DOOR_INSTALL) {
        lw_install_answer(&call, out);
        return;
    }
    const bool api = strncmp(call.path, "/api/", 5) == 0;
    if (!api && lw_page_answer(&call, out))
        return;
    if (api && !lw_guard_origin(&call, out))
        return;
    const lw_route *route = find_route(request->method, &call, &allow);
    if (!route)
        not_found(&call, allow, out);
    else if (lw_guard_role(&call, route, out) && lw_guard_body(&call, route, out))
        route->handler(&call, out);
}
