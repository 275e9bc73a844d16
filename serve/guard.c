/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The checks before any work. Host: a name that is not ours came by a DNS answer of somebody else (rebinding).
 * Origin and Sec-Fetch-Site: another site's page may not use a browser that reaches us; there are no cookies that it
 * could ride on, and a body must be application/json, which a form cannot send.
 */
#include "server.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

static bool is_local_name(const char *host, size_t length)
{
    static const char *const names[] = {"127.0.0.1", "localhost", "[::1]"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strlen(names[i]) == length && strncasecmp(names[i], host, length) == 0)
            return true;
    return false;
}

/* "name:port" of the local door. */
static bool is_ours(const lw_server *server, const char *host)
{
    const char *colon = strrchr(host, ':');
    if (!colon || (colon[1] == '\0') || strspn(colon + 1, "0123456789") != strlen(colon + 1))
        return false;
    return is_local_name(host, (size_t)(colon - host)) &&
           (server->any_port || strtol(colon + 1, NULL, 10) == server->port);
}

bool lw_guard_name(const lw_call *call, lw_http_response *out)
{
    const char *host = call->request->host;
    if (host && is_ours(call->server, host))
        return true;
    lw_answer_problem(out, call->request, "wrong-host", "Host",
                      "This server is opened as http://127.0.0.1:%d/ on the machine itself, not as \"%.80s\".",
                      call->server->port, host ? host : "");
    return false;
}

bool lw_guard_origin(const lw_call *call, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    const char *scheme = request->door == LW_DOOR_LOCAL ? "http://" : "https://";
    const char *site = request->fetch_site, *origin = request->origin;
    const bool site_well = !site || strcmp(site, "same-origin") == 0 || strcmp(site, "none") == 0;
    const bool origin_well = !origin || (strncmp(origin, scheme, strlen(scheme)) == 0 &&
                                         strcasecmp(origin + strlen(scheme), request->host) == 0);
    if (site_well && origin_well)
        return true;
    lw_answer_problem(out, request, "other-origin", origin_well ? "Sec-Fetch-Site" : "Origin",
                      "Only the page of this server may ask here, not %.80s.", origin ? origin : "another site");
    return false;
}

/* "application/json", perhaps with charset=utf-8, the only one that JSON has. */
static bool is_json(const char *type)
{
    static const char name[] = "application/json";
    if (strncasecmp(type, name, sizeof name - 1) != 0)
        return false;
    type += sizeof name - 1;
    type += strspn(type, " \t");
    if (*type == '\0')
        return true;
    if (*type != ';')
        return false;
    type += 1 + strspn(type + 1, " \t");
    return strcasecmp(type, "charset=utf-8") == 0 || strcasecmp(type, "charset=\"utf-8\"") == 0;
}

bool lw_guard_body(const lw_call *call, const lw_route *route, lw_http_response *out)
{
    const lw_http_request *request = call->request;
    if (request->body_length > LW_SERVE_BODY_BYTES)
        lw_answer_problem(out, request, "too-large", "", "A body may have %d bytes at most.", LW_SERVE_BODY_BYTES);
    else if (!route->body && request->body_length > 0)
        lw_answer_problem(out, request, "bad-request", "", "%s %.100s takes no body.", request->method, call->path);
    else if (route->body && (!request->content_type || !is_json(request->content_type)))
        lw_answer_problem(out, request, "wrong-type", "Content-Type",
                          "The body must be sent as application/json, not as \"%.80s\".",
                          request->content_type ? request->content_type : "");
    else
        return true;
    return false;
}

bool lw_guard_role(lw_call *call, const lw_route *route, lw_http_response *out)
{
    call->role = call->request->door == LW_DOOR_LOCAL ? LW_ROLE_OWNER : LW_ROLE_NONE;
    if (call->role >= route->role)
        return true;
    lw_answer_problem(out, call->request, "not-paired", "Authorization",
                      "This device is not paired with the workshop.");
    return false;
}

bool lw_call_number(const lw_call *call, const char *key, bool optional, double low, double high, double *out,
                    lw_error *err)
{
    char text[48];
    const int found = lw_uri_query(call->request->uri, key, text, sizeof text);
    if (found == 0 && optional)
        return true;
    if (found <= 0)
        return lw_fail(err, LW_WRONG_INPUT, key, "%s must be given once as a number from %g to %g.", key, low, high);
    char *end = NULL;
    *out = strtod(text, &end);
    if (end == text || *end != '\0')
        return lw_fail(err, LW_WRONG_INPUT, key, "%s is \"%s\"; it must be a number from %g to %g.", key, text, low,
                       high);
    return lw_in_range(err, key, *out, low, high, "");
}
