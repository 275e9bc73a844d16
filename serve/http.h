/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A request and its answer as values. Everything that decides is a function from the one to the other, tested without
 * a port; the HTTP library only moves the bytes (transport.c).
 */
#ifndef LANEWICK_SERVE_HTTP_H
#define LANEWICK_SERVE_HTTP_H

#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

/* Where the request came in. */
typedef enum lw_door {
    LW_DOOR_LOCAL,  /* loopback, plain: the person at the laptop */
    LW_DOOR_LAN,    /* local network, TLS: paired devices */
    LW_DOOR_INSTALL /* local network, plain: the root certificate and how to trust it, nothing else */
} lw_door;

typedef enum lw_role { LW_ROLE_NONE, LW_ROLE_BENCH, LW_ROLE_PLANNER, LW_ROLE_OWNER } lw_role;

/* Header fields are NULL when they did not come. */
typedef struct lw_http_request {
    lw_door door;
    const char *method;
    const char *uri; /* path and query as they came, not decoded */
    const char *host, *origin, *fetch_site, *content_type, *authorization;
    const char *if_none_match, *accept_encoding, *accept_language, *idempotency_key;
    const char *body;
    size_t body_length;
    int64_t now_s;  /* the clock is a value, too */
    const char *id; /* of the request, for the problem and the X-Request-Id field */
} lw_http_request;

typedef struct lw_http_response {
    int status;
    const char *type;  /* media type */
    char *text;        /* body on the heap, or */
    const void *fixed; /* body that lives as long as the program */
    size_t length;
    const char *etag, *encoding, *allow;
    char location[96];
    int retry_after_s;
    bool may_be_kept; /* by the browser, asked again with If-None-Match each time */
    bool challenge;   /* WWW-Authenticate: Bearer */
    char file[120];   /* not empty: name for keeping the body, which is shown where it can be (RFC 6266, inline) */
    char stream[40];  /* not empty: events of this job follow instead of a body */
} lw_http_response;

void lw_response_free(lw_http_response *response);

/* 200 with a body on the heap, which the answer owns from now on; NULL: memory is out. */
void lw_answer_json(lw_http_response *out, char *text);
/* 200 with bytes of another media type, owned likewise. */
void lw_answer_bytes(lw_http_response *out, const char *type, unsigned char *bytes, size_t length);
/* A problem (RFC 9457) of the table in problems.c; field may be "". */
void lw_answer_problem(lw_http_response *out, const lw_http_request *request, const char *name, const char *field,
                       const char *format, ...) __attribute__((format(printf, 5, 6)));
/* A problem that shows two versions of one thing, JSON texts, for a person to choose; NULL: none. */
void lw_answer_versions(lw_http_response *out, const lw_http_request *request, const char *name, const char *field,
                        const char *detail, const char *stored, const char *sent);
/* The problem of an error's family. */
void lw_answer_error(lw_http_response *out, const lw_http_request *request, const lw_error *err);
/* The list of problems as JSON. */
char *lw_problems_json(void);

/* The path before '?'; false when it holds anything but letters, digits and -._~/ or an empty, "." or ".." part. */
bool lw_uri_path(const char *uri, char *out, size_t size);
/* The decoded value of a query key: 1 found, 0 not there, -1 broken (bad escape, too long, given twice). */
int lw_uri_query(const char *uri, const char *key, char *out, size_t size);

#endif
