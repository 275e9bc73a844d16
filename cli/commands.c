/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table of verbs: one line each.
 */
#include "commands.h"

#include <stdio.h>

/* clang-format off */
const lw_command *const lw_commands[] = {
    &lw_cmd_figure,
    &lw_cmd_cell,
    &lw_cmd_pack,
    &lw_cmd_crate,
    &lw_cmd_light,
    &lw_cmd_nights,
    &lw_cmd_circuit,
    &lw_cmd_mast,
    &lw_cmd_plan,
    &lw_cmd_sheet,
    &lw_cmd_board,
    &lw_cmd_serve,
    &lw_cmd_page,
    &lw_cmd_language,
    &lw_cmd_shelf,
};
/* clang-format on */

const size_t lw_command_count = sizeof lw_commands / sizeof lw_commands[0];

int lw_cli_help(const lw_command *command, int argc, char **argv)
{
    if (command == &lw_cmd_figure && argc >= 2)
        return lw_figure_help(argv[1]);
    (void)printf("lanewick %s: %s\n\n", command->name, lw_say(lw_cli_words(), command->summary));
    lw_cli_print_usage(command->usage);
    return LW_EXIT_DONE;
}
