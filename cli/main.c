/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The command line: finds the verb in the table and runs it.
 */
#include "cli.h"

#include "commands.h"
#include "lanewick/figure.h"
#include "lanewick/version.h"

#include <signal.h>
#include <stdio.h>
#include <string.h>

static int help(void)
{
    lw_cli_print("lanewick plans solar lamps for village lanes from reclaimed parts.\n\n"
                 "usage: lanewick VERB [...]\n"
                 "       lanewick VERB --help\n"
                 "       lanewick --version\n\n");
    for (size_t i = 0; i < lw_command_count; i++)
        (void)printf("  %-10s %s\n", lw_commands[i]->name, lw_say(lw_cli_words(), lw_commands[i]->summary));
    lw_cli_print("\nResults go to standard output, messages to standard error. --json gives one JSON object.\n"
                 "--language en|fr|sw|ha speaks in that language this time; `lanewick language` keeps a choice.\n"
                 "Exit codes: 0 done, 1 some items failed or nothing found, 2 wrong usage or input, 3 refused for "
                 "safety, 4 storage.\n");
    return LW_EXIT_DONE;
}

static int unknown(const char *verb)
{
    const char *nearest = lw_commands[0]->name;
    for (size_t i = 1; i < lw_command_count; i++)
        if (lw_spelling_distance(lw_commands[i]->name, verb) < lw_spelling_distance(nearest, verb))
            nearest = lw_commands[i]->name;
    lw_cli_tell("lanewick: \"%.60s\" is not a verb of lanewick; did you mean \"%s\"? See lanewick --help.\n", verb,
                nearest);
    return LW_EXIT_WRONG;
}

/* --language of all verbs but sheet, where it is the language of what is printed, or several. */
static bool choose_language(int *argc, char **argv, lw_error *err)
{
    const char *code = NULL;
    if (*argc > 1 && strcmp(argv[1], "sheet") == 0)
        return true;
    return lw_cli_take_option(argc, argv, "--language", &code, err) && (!code || lw_cli_choose_language(code, err));
}

int main(int argc, char **argv)
{
    lw_error err = {0};
    (void)signal(SIGXFSZ, SIG_IGN); /* a file that may not grow is an error of writing, which leaves nothing behind */
    if (!choose_language(&argc, argv, &err))
        return lw_cli_fail(&err, false);
    if (argc < 2) {
        (void)help();
        return LW_EXIT_WRONG;
    }
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0)
        return help();
    if (strcmp(argv[1], "--version") == 0) {
        (void)puts("lanewick " LW_VERSION);
        return LW_EXIT_DONE;
    }
    for (size_t i = 0; i < lw_command_count; i++) {
        if (strcmp(lw_commands[i]->name, argv[1]) != 0)
            continue;
        int rest = argc - 1;
        if (lw_cli_take_switch(&rest, argv + 1, "--help") || lw_cli_take_switch(&rest, argv + 1, "-h"))
            return lw_cli_help(lw_commands[i], rest, argv + 1);
        const int code = lw_commands[i]->run(rest, argv + 1);
        if (fflush(stdout) != 0 || ferror(stdout)) {
            lw_cli_tell("lanewick: the output could not be written; is the disk full?\n");
            return LW_EXIT_STORAGE;
        }
        return code;
    }
    return unknown(argv[1]);
}
