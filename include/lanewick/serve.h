/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The local server: the page and the JSON API (docs/serve.md, docs/api/). It answers on this machine only, unless the
 * local network is let in.
 */
#ifndef LANEWICK_SERVE_H
#define LANEWICK_SERVE_H

#include "lanewick/error.h"

#include <stdbool.h>

/* One line for the person at the laptop. */
typedef void lw_serve_tell(void *payload, const char *line);

typedef struct lw_serve_options {
    int port;            /* 1024..65000; 0: any free one (the line that is told names it) */
    bool lan;            /* let paired devices of the local network in: TLS on port + 1, how to trust it on port + 2 */
    const char *folder;  /* certificates and devices; needed with lan */
    const char *store;   /* file of the workshop's records; it may be missing */
    lw_serve_tell *tell; /* may be NULL */
    void *payload;
} lw_serve_options;

/* Serves until SIGINT or SIGTERM, which are taken from the whole process meanwhile; then answers what is under way
 * and returns true. LW_STORAGE when the port cannot be had. */
LW_MUST_CHECK bool lw_serve_run(const lw_serve_options *options, lw_error *err);

/* The page as one HTML file with everything inside; free(*html). LW_NOT_COMPUTABLE: the program was built without it.
 */
LW_MUST_CHECK bool lw_serve_single(char **html, size_t *length, lw_error *err);

#endif
