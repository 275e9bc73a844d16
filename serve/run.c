/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The life of the server: opens its doors, sweeps slow connections once a second, ends on SIGINT or SIGTERM.
 */
#include "lanewick/serve.h"

#include "jobs.h"
#include "transport.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>

/* A connection is an open file; the usual limit of 1024 is raised as far as the system lets us. */
static void more_files(void)
{
    struct rlimit limit;
    if (getrlimit(RLIMIT_NOFILE, &limit) != 0 || limit.rlim_cur >= LW_SERVE_FILES)
        return;
    limit.rlim_cur = limit.rlim_max < LW_SERVE_FILES ? limit.rlim_max : LW_SERVE_FILES;
    (void)setrlimit(RLIMIT_NOFILE, &limit);
}

static void tell(const lw_serve_options *options, const char *format, int port)
{
    char line[200];
    (void)snprintf(line, sizeof line, format, port);
    if (options->tell)
        options->tell(options->payload, line);
}

/* What lives as long as the server. */
typedef struct life {
    lw_server server;
    lw_jobs jobs;
    lw_transport local;
} life;

static void on_change(void *payload)
{
    life *l = payload;
    lw_transport_wake(&l->local);
}

static bool serve(life *l, const lw_serve_options *options, const sigset_t *stop, lw_error *err)
{
    l->server.port = options->port;
    l->server.jobs = &l->jobs;
    if (!lw_transport_open(&l->local, &l->server, LW_DOOR_LOCAL, &l->server.port, err))
        return false;
    tell(options, "Open http://127.0.0.1:%d/ in a browser on this machine. Ctrl+C ends.", l->server.port);
    const struct timespec second = {.tv_sec = 1};
    while (sigtimedwait(stop, NULL, &second) < 0)
        lw_transport_sweep(&l->local);
    lw_transport_close(&l->local);
    tell(options, "The server has ended.", 0);
    return true;
}

bool lw_serve_run(const lw_serve_options *options, lw_error *err)
{
    if (options->port != 0 && !lw_in_range(err, "--port", options->port, 1024.0, 65000.0, ""))
        return false;
    life *l = calloc(1, sizeof *l);
    if (!l)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for the server.");
    sigset_t stop, before;
    (void)sigemptyset(&stop);
    (void)sigaddset(&stop, SIGINT);
    (void)sigaddset(&stop, SIGTERM);
    (void)pthread_sigmask(SIG_BLOCK, &stop, &before); /* all threads from here on */
    more_files();
    const bool done = lw_jobs_begin(&l->jobs, on_change, l, err) && serve(l, options, &stop, err);
    lw_jobs_end(&l->jobs);
    free(l);
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
    return done;
}
