/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Open connections with the time by which each must have got on. Slow or half-open ones are closed by sweeping, so
 * that a thousand of them do not keep others out.
 */
#ifndef LANEWICK_SERVE_CONNECTIONS_H
#define LANEWICK_SERVE_CONNECTIONS_H

#include <pthread.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct lw_connection {
    struct lw_connection *before, *after;
    int socket;
    bool waiting;  /* for complete headers */
    int64_t due_s; /* closed after this; INT64_MAX: never */
} lw_connection;

typedef struct lw_connections {
    pthread_mutex_t lock;
    lw_connection first; /* ring */
    size_t count, most;
} lw_connections;

void lw_connections_begin(lw_connections *list, size_t most);
lw_connection *lw_connection_add(lw_connections *list, int socket, int64_t now_s); /* NULL: memory is out */
void lw_connection_drop(lw_connections *list, lw_connection *connection);
/* What the connection is doing from now on. */
void lw_connection_waits(lw_connections *list, lw_connection *connection, int64_t now_s);
void lw_connection_works(lw_connections *list, lw_connection *connection, int64_t now_s);
void lw_connection_streams(lw_connections *list, lw_connection *connection);
/* Closes what is overdue; in a crowd the headers' time is short. Returns how many. */
size_t lw_connections_sweep(lw_connections *list, int64_t now_s);

#endif
