/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Names of files that the desk writes.
 */
#ifndef LANEWICK_FILE_NAME_H
#define LANEWICK_FILE_NAME_H

#include <stddef.h>

/* Letters and digits of a lamp's name, at most 24; the rest becomes a hyphen. */
void lw_file_name_part(char *out, size_t size, const char *name);

#endif
