/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The table of verbs.
 */
#ifndef LANEWICK_COMMANDS_H
#define LANEWICK_COMMANDS_H

#include "cli.h"

extern const lw_command *const lw_commands[];
extern const size_t lw_command_count;

/* Help of one verb; `figure NAME --help` shows that figure. */
int lw_cli_help(const lw_command *command, int argc, char **argv);
int lw_figure_help(const char *name);

#endif
