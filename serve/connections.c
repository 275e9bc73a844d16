/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Open connections and their times: see connections.h. A socket is shut down, not closed: its owner, the HTTP
 * library, sees the end, tells us (lw_connection_drop) and closes it.
 */
#include "connections.h"

#include "limits.h"

#include <stdlib.h>
#include <sys/socket.h>

void lw_connections_begin(lw_connections *list, size_t most)
{
    *list = (lw_connections){.most = most};
    list->first.before = list->first.after = &list->first;
    (void)pthread_mutex_init(&list->lock, NULL);
}

lw_connection *lw_connection_add(lw_connections *list, int socket, int64_t now_s)
{
    lw_connection *one = malloc(sizeof *one);
    if (!one)
        return NULL;
    (void)pthread_mutex_lock(&list->lock);
    *one = (lw_connection){.before = list->first.before,
                           .after = &list->first,
                           .socket = socket,
                           .waiting = true,
                           .due_s = now_s + LW_SERVE_HEADERS_S};
    one->before->after = one;
    one->after->before = one;
    list->count++;
    (void)pthread_mutex_unlock(&list->lock);
    return one;
}

void lw_connection_drop(lw_connections *list, lw_connection *connection)
{
    if (!connection)
        return;
    (void)pthread_mutex_lock(&list->lock);
    connection->before->after = connection->after;
    connection->after->before = connection->before;
    list->count--;
    (void)pthread_mutex_unlock(&list->lock);
    free(connection);
}

static void set(lw_connections *list, lw_connection *connection, bool waiting, int64_t due_s)
{
    if (!connection)
        return;
    (void)pthread_mutex_lock(&list->lock);
    connection->waiting = waiting;
    connection->due_s = due_s;
    (void)pthread_mutex_unlock(&list->lock);
}

void lw_connection_waits(lw_connections *list, lw_connection *connection, int64_t now_s)
{
    set(list, connection, true, now_s + LW_SERVE_HEADERS_S);
}

void lw_connection_works(lw_connections *list, lw_connection *connection, int64_t now_s)
{
    set(list, connection, false, now_s + LW_SERVE_EXCHANGE_S);
}

void lw_connection_streams(lw_connections *list, lw_connection *connection)
{
    set(list, connection, false, INT64_MAX);
}

size_t lw_connections_sweep(lw_connections *list, int64_t now_s)
{
    size_t closed = 0;
    (void)pthread_mutex_lock(&list->lock);
    const bool crowded = 4 * list->count > 3 * list->most;
    for (lw_connection *one = list->first.after; one != &list->first; one = one->after) {
        const int64_t less = crowded && one->waiting ? LW_SERVE_HEADERS_S - LW_SERVE_CROWDED_S : 0;
        if (one->due_s == INT64_MAX || one->due_s - less > now_s)
            continue;
        (void)shutdown(one->socket, SHUT_RDWR);
        one->due_s = INT64_MAX;
        closed++;
    }
    (void)pthread_mutex_unlock(&list->lock);
    return closed;
}
