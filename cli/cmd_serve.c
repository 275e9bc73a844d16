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
    lw_cli_print("%s\n", line);
    (void)fflush(stdout); /* whoever waits for the address may be a script */
}

static bool read_port(const char *port, lw_serve_options *options, lw_error *err)
{
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

/* Where certificates and devices are kept: as given, else the user's folder for programs' data. */
static bool find_folder(const char *given, char *out, size_t size, lw_error *err)
{
    const char *data = getenv("XDG_DATA_HOME"), *home = getenv("HOME");
    int length = -1;
    if (given)
        length = snprintf(out, size, "%s", given);
    else if (data && data[0] == '/')
        length = snprintf(out, size, "%s/lanewick", data);
    else if (home && home[0] == '/')
        length = snprintf(out, size, "%s/.local/share/lanewick", home);
    return (length > 0 && (size_t)length < size) ||
           lw_fail(err, LW_WRONG_INPUT, "--folder", "Name a folder for certificates and devices with --folder.");
}

static int run(int argc, char **argv)
{
    char folder[512];
    const char *port, *given, *store;
    lw_error err = {0};
    lw_serve_options options = {.port = PORT, .tell = say, .folder = folder};
    options.lan = lw_cli_take_switch(&argc, argv, "--lan");
    if (!lw_cli_take_option(&argc, argv, "--port", &port, &err) ||
        !lw_cli_take_option(&argc, argv, "--folder", &given, &err) ||
        !lw_cli_take_option(&argc, argv, "--store", &store, &err) || !lw_cli_no_more_options(argc, argv, &err) ||
        !read_port(port, &options, &err) || !find_folder(given, folder, sizeof folder, &err))
        return lw_cli_fail(&err, false);
    const char *usual = getenv("LANEWICK_STORE");
    options.store = store ? store : usual && usual[0] ? usual : "lanewick.store";
    if (argc > 1) {
        (void)lw_fail(&err, LW_WRONG_INPUT, argv[1], "\"%.60s\" is not known here; see lanewick serve --help.",
                      argv[1]);
        return lw_cli_fail(&err, false);
    }
    return lw_serve_run(&options, &err) ? LW_EXIT_DONE : lw_cli_fail(&err, false);
}

const lw_command lw_cmd_serve = {
    .name = "serve",
    .summary = "the page and the JSON interface, for a browser on this machine",
    .usage = "lanewick serve              opens http://127.0.0.1:8642/ until Ctrl+C\n"
             "         --port N           another port, 1024 to 65000; 0: any free one, its number is printed\n"
             "         --lan              lets paired devices of the local network in, with TLS: port + 1; how to\n"
             "                            trust the workshop: port + 2\n"
             "         --folder DIR       certificates and paired devices (~/.local/share/lanewick)\n"
             "         --store FILE       the workshop's records; else $LANEWICK_STORE, else lanewick.store\n",
    .run = run,
};
