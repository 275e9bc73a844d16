/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick pack nights.
 */
#ifndef LANEWICK_CLI_PACK_NIGHTS_H
#define LANEWICK_CLI_PACK_NIGHTS_H

/* argv[0] is the verb pack, argv[1] is nights; returns the exit code. */
int lw_cli_pack_nights(int argc, char **argv);

#endif
