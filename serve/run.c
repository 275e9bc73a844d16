/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The life of the server: opens its doors, sweeps slow connections once a second, ends on SIGINT or SIGTERM.
 */
#include "lanewick/serve.h"

#include "certificates.h"
#include "devices.h"
#include "jobs.h"
#include "keep.h"
#include "transport.h"

#include "lanewick/desk_slip_json.h"
#include "lanewick/figure_json.h"

#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <sys/resource.h>
#include <time.h>
#ifdef __GLIBC__
#include <malloc.h>
#endif

/* A connection is an open file; the usual limit of 1024 is raised as far as the system lets us. */
static void more_files(void)
{
    struct rlimit limit;
    if (getrlimit(RLIMIT_NOFILE, &limit) != 0 || limit.rlim_cur >= LW_SERVE_FILES)
        return;
    limit.rlim_cur = limit.rlim_max < LW_SERVE_FILES ? limit.rlim_max : LW_SERVE_FILES;
    (void)setrlimit(RLIMIT_NOFILE, &limit);
}

/* What a plan or a year of nights takes (tens of megabytes) goes back to the system when it is done. By itself the C
   library keeps it after the first such block is freed, and once more for each thread; here large blocks always come
   from the system, and all threads share two heaps. */
static void lean_memory(void)
{
#ifdef __GLIBC__
    (void)mallopt(M_MMAP_THRESHOLD, LW_SERVE_LARGE);
    (void)mallopt(M_ARENA_MAX, 2);
#endif
}

/* What lives as long as the server. */
typedef struct life {
    const lw_serve_options *options;
    lw_server server;
    lw_jobs jobs;
    lw_devices devices;
    lw_transport local, lan, install;
    lw_certificates certificates;
} life;

static void tell(const life *l, const char *format, ...) __attribute__((format(printf, 2, 3)));

static void tell(const life *l, const char *format, ...)
{
    char line[300];
    va_list rest;
    va_start(rest, format);
    (void)vsnprintf(line, sizeof line, format, rest);
    va_end(rest);
    if (l->options->tell)
        l->options->tell(l->options->payload, line);
}

static void on_change(void *payload)
{
    life *l = payload;
    lw_transport_wake(&l->local);
    if (l->lan.daemon)
        lw_transport_wake(&l->lan);
}

static void tell_lan(const life *l)
{
    const lw_server *server = &l->server;
    char code[LW_CODE];
    int64_t ends_s;
    if (server->names.count == 0)
        tell(l, "This machine is in no local network now: join the Wi-Fi of the workshop, and phones are let in by "
                "itself.");
    for (size_t i = 0; i < server->names.count; i++)
        tell(l, "Phones, once:   http://%s:%d/ tells how to trust this workshop", server->names.text[i],
             server->install_port);
    for (size_t i = 0; i < server->names.count; i++)
        tell(l, "Phones, always: https://%s:%d/", server->names.text[i], server->lan_port);
    lw_devices_open_code((lw_devices *)&l->devices, LW_ROLE_BENCH, time(NULL), code, &ends_s);
    tell(l, "Fingerprint:    %s", server->fingerprint);
    tell(l, "Code for one bench phone, ten minutes: %.4s-%.4s. More codes, other roles: http://127.0.0.1:%d/phones",
         code, code + 4, server->port);
}

static bool open_lan(life *l, lw_error *err)
{
    lw_server *server = &l->server;
    server->names = lw_addresses_now();
    if (!lw_certificates_ready(l->options->folder, &server->names, time(NULL), &l->certificates, err))
        return false;
    server->root = l->certificates.root;
    server->fingerprint = l->certificates.fingerprint;
    return lw_transport_open(&l->lan, server, LW_DOOR_LAN, &l->certificates, &server->lan_port, err) &&
           lw_transport_open(&l->install, server, LW_DOOR_INSTALL, NULL, &server->install_port, err);
}

static void close_lan(life *l)
{
    lw_transport_close(&l->lan);
    lw_transport_close(&l->install);
}

/* The network has changed or the certificate ends: its doors open anew, on the same ports. */
static void look_around(life *l)
{
    const lw_addresses now = lw_addresses_now();
    lw_error err = {0};
    if (!l->options->lan ||
        (lw_addresses_same(&now, &l->server.names) && l->certificates.leaf_ends_s > time(NULL) + 86400))
        return;
    close_lan(l);
    if (open_lan(l, &err))
        tell_lan(l);
    else
        tell(l, "%s", err.message);
}

static void until_stopped(life *l, const sigset_t *stop)
{
    const struct timespec second = {.tv_sec = 1};
    for (int beat = 1; sigtimedwait(stop, NULL, &second) < 0; beat++) {
        lw_transport_sweep(&l->local);
        if (l->lan.daemon)
            lw_transport_sweep(&l->lan);
        if (l->install.daemon)
            lw_transport_sweep(&l->install);
        if (beat % LW_SERVE_LOOK_S == 0)
            look_around(l);
    }
}

static bool serve(life *l, const sigset_t *stop, lw_error *err)
{
    const lw_serve_options *options = l->options;
    lw_server *server = &l->server;
    server->port = options->port;
    server->lan_port = options->port ? options->port + 1 : 0;
    server->install_port = options->port ? options->port + 2 : 0;
    server->jobs = &l->jobs;
    server->store = options->store;
    server->figures = lw_figure_list_json();
    server->devices = &l->devices;
    bool open = lw_transport_open(&l->local, server, LW_DOOR_LOCAL, NULL, &server->port, err);
    if (open)
        tell(l, "Open http://127.0.0.1:%d/ in a browser on this machine. Ctrl+C ends.", server->port);
    open = open && (!options->lan || open_lan(l, err));
    if (open && options->lan)
        tell_lan(l);
    if (open)
        until_stopped(l, stop);
    close_lan(l);
    lw_transport_close(&l->local);
    if (open)
        tell(l, "The server has ended.");
    return open;
}

bool lw_serve_run(const lw_serve_options *options, lw_error *err)
{
    if (options->port != 0 && !lw_in_range(err, "--port", options->port, 1024.0, 65000.0, ""))
        return false;
    life *l = calloc(1, sizeof *l);
    if (!l)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory for the server.");
    l->options = options;
    sigset_t stop, before;
    (void)sigemptyset(&stop);
    (void)sigaddset(&stop, SIGINT);
    (void)sigaddset(&stop, SIGTERM);
    (void)pthread_sigmask(SIG_BLOCK, &stop, &before); /* all threads from here on */
    more_files();
    lean_memory();
    const bool done = (!options->folder || lw_keep_open(options->folder, err)) &&
                      lw_devices_open(&l->devices, options->folder, err) &&
                      lw_jobs_begin(&l->jobs, options->store, on_change, l, err) && serve(l, &stop, err);
    lw_jobs_end(&l->jobs);
    lw_desk_visits_end();
    free(l->server.figures);
    free(l);
    (void)pthread_sigmask(SIG_SETMASK, &before, NULL);
    return done;
}
