/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick serve: the page and the JSON API for this machine.
 */
#include "cli.h"

#include "lanewick/serve.h"

#include <stdio.h>
#include <stdlib.h>

enum { PORT = 8642 };

static void say(void *payload, const char *line)
{
    (void)payload;
    (void)puts(line);
    (void)fflush(stdout); /* whoever waits for the address may be a script */
}

static bool read_options(int *argc, char **argv, lw_serve_options *options, lw_error *err)
{
    const char *port;
    if (!lw_cli_take_option(argc, argv, "--port", &port, err) || !lw_cli_no_more_options(*argc, argv, err))
        return false;
    if (*argc > 1)
        return lw_fail(err, LW_WRONG_INPUT, argv[1], "\"%.60s\" is not known here; see lanewick serve --help.",
                       argv[1]);
    if (!port)
        return true;
    char *end = NULL;
    const long number = strtol(port, &end, 10);
    if (end == port || *end != '\0' || number < 0 || number > 65000)
        return lw_fail(err, LW_WRONG_INPUT, "--port",
                       "--port is \"%.40s\"; it must be a whole number from 1024 to 65000.", port);
    options->port = (int)number;
    return true;
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    lw_serve_options options = {.port = PORT, .tell = say};
    if (!read_options(&argc, argv, &options, &err) || !lw_serve_run(&options, &err))
        return lw_cli_fail(&err, false);
    return LW_EXIT_DONE;
}

const lw_command lw_cmd_serve = {
    .name = "serve",
    .summary = "the page and the JSON interface, for a browser on this machine",
    .usage = "lanewick serve              opens http://127.0.0.1:8642/ until Ctrl+C\n"
             "         --port N           another port, 1024 to 65000; 0: any free one, its number is printed\n",
    .run = run,
};
