/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The server's handling of a request: lines "method", "uri", then "name: value" fields, an empty line, the body. Any
 * bytes give one whole answer; from 400 on it is a problem, and no bytes reach an internal error.
 */
#include "serve/devices.h"
#include "serve/jobs.h"
#include "serve/server.h"

#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size);

static void on_change(void *payload)
{
    (void)payload;
}

/* The next line of text, which is cut there. */
static char *line(char **text)
{
    char *start = *text, *end = strchr(start, '\n');
    if (!end) {
        *text = start + strlen(start);
        return start;
    }
    *end = '\0';
    *text = end + 1;
    return start;
}

static void set_field(lw_http_request *request, char *text)
{
    const struct {
        const char *name;
        const char **value;
    } fields[] = {{"Host", &request->host},
                  {"Origin", &request->origin},
                  {"Sec-Fetch-Site", &request->fetch_site},
                  {"Content-Type", &request->content_type},
                  {"Authorization", &request->authorization},
                  {"If-None-Match", &request->if_none_match},
                  {"Accept-Encoding", &request->accept_encoding},
                  {"Idempotency-Key", &request->idempotency_key}};
    char *colon = strstr(text, ": ");
    if (!colon)
        return;
    *colon = '\0';
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++)
        if (strcmp(fields[i].name, text) == 0)
            *fields[i].value = colon + 2;
}

static void check(const lw_http_response *out)
{
    const bool empty = out->status == 204 || out->status == 304;
    const char *body = out->text ? out->text : out->fixed;
    if (out->status < 200 || out->status > 599 || out->status == 500)
        abort();
    if (!empty && !out->stream[0] && (!out->type || !body || out->length == 0))
        abort();
    if (out->status >= 400 && (strcmp(out->type, "application/problem+json") != 0 || body[0] != '{'))
        abort();
}

int LLVMFuzzerTestOneInput(const unsigned char *data, size_t size)
{
    static lw_jobs jobs = {.lock = PTHREAD_MUTEX_INITIALIZER, .wake = PTHREAD_COND_INITIALIZER, .changed = on_change};
    static lw_devices devices = {.lock = PTHREAD_MUTEX_INITIALIZER};
    static lw_server server = {
        .port = 8642, .jobs = &jobs, .devices = &devices, .fingerprint = "AA:BB", .store = ":memory:"};
    char *copy = malloc(size + 1);
    if (!copy)
        return 0;
    memcpy(copy, data, size);
    copy[size] = '\0';
    char *rest = copy;
    lw_http_request request = {.id = "fuzz", .now_s = 1700000000};
    request.method = line(&rest);
    request.uri = line(&rest);
    for (char *field = line(&rest); field[0]; field = line(&rest))
        set_field(&request, field);
    request.body = rest;
    request.body_length = size - (size_t)(rest - copy);
    lw_http_response out;
    lw_serve_answer(&server, &request, &out);
    check(&out);
    lw_response_free(&out);
    free(copy);
    return 0;
}
