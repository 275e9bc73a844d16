/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The checks before any work. Host: a name that is not ours came by a DNS answer of somebody else (rebinding).
 * Origin and Sec-Fetch-Site: another site's page may not use a browser that reaches us; there are no cookies that it
 * could ride on, and a body must be application/json, which a form cannot send.
 */
#include "devices.h"
#include "server.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <strings.h>

static bool is_name(const char *name, const char *host, size_t length)
{
    return strlen(name) == length && strncasecmp(name, host, length) == 0;
}

static bool is_known_name(const lw_call *call, const char *host, size_t length)
{
    static const char *const names[] = {"127.0.0.1", "localhost", "[::1]"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (is_name(names[i], host, length))
            return true;
    const lw_addresses *lan = &call->server->names;
    for (size_t i = 0; call->request->door != LW_DOOR_LOCAL && i < lan->count; i++)
        if (is_name(lan->text[i], host, length))
            return true;
    return false;
}

/* "name:port" of the door. */
static bool is_ours(const lw_call *call, const char *host)
{
    const lw_server *server = call->server;
    const int ports[] = {server->port, server->lan_port, server->install_port};
    const char *colon = strrchr(host, ':');
    if (!colon || (colon[1] == '\0') || strspn(colon + 1, "0123456789") != strlen(colon + 1))
        return false;
    return is_known_name(call, host, (size_t)(colon - host)) &&
           (server->any_port || strtol(colon + 1, NULL, 10) == ports[call->request->door]);
}

bool lw_guard_name(const lw_call *call, lw_http_response *out)
{
    const char *host = call->request->host;
    if (host && is_ours(call, host))
        return true;
    lw_answer_problem(out, call->request, "wrong-host", "Host",
                      "This server is opened by the address that it printed at its start (on the machine itself: "
                      "http://127.0.0.1:%d/), not as \"%.80s\".",
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

/* The role by the door alone. */
static lw_role role_at_door(const lw_call *call)
{
    lw_devices *devices = call->server->devices;
    if (call->request->door != LW_DOOR_LOCAL)
        return LW_ROLE_NONE;
    return devices && lw_devices_has_passphrase(devices) ? LW_ROLE_PLANNER : LW_ROLE_OWNER;
}

bool lw_guard_role(lw_call *call, const lw_route *route, lw_http_response *out)
{
    static const char bearer[] = "Bearer ";
    const lw_http_request *request = call->request;
    const char *given = request->authorization;
    lw_device device;
    call->role = role_at_door(call);
    const bool known = given && call->server->devices && strncasecmp(given, bearer, sizeof bearer - 1) == 0 &&
                       lw_devices_known(call->server->devices, given + sizeof bearer - 1, request->now_s, &device);
    if (known) {
        call->role = device.role > call->role ? device.role : call->role;
        (void)snprintf(call->device, sizeof call->device, "%s", device.id);
        (void)snprintf(call->device_name, sizeof call->device_name, "%s", device.name);
    }
    if (call->role >= route->role && (known || !given || route->role == LW_ROLE_NONE))
        return true;
    if (!known)
        lw_answer_problem(out, request, "not-paired", "Authorization",
                          given ? "This token is unknown, has ended or was removed; pair the device again."
                                : "This device is not paired with the workshop, or the owner's passphrase is needed.");
    else
        lw_answer_problem(out, request, "not-allowed", "", "This device has the role %s; %s is needed here.",
                          lw_role_text(call->role), lw_role_text(route->role));
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

const char *lw_call_text(const lw_call *call, const char *key, const char *fallback, char out[LW_SERVE_WORD],
                         lw_error *err)
{
    const int found = lw_uri_query(call->request->uri, key, out, LW_SERVE_WORD);
    if (found < 0)
        (void)lw_fail(err, LW_WRONG_INPUT, key, "%s must come once, in at most %d letters.", key, LW_SERVE_WORD - 1);
    return found > 0 && out[0] ? out : fallback;
}
