/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Answers: JSON, and problems as RFC 9457 (2023) writes them. One table holds every kind of problem.
 */
#include "http.h"

#include "lanewick/problem_json.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const lw_problem_kind kinds[] = {
    {"wrong-input", 400, "Wrong input", "A value is missing, of the wrong type or out of its range; field names it."},
    {"bad-request", 400, "Bad request", "The request itself is malformed: path, query or body."},
    {"not-paired", 401, "Not paired", "The device's token is missing, unknown, expired or revoked: pair it again."},
    {"not-allowed", 403, "Not allowed", "The role of this device does not allow it."},
    {"other-origin", 403, "Other origin", "Another site's page sent this; only the server's own page may."},
    {"wrong-code", 403, "Wrong code", "The pairing code or passphrase is wrong, used or too old."},
    {"not-found", 404, "Not found", "There is nothing under this name."},
    {"wrong-method", 405, "Wrong method", "This path has other methods; Allow names them."},
    {"conflict", 409, "Conflict", "The same key was sent before with other content, or the state has moved on."},
    {"reused", 412, "Id used before", "This id came before with other content: write it down anew under a new id."},
    {"too-large", 413, "Too large", "The body is larger than is accepted."},
    {"too-long", 414, "Too long", "Path and query are longer than is accepted."},
    {"wrong-type", 415, "Wrong content type", "The body must be sent as application/json."},
    {"wrong-host", 421, "Wrong host", "The server does not answer under this name."},
    {"not-computable", 422, "Cannot be computed", "The values are in range but there is no answer for them."},
    {"refused", 422, "Refused for safety",
     "A hard safety limit would be broken; detail says what would be acceptable."},
    {"locked", 429, "Locked for a while", "Too many wrong codes; Retry-After says for how long."},
    {"internal", 500, "Internal error", "Storage or memory failed, or the program has a fault."},
    {"busy", 503, "Busy", "Too much is under way; try again after Retry-After."},
};

enum { KINDS = sizeof kinds / sizeof kinds[0] };

void lw_response_free(lw_http_response *response)
{
    free(response->text);
    *response = (lw_http_response){0};
}

static void give(lw_http_response *out, int status, const char *type, char *text)
{
    static const char memory[] = "{\"type\":\"/api/v1/problems#internal\",\"title\":\"Internal error\",\"status\":500,"
                                 "\"detail\":\"Memory is out.\"}";
    free(out->text);
    *out = (lw_http_response){.status = status, .type = type, .text = text};
    if (text) {
        out->length = strlen(text);
        return;
    }
    *out = (lw_http_response){
        .status = 500, .type = "application/problem+json", .fixed = memory, .length = sizeof memory - 1};
}

void lw_answer_json(lw_http_response *out, char *text)
{
    give(out, 200, "application/json", text);
}

void lw_answer_bytes(lw_http_response *out, const char *type, unsigned char *bytes, size_t length)
{
    free(out->text);
    *out = (lw_http_response){.status = 200, .type = type, .text = (char *)bytes, .length = length};
}

static const lw_problem_kind *kind_of(const char *name)
{
    for (size_t i = 0; i < KINDS; i++)
        if (strcmp(kinds[i].name, name) == 0)
            return &kinds[i];
    return &kinds[KINDS - 2]; /* internal */
}

void lw_answer_versions(lw_http_response *out, const lw_http_request *request, const char *name, const char *field,
                        const char *detail, const char *stored, const char *sent)
{
    const lw_problem_kind *kind = kind_of(name);
    char *plain = lw_problem_to_json(kind, field, detail, request->id);
    give(out, kind->status, "application/problem+json", plain ? lw_problem_versions(plain, stored, sent) : NULL);
}

void lw_answer_problem(lw_http_response *out, const lw_http_request *request, const char *name, const char *field,
                       const char *format, ...)
{
    const lw_problem_kind *kind = kind_of(name);
    char detail[512];
    va_list rest;
    va_start(rest, format);
    (void)vsnprintf(detail, sizeof detail, format, rest);
    va_end(rest);
    give(out, kind->status, "application/problem+json", lw_problem_to_json(kind, field, detail, request->id));
    out->challenge = kind->status == 401;
    if (kind->status == 503)
        out->retry_after_s = 2;
}

void lw_answer_error(lw_http_response *out, const lw_http_request *request, const lw_error *err)
{
    lw_answer_problem(out, request, lw_family_problem(err->family), err->field, "%s", err->message);
    if (err->family != LW_OK)
        out->status = lw_family_http_status(err->family);
}

char *lw_problems_json(void)
{
    return lw_problem_kinds_to_json(kinds, KINDS);
}
