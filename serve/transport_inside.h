/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What transport.c and its neighbours share.
 */
#ifndef LANEWICK_SERVE_TRANSPORT_INSIDE_H
#define LANEWICK_SERVE_TRANSPORT_INSIDE_H

#include "transport.h"

#include <microhttpd.h>

/* One exchange: a request that grows as its bytes come in. */
typedef struct lw_exchange {
    lw_transport *transport;
    lw_connection *connection;
    bool begun, full;
    char id[24];
    char *uri;
    char *body;
    size_t body_length, body_room;
    /* of one that is answered aside */
    struct lw_exchange *next;
    struct MHD_Connection *handle;
    lw_http_request request;
    lw_http_response out;
    bool answered;
} lw_exchange;

int64_t lw_steady_s(void);

/* Sends the answer; the response's memory goes with it. */
enum MHD_Result lw_transport_send(lw_exchange *exchange, struct MHD_Connection *connection, lw_http_response *out);
/* Sends events of the job that out names, until it ends. */
enum MHD_Result lw_transport_stream(lw_exchange *exchange, struct MHD_Connection *connection, lw_http_response *out);
/* Lets the request be answered on the thread of those that wait for the disk; on_request comes again when exchange->out
 * holds the answer. False: the door closes, answer at once. */
bool lw_transport_aside(lw_exchange *exchange, struct MHD_Connection *connection, const lw_http_request *request);
LW_MUST_CHECK bool lw_transport_aside_begin(lw_transport *transport);
void lw_transport_aside_end(lw_transport *transport);
/* Fields of every answer. */
void lw_transport_fields(struct MHD_Response *response, const lw_exchange *exchange, const lw_http_response *out);

#endif
