/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Every limit of the server by name. What goes beyond one is answered with a problem or closed, never kept.
 */
#ifndef LANEWICK_SERVE_LIMITS_H
#define LANEWICK_SERVE_LIMITS_H

enum {
    LW_SERVE_PORT = 8642,              /* when none is given */
    LW_SERVE_URI_BYTES = 2048,         /* path and query as they came */
    LW_SERVE_CONNECTION_BYTES = 24576, /* request line, headers and answer headers of one connection */
    LW_SERVE_BODY_BYTES = 4 << 20,     /* one body */
    LW_SERVE_DROP_BYTES = 64 << 20,    /* a body that says it is larger is not even read */
    LW_SERVE_BODIES_BYTES = 32 << 20,  /* all bodies held at one time */
    LW_SERVE_CONNECTIONS = 1536,       /* of one door */
    LW_SERVE_LARGE = 1 << 18,          /* bytes of a block that goes back to the system when it is freed */
    LW_SERVE_FILES = 4096,             /* open files asked of the system */
    LW_SERVE_THREADS = 4,              /* that answer, for each door */
    LW_SERVE_IDLE_S = 20,              /* nothing moves on a connection */
    LW_SERVE_HEADERS_S = 20,           /* from connecting (or the last answer) to complete headers */
    LW_SERVE_CROWDED_S = 2,            /* the same while three quarters of the connections are taken */
    LW_SERVE_EXCHANGE_S = 120,         /* from headers to the end of the answer; event streams are exempt */
    LW_SERVE_LEAVE_MS = 5000,          /* at the end, for what is under way */
    LW_SERVE_ARENA_BYTES = 32 << 20,   /* memory of one small calculation, touched only as far as it is used */
    LW_SERVE_JOBS = 32,                /* waiting, running and remembered; the oldest that ended makes room */
    LW_SERVE_JOB_ID = 33,              /* 128 random bits in hexadecimal and the end */
    LW_SERVE_STREAMS = 64,             /* event streams of one door */
    LW_SERVE_BEAT_S = 10,              /* a stream with nothing to tell says so, that the dead are found */
    LW_SERVE_LOOK_S = 10,              /* how often the addresses of the machine are looked at */
    LW_SERVE_COMPUTING = 2,            /* calculations that take much memory at one time */
    LW_SERVE_WORD = 64,                /* a name in a path, a key in a query */
};

#endif
