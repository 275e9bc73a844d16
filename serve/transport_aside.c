/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Answers that wait for the disk, one after another on a thread of their own: their connections are suspended meanwhile
 * and hold none of the threads that answer everybody else. So fifty phones that write do not keep a reader waiting, and
 * writers do not stand in each other's way at the store.
 */
#include "transport_inside.h"

static lw_exchange *next_of(lw_transport *transport)
{
    (void)pthread_mutex_lock(&transport->aside_lock);
    while (!transport->aside_first && !transport->aside_ends)
        (void)pthread_cond_wait(&transport->aside_wake, &transport->aside_lock);
    lw_exchange *exchange = transport->aside_first;
    if (exchange)
        transport->aside_first = exchange->next;
    (void)pthread_mutex_unlock(&transport->aside_lock);
    return exchange;
}

static void *work(void *payload)
{
    lw_transport *transport = payload;
    for (lw_exchange *exchange; (exchange = next_of(transport)) != NULL;) {
        struct MHD_Connection *connection = exchange->handle; /* the exchange may be gone after the next lines */
        lw_serve_answer(transport->server, &exchange->request, &exchange->out);
        exchange->answered = true;
        MHD_resume_connection(connection);
    }
    return NULL;
}

bool lw_transport_aside_begin(lw_transport *transport)
{
    (void)pthread_mutex_init(&transport->aside_lock, NULL);
    (void)pthread_cond_init(&transport->aside_wake, NULL);
    transport->aside_runs = pthread_create(&transport->aside, NULL, work, transport) == 0;
    return transport->aside_runs;
}

/* What waits is still answered. */
void lw_transport_aside_end(lw_transport *transport)
{
    if (!transport->aside_runs)
        return;
    (void)pthread_mutex_lock(&transport->aside_lock);
    transport->aside_ends = true;
    (void)pthread_cond_signal(&transport->aside_wake);
    (void)pthread_mutex_unlock(&transport->aside_lock);
    (void)pthread_join(transport->aside, NULL);
    transport->aside_runs = false;
}

bool lw_transport_aside(lw_exchange *exchange, struct MHD_Connection *connection, const lw_http_request *request)
{
    lw_transport *transport = exchange->transport;
    (void)pthread_mutex_lock(&transport->aside_lock);
    const bool taken = transport->aside_runs && !transport->aside_ends;
    if (taken) {
        exchange->request = *request;
        exchange->handle = connection;
        exchange->next = NULL;
        MHD_suspend_connection(connection);
        if (transport->aside_first)
            transport->aside_last->next = exchange;
        else
            transport->aside_first = exchange;
        transport->aside_last = exchange;
        (void)pthread_cond_signal(&transport->aside_wake);
    }
    (void)pthread_mutex_unlock(&transport->aside_lock);
    return taken;
}
