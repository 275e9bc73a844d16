/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the parts of the server share, and the one function that answers a request.
 */
#ifndef LANEWICK_SERVE_SERVER_H
#define LANEWICK_SERVE_SERVER_H

#include "addresses.h"
#include "http.h"
#include "limits.h"

#include <stdatomic.h>

typedef struct lw_server {
    int port;                   /* of the local door */
    bool any_port;              /* tests: the port in Host is not looked at */
    struct lw_jobs *jobs;       /* the long computations */
    struct lw_devices *devices; /* NULL: there is only the person at the laptop */
    char *figures;              /* their descriptions, written once; NULL: written for each request */
    const char *store;          /* file of the workshop's records */
    atomic_int computing;       /* calculations of much memory that run now */
    /* of the local network; names.count 0: it is not let in */
    lw_addresses names;
    int lan_port, install_port;
    const char *root, *fingerprint; /* certificate as PEM, and its SHA-256 */
} lw_server;

/* One request on its way through the table of routes. */
typedef struct lw_call {
    lw_server *server;
    const lw_http_request *request;
    char path[LW_SERVE_URI_BYTES];
    char name[2][LW_SERVE_WORD]; /* the parts of the path that the route leaves open */
    lw_role role;
    char device[24];      /* id of the paired one who asks, "" at the laptop */
    char device_name[68]; /* and its name */
} lw_call;

typedef void lw_handler(const lw_call *call, lw_http_response *out);

typedef struct lw_route {
    const char *method, *pattern; /* "*" in the pattern: one open part */
    lw_role role;                 /* at least this */
    bool body;                    /* takes a JSON body */
    lw_handler *handler;
} lw_route;

/* Answers any request: checks, then a route of the table, or a file of the page. */
void lw_serve_answer(lw_server *server, const lw_http_request *request, lw_http_response *out);

/* The request will wait for the disk: it is answered aside, not to hold up the others. */
bool lw_serve_waits(const lw_http_request *request);

/* The checks that come before any work; false: out holds the problem. */
bool lw_guard_name(const lw_call *call, lw_http_response *out);   /* Host is one of ours */
bool lw_guard_origin(const lw_call *call, lw_http_response *out); /* our own page or no page at all sent it */
bool lw_guard_body(const lw_call *call, const lw_route *route, lw_http_response *out);
bool lw_guard_role(lw_call *call, const lw_route *route, lw_http_response *out);

/* A query key as a number in a range; fallback NAN: must be given unless optional. */
bool lw_call_number(const lw_call *call, const char *key, bool optional, double low, double high, double *out,
                    lw_error *err);

lw_handler lw_api_state, lw_api_language, lw_api_problems, lw_api_openapi;
lw_handler lw_api_figures, lw_api_figure, lw_api_figure_run;
lw_handler lw_api_pair, lw_api_owner, lw_api_passphrase, lw_api_code, lw_api_code_close;
lw_handler lw_api_crates, lw_api_cells, lw_api_cell, lw_api_tests, lw_api_tools, lw_api_runs, lw_api_slip;
lw_handler lw_api_packs, lw_api_pack_apart;
lw_handler lw_api_shelf, lw_api_shelf_change, lw_api_shelf_brief;
lw_handler lw_api_devices, lw_api_device_revoke;
lw_handler lw_api_climate, lw_api_places, lw_api_compute;
lw_handler lw_api_plan, lw_api_jobs, lw_api_job, lw_api_job_stop, lw_api_job_events, lw_api_job_packs;
lw_handler lw_api_sheets, lw_api_sheet;

/* A text of the query, fallback when it did not come. */
const char *lw_call_text(const lw_call *call, const char *key, const char *fallback, char out[LW_SERVE_WORD],
                         lw_error *err);

/* Files of the page, by exact path; false: none. */
bool lw_page_answer(const lw_call *call, lw_http_response *out);

/* The whole of the plain door on the local network. */
void lw_install_answer(const lw_call *call, lw_http_response *out);

#endif
