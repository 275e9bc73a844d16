/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The doors of the server: see transport.h. The library calls back with pieces of a request; when it is whole,
 * lw_serve_answer() decides.
 */
#include "transport_inside.h"

#include <arpa/inet.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>
#include <unistd.h>

static int64_t seconds(clockid_t clock)
{
    struct timespec now;
    return clock_gettime(clock, &now) == 0 ? (int64_t)now.tv_sec : 0;
}

static int64_t clock_s(void)
{
    return seconds(CLOCK_REALTIME);
}

int64_t lw_steady_s(void)
{
    return seconds(CLOCK_MONOTONIC);
}

static lw_connection *of(struct MHD_Connection *connection)
{
    const union MHD_ConnectionInfo *info = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_SOCKET_CONTEXT);
    return info ? info->socket_context : NULL;
}

static void on_connection(void *payload, struct MHD_Connection *connection, void **context,
                          enum MHD_ConnectionNotificationCode what)
{
    lw_transport *transport = payload;
    if (what == MHD_CONNECTION_NOTIFY_CLOSED) {
        lw_connection_drop(&transport->connections, *context);
        *context = NULL;
        return;
    }
    const union MHD_ConnectionInfo *info = MHD_get_connection_info(connection, MHD_CONNECTION_INFO_CONNECTION_FD);
    *context = info ? lw_connection_add(&transport->connections, info->connect_fd, lw_steady_s()) : NULL;
}

/* The request line is there: the exchange begins. The library would decode the path; we want it as it came. */
static void *on_uri(void *payload, const char *uri, struct MHD_Connection *connection)
{
    lw_transport *transport = payload;
    lw_exchange *exchange = calloc(1, sizeof *exchange);
    if (!exchange)
        return NULL;
    exchange->transport = transport;
    exchange->connection = of(connection);
    exchange->uri = strdup(uri);
    (void)snprintf(exchange->id, sizeof exchange->id, "%08x-%x", transport->run,
                   atomic_fetch_add(&transport->requests, 1U));
    return exchange;
}

static void on_completed(void *payload, struct MHD_Connection *connection, void **context,
                         enum MHD_RequestTerminationCode why)
{
    lw_transport *transport = payload;
    lw_exchange *exchange = *context;
    (void)connection, (void)why;
    if (!exchange)
        return;
    (void)atomic_fetch_sub(&transport->body_bytes, exchange->body_room);
    if (exchange->begun)
        (void)atomic_fetch_sub(&transport->under_way, 1);
    lw_connection_waits(&transport->connections, exchange->connection, lw_steady_s());
    lw_response_free(&exchange->out);
    free(exchange->uri);
    free(exchange->body);
    free(exchange);
    *context = NULL;
}

/* Room for the whole body; false: too much is held already. */
static bool reserve(lw_exchange *exchange, size_t room)
{
    lw_transport *transport = exchange->transport;
    if (room <= exchange->body_room)
        return true;
    const size_t more = room - exchange->body_room;
    if (atomic_fetch_add(&transport->body_bytes, more) + more > LW_SERVE_BODIES_BYTES) {
        (void)atomic_fetch_sub(&transport->body_bytes, more);
        return false;
    }
    char *larger = realloc(exchange->body, room + 1);
    if (!larger) {
        (void)atomic_fetch_sub(&transport->body_bytes, more);
        return false;
    }
    exchange->body = larger;
    exchange->body_room = room;
    return true;
}

/* Bytes of the body. Beyond the limit they are counted, not kept; the answer says so at the end. */
static void collect(lw_exchange *exchange, const char *bytes, size_t count)
{
    if (exchange->full || exchange->body_length + count > LW_SERVE_BODY_BYTES) {
        exchange->body_length = LW_SERVE_BODY_BYTES + 1;
        return;
    }
    const size_t wanted = exchange->body_length + count;
    if (wanted > exchange->body_room && !reserve(exchange, wanted < 4096 ? 4096 : wanted + wanted / 2)) {
        exchange->full = true;
        return;
    }
    memcpy(exchange->body + exchange->body_length, bytes, count);
    exchange->body_length = wanted;
}

