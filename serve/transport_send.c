/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An answer on its way out, with the fields that every answer carries.
 *
 * Content-Security-Policy: scripts, styles and connections from this server only, none written into the page itself;
 * WebAssembly may be compiled; nobody may frame the page (W3C CSP Level 3).
 */
#include "transport_inside.h"

#include <stdio.h>

static const struct {
    const char *name, *value;
} always[] = {
    {"Content-Security-Policy",
     "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; img-src 'self' data: blob:; "
     "connect-src 'self'; worker-src 'self'; manifest-src 'self'; media-src 'self' blob:; font-src 'self'; "
     "base-uri 'none'; form-action 'self'; frame-ancestors 'none'"},
    {"X-Content-Type-Options", "nosniff"},
    {"X-Frame-Options", "DENY"},
    {"Referrer-Policy", "no-referrer"},
    {"Cross-Origin-Opener-Policy", "same-origin"},
    {"Cross-Origin-Resource-Policy", "same-origin"},
    {"Permissions-Policy", "camera=(self), geolocation=(self), accelerometer=(self), gyroscope=(self), "
                           "magnetometer=(self), microphone=(), payment=(), usb=()"},
};

static void field(struct MHD_Response *response, const char *name, const char *value)
{
    if (value && value[0])
        (void)MHD_add_response_header(response, name, value);
}

void lw_transport_fields(struct MHD_Response *response, const lw_exchange *exchange, const lw_http_response *out)
{
    for (size_t i = 0; i < sizeof always / sizeof always[0]; i++)
        field(response, always[i].name, always[i].value);
    field(response, "X-Request-Id", exchange->id);
    field(response, "Content-Type", out->type);
    field(response, "Cache-Control", out->may_be_kept ? "no-cache" : "no-store");
    field(response, "ETag", out->etag);
    field(response, "Content-Encoding", out->encoding);
    field(response, "Vary", out->may_be_kept ? "Accept-Encoding" : NULL);
    field(response, "Allow", out->allow);
    field(response, "Location", out->location);
    field(response, "WWW-Authenticate", out->challenge ? "Bearer realm=\"lanewick\"" : NULL);
    if (out->file[0]) {
        char place[sizeof out->file + 24];
        (void)snprintf(place, sizeof place, "inline; filename=\"%s\"", out->file);
        field(response, "Content-Disposition", place);
    }
    if (out->retry_after_s > 0) {
        char seconds[16];
        (void)snprintf(seconds, sizeof seconds, "%d", out->retry_after_s);
        field(response, "Retry-After", seconds);
    }
}

/* The library takes what it sends as void *; it never writes there. */
static void *bytes_of(const void *fixed)
{
    union {
        const void *given;
        void *taken;
    } same = {.given = fixed};
    return same.taken;
}

enum MHD_Result lw_transport_send(lw_exchange *exchange, struct MHD_Connection *connection, lw_http_response *out)
{
    struct MHD_Response *response =
        out->text ? MHD_create_response_from_buffer(out->length, out->text, MHD_RESPMEM_MUST_FREE)
                  : MHD_create_response_from_buffer(out->length, bytes_of(out->length ? out->fixed : ""),
                                                    MHD_RESPMEM_PERSISTENT);
    if (!response) {
        lw_response_free(out);
        return MHD_NO;
    }
    out->text = NULL; /* the library frees it */
    lw_transport_fields(response, exchange, out);
    const enum MHD_Result queued = MHD_queue_response(connection, (unsigned int)out->status, response);
    MHD_destroy_response(response);
    return queued;
}
