/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick page: the page as one file.
 */
#include "cli.h"

#include "lanewick/desk.h"
#include "lanewick/serve.h"

#include <stdio.h>
#include <stdlib.h>

static bool write_single(const char *path, bool json, lw_error *err)
{
    char *html = NULL;
    size_t length = 0;
    const bool done =
        lw_serve_single(&html, &length, err) && lw_desk_write_path(path, (const unsigned char *)html, length, err);
    free(html);
    if (!done)
        return false;
    if (json)
        (void)printf("{\"bytes\":%zu}\n", length);
    else
        lw_cli_print("%s is there, %.1f MB. It opens without this program; its readings come back with `lanewick crate "
                     "slips`.\n",
                     path, (double)length / 1e6);
    return true;
}

static int run(int argc, char **argv)
{
    lw_error err = {0};
    const char *path = NULL;
    const bool json = lw_cli_take_switch(&argc, argv, "--json");
    if (!lw_cli_take_option(&argc, argv, "--single", &path, &err) || !lw_cli_no_more_options(argc, argv, &err) ||
        ((!path || argc > 1) &&
         !lw_fail(&err, LW_WRONG_INPUT, "--single", "Name the file: lanewick page --single FILE.html.")) ||
        !write_single(path, json, &err))
        return lw_cli_fail(&err, json);
    return LW_EXIT_DONE;
}

const lw_command lw_cmd_page = {
    .name = "page",
    .summary = "the page as one file that passes from phone to phone, without a server",
    .usage =
        "usage: lanewick page --single FILE.html [--json]\n\n"
        "  --single FILE.html   writes it: cells and readings at the bench, all figures and the sun of a place work\n"
        "                       in it without any connection. Its readings come back as a file or as a run of codes;\n"
        "                       lanewick crate slips FILE takes them in, each exactly once\n",
    .run = run,
};