static const char *header(struct MHD_Connection *connection, const char *name)
{
    return MHD_lookup_connection_value(connection, MHD_HEADER_KIND, name);
}

static lw_http_request request_of(const lw_exchange *exchange, struct MHD_Connection *connection, const char *method)
{
    return (lw_http_request){.door = exchange->transport->door,
                             .method = method,
                             .uri = exchange->uri ? exchange->uri : "",
                             .host = header(connection, "Host"),
                             .origin = header(connection, "Origin"),
                             .fetch_site = header(connection, "Sec-Fetch-Site"),
                             .content_type = header(connection, "Content-Type"),
                             .authorization = header(connection, "Authorization"),
                             .if_none_match = header(connection, "If-None-Match"),
                             .accept_encoding = header(connection, "Accept-Encoding"),
                             .accept_language = header(connection, "Accept-Language"),
                             .idempotency_key = header(connection, "Idempotency-Key"),
                             .body = exchange->body ? exchange->body : "",
                             .body_length = exchange->body_length,
                             .now_s = clock_s(),
                             .id = exchange->id};
}

/* A body somewhat too large is read and dropped, so that its sender sees the answer; an absurd one is not waited for.
 */
static bool says_too_large(struct MHD_Connection *connection)
{
    const char *length = header(connection, "Content-Length");
    return length && strtoull(length, NULL, 10) > LW_SERVE_DROP_BYTES;
}

static enum MHD_Result answer(lw_exchange *exchange, struct MHD_Connection *connection, const char *method)
{
    const lw_http_request request = request_of(exchange, connection, method);
    lw_http_response out = {0};
    if (!exchange->full && lw_serve_waits(&request) && lw_transport_aside(exchange, connection, &request))
        return MHD_YES;
    if (exchange->full)
        lw_answer_problem(&out, &request, "busy", "", "Too many large bodies are under way; try again in a moment.");
    else
        lw_serve_answer(exchange->transport->server, &request, &out);
    return out.stream[0] ? lw_transport_stream(exchange, connection, &out)
                         : lw_transport_send(exchange, connection, &out);
}

static enum MHD_Result on_request(void *payload, struct MHD_Connection *connection, const char *decoded,
                                  const char *method, const char *version, const char *bytes, size_t *count,
                                  void **context)
{
    lw_exchange *exchange = *context;
    (void)payload, (void)decoded, (void)version;
    if (!exchange)
        return MHD_NO;
    if (exchange->answered)
        return lw_transport_send(exchange, connection, &exchange->out);
    if (!exchange->begun) {
        exchange->begun = true;
        (void)atomic_fetch_add(&exchange->transport->under_way, 1);
        lw_connection_works(&exchange->transport->connections, exchange->connection, lw_steady_s());
        if (!says_too_large(connection))
            return MHD_YES;
        exchange->body_length = LW_SERVE_BODY_BYTES + 1;
        return answer(exchange, connection, method);
    }
    if (*count > 0) {
        collect(exchange, bytes, *count);
        *count = 0;
        return MHD_YES;
    }
    return answer(exchange, connection, method);
}

static void quiet(void *payload, const char *format, va_list rest)
{
    (void)payload, (void)format, (void)rest; /* broken requests are the sender's matter */
}

