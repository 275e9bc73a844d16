/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The life of the server: opens its doors, sweeps slow connections once a second, ends on SIGINT or SIGTERM.
 */
#include "lanewick/serve.h"

#include "transport.h"

#include <signal.h>
#include <stdio.h>
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

bool lw_serve_run(const lw_serve_options *options, lw_error *err)
{
    if (options->port != 0 && !lw_in_range(err, "--port", options->port, 1024.0, 65000.0, ""))
        return false;
    sigset_t stop, before;
    (void)sigemptyset(&stop);
    (void)sigaddset(&stop, SIGINT);
    (void)sigaddset(&stop, SIGTERM);
    (void)pthread_sigmask(SIG_BLOCK, &stop, &before); /* all threads from here on */
    more_files();
    lw_server server = {.port = options->port};
    static lw_transport local;
    const bool open = lw_transport_open(&local, &server, LW_DOOR_LOCAL, &server.port, err);
    if (open) {
        tell(options, "Open http://127.0.0.1:%d/ in a browser on this machine. Ctrl+C ends.", server.port);
        const struct timespec second = {.tv_sec = 1};
        while (sigtimedwait(&stop, NULL, &second) < 0)
            lw_transport_sweep(&local);
        lw_transport_close(&local);
        tell(options, "The server has ended.", 0);
    }
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
    return open;
}
