/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Events of a job while it runs (server-sent events, WHATWG HTML 9.2). A stream that has nothing to tell is
 * suspended and holds no thread; each change of a job, and the sweep once a second, lets all of them look again.
 */
#include "transport_inside.h"

#include "jobs.h"

#include <limits.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct lw_stream {
    struct lw_stream *next; /* in the list of suspended ones */
    lw_transport *transport;
    struct MHD_Connection *connection;
    char job[LW_SERVE_JOB_ID];
    unsigned told; /* change of the job that was told last */
    bool ended;
    int64_t last_s; /* when something was said */
    char *text;     /* being sent */
    size_t length, sent;
} lw_stream;

void lw_transport_wake(lw_transport *transport)
{
    (void)pthread_mutex_lock(&transport->stream_lock);
    lw_stream *stream = transport->streams;
    transport->streams = NULL;
    while (stream) {
        lw_stream *next = stream->next;
        MHD_resume_connection(stream->connection);
        stream = next;
    }
    (void)pthread_mutex_unlock(&transport->stream_lock);
}

static void say(lw_stream *stream, const char *event, const char *data)
{
    free(stream->text);
    const size_t size = strlen(event) + strlen(data) + 32;
    stream->text = malloc(size);
    stream->sent = 0;
    stream->length = stream->text ? (size_t)snprintf(stream->text, size, "event: %s\ndata: %s\n\n", event, data) : 0;
    stream->last_s = lw_steady_s();
}

/* Puts the next words into text, if there are any. */
static void look(lw_stream *stream)
{
    lw_jobs *jobs = stream->transport->server->jobs;
    unsigned change = 0;
    bool ended = true;
    const bool known = lw_jobs_look(jobs, stream->job, &change, &ended);
    if (known && change == stream->told && !ended) {
        if (lw_steady_s() - stream->last_s >= LW_SERVE_BEAT_S)
            say(stream, "beat", "{}");
        return;
    }
    char *data = known ? lw_jobs_text(jobs, stream->job, false) : NULL;
    say(stream, ended ? "end" : "progress", data ? data : "{}");
    free(data);
    stream->told = change;
    stream->ended = ended;
}

static ssize_t read_stream(void *payload, uint64_t place, char *out, size_t most)
{
    lw_stream *stream = payload;
    lw_transport *transport = stream->transport;
    (void)place;
    if (stream->sent == stream->length && stream->ended)
        return MHD_CONTENT_READER_END_OF_STREAM;
    if (stream->sent == stream->length)
        look(stream);
    size_t count = stream->length - stream->sent;
    count = count < most ? count : most;
    if (count > 0) {
        memcpy(out, stream->text + stream->sent, count);
        stream->sent += count;
        return (ssize_t)count;
    }
    ssize_t answer = 0;
    unsigned change = 0;
    bool ended = true;
    (void)pthread_mutex_lock(&transport->stream_lock);
    if (transport->closing) {
        answer = MHD_CONTENT_READER_END_OF_STREAM;
    } else if (lw_jobs_look(transport->server->jobs, stream->job, &change, &ended) && change == stream->told) {
        /* nothing came in between: who changes a job wakes us after this lock */
        stream->next = transport->streams;
        transport->streams = stream;
        MHD_suspend_connection(stream->connection);
    }
    (void)pthread_mutex_unlock(&transport->stream_lock);
    return answer;
}

static void end_stream(void *payload)
{
    lw_stream *stream = payload;
    (void)pthread_mutex_lock(&stream->transport->stream_lock);
    stream->transport->stream_count--;
    (void)pthread_mutex_unlock(&stream->transport->stream_lock);
    free(stream->text);
    free(stream);
}

static lw_stream *new_stream(lw_transport *transport)
{
    lw_stream *stream = NULL;
    (void)pthread_mutex_lock(&transport->stream_lock);
    if (transport->stream_count < LW_SERVE_STREAMS && !transport->closing)
        stream = calloc(1, sizeof *stream);
    transport->stream_count += stream != NULL;
    (void)pthread_mutex_unlock(&transport->stream_lock);
    return stream;
}

enum MHD_Result lw_transport_stream(lw_exchange *exchange, struct MHD_Connection *connection, lw_http_response *out)
{
    lw_stream *stream = new_stream(exchange->transport);
    if (!stream) {
        const lw_http_request request = {.id = exchange->id};
        lw_answer_problem(out, &request, "busy", "", "Too many event streams are open; ask for the job instead.");
        return lw_transport_send(exchange, connection, out);
    }
    stream->transport = exchange->transport;
    stream->connection = connection;
    stream->told = UINT_MAX;
    stream->last_s = lw_steady_s();
    (void)snprintf(stream->job, sizeof stream->job, "%.32s", out->stream);
    struct MHD_Response *response =
        MHD_create_response_from_callback(MHD_SIZE_UNKNOWN, 1024, read_stream, stream, end_stream);
    if (!response) {
        end_stream(stream);
        return MHD_NO;
    }
    lw_connection_streams(&exchange->transport->connections, exchange->connection);
    lw_transport_fields(response, exchange, out);
    const enum MHD_Result queued = MHD_queue_response(connection, (unsigned int)out->status, response);
    MHD_destroy_response(response);
    return queued;
}
