/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The doors of the server on real sockets, by libmicrohttpd. Moves bytes, decides nothing.
 */
#ifndef LANEWICK_SERVE_TRANSPORT_H
#define LANEWICK_SERVE_TRANSPORT_H

#include "certificates.h"
#include "connections.h"
#include "server.h"

#include <stdatomic.h>

struct MHD_Daemon;

typedef struct lw_transport {
    lw_server *server;
    lw_door door;
    struct MHD_Daemon *daemon;
    lw_connections connections;
    atomic_size_t body_bytes;  /* of all bodies held now */
    struct lw_stream *streams; /* that wait for something to tell */
    pthread_mutex_t stream_lock;
    size_t stream_count;
    bool closing;
    pthread_t aside; /* answers what waits for the disk, in order (transport_aside.c) */
    pthread_mutex_t aside_lock;
    pthread_cond_t aside_wake;
    struct lw_exchange *aside_first, *aside_last;
    bool aside_runs, aside_ends;
    atomic_int under_way; /* exchanges between headers and the end of their answer */
    atomic_uint requests; /* numbered from here */
    char leaf[LW_PEM_BYTES], leaf_key[LW_PEM_BYTES], priorities[80]; /* TLS; they live as long as the door */
    uint32_t run; /* tells one run's request numbers from another's */
} lw_transport;

/* Opens a door on the port (0: any), which is written back: the local one on loopback, the others on every address of
 * the machine. tls: NULL for plain. */
LW_MUST_CHECK bool lw_transport_open(lw_transport *transport, lw_server *server, lw_door door,
                                     const lw_certificates *tls, int *port, lw_error *err);
/* Streams look whether there is something to tell. */
void lw_transport_wake(lw_transport *transport);
/* Once a second. */
void lw_transport_sweep(lw_transport *transport);
/* Takes nothing new, lets what is under way end. */
void lw_transport_close(lw_transport *transport);

#endif