static struct MHD_Daemon *start(lw_transport *transport, const struct sockaddr_in *address, const lw_certificates *tls)
{
    /* taken as void *, only read */
    struct MHD_OptionItem secure[] = {{MHD_OPTION_HTTPS_MEM_CERT, 0, tls ? transport->leaf : NULL},
                                      {MHD_OPTION_HTTPS_MEM_KEY, 0, tls ? transport->leaf_key : NULL},
                                      {MHD_OPTION_HTTPS_PRIORITIES, 0, transport->priorities},
                                      {MHD_OPTION_END, 0, NULL}};
    if (!tls)
        secure[0].option = MHD_OPTION_END;
    return MHD_start_daemon(
        MHD_USE_EPOLL_INTERNAL_THREAD | MHD_ALLOW_SUSPEND_RESUME | MHD_USE_ERROR_LOG | (tls ? MHD_USE_TLS : 0U), 0,
        NULL, NULL, on_request, transport, MHD_OPTION_EXTERNAL_LOGGER, quiet, NULL, MHD_OPTION_SOCK_ADDR,
        (const struct sockaddr *)address, MHD_OPTION_THREAD_POOL_SIZE, (unsigned int)LW_SERVE_THREADS,
        MHD_OPTION_CONNECTION_LIMIT, (unsigned int)LW_SERVE_CONNECTIONS, MHD_OPTION_CONNECTION_TIMEOUT,
        (unsigned int)LW_SERVE_IDLE_S, MHD_OPTION_CONNECTION_MEMORY_LIMIT, (size_t)LW_SERVE_CONNECTION_BYTES,
        MHD_OPTION_STRICT_FOR_CLIENT, 1, MHD_OPTION_URI_LOG_CALLBACK, on_uri, transport, MHD_OPTION_NOTIFY_COMPLETED,
        on_completed, transport, MHD_OPTION_NOTIFY_CONNECTION, on_connection, transport, MHD_OPTION_ARRAY, secure,
        MHD_OPTION_END);
}

bool lw_transport_open(lw_transport *transport, lw_server *server, lw_door door, const lw_certificates *tls, int *port,
                       lw_error *err)
{
    struct sockaddr_in address = {.sin_family = AF_INET, .sin_port = htons((uint16_t)*port)};
    address.sin_addr.s_addr = htonl(door == LW_DOOR_LOCAL ? INADDR_LOOPBACK : INADDR_ANY);
    memset(transport, 0, sizeof *transport);
    transport->server = server;
    transport->door = door;
    transport->run = (uint32_t)clock_s();
    (void)snprintf(transport->priorities, sizeof transport->priorities,
                   "SECURE128:-VERS-ALL:+VERS-TLS1.3:+VERS-TLS1.2");
    if (tls) {
        memcpy(transport->leaf, tls->leaf, sizeof transport->leaf);
        memcpy(transport->leaf_key, tls->leaf_key, sizeof transport->leaf_key);
    }
    (void)pthread_mutex_init(&transport->stream_lock, NULL);
    lw_connections_begin(&transport->connections, LW_SERVE_CONNECTIONS);
    if (!lw_transport_aside_begin(transport))
        return lw_fail(err, LW_STORAGE, "", "The system gives no thread more.");
    transport->daemon = start(transport, &address, tls);
    if (!transport->daemon)
        lw_transport_aside_end(transport);
    if (!transport->daemon)
        return lw_fail(err, LW_STORAGE, "--port", "Port %d could not be opened: %s. Choose another with --port.", *port,
                       errno ? strerror(errno) : "it is in use");
    const union MHD_DaemonInfo *info = MHD_get_daemon_info(transport->daemon, MHD_DAEMON_INFO_BIND_PORT);
    if (info)
        *port = info->port;
    return true;
}

void lw_transport_sweep(lw_transport *transport)
{
    (void)lw_connections_sweep(&transport->connections, lw_steady_s());
    lw_transport_wake(transport);
}

void lw_transport_close(lw_transport *transport)
{
    if (!transport->daemon)
        return;
    const MHD_socket listening = MHD_quiesce_daemon(transport->daemon);
    if (listening != MHD_INVALID_SOCKET)
        (void)close(listening);
    (void)pthread_mutex_lock(&transport->stream_lock);
    transport->closing = true;
    (void)pthread_mutex_unlock(&transport->stream_lock);
    const struct timespec moment = {.tv_nsec = 20000000};
    for (int i = 0; i < LW_SERVE_LEAVE_MS / 20 && atomic_load(&transport->under_way) > 0; i++) {
        lw_transport_wake(transport);
        (void)nanosleep(&moment, NULL);
    }
    lw_transport_aside_end(transport);
    MHD_stop_daemon(transport->daemon);
    transport->daemon = NULL;
}
