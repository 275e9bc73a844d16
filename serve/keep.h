/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The server's own small files (certificates, devices) in a folder that only its owner can read. Each is written
 * whole or not at all.
 */
#ifndef LANEWICK_SERVE_KEEP_H
#define LANEWICK_SERVE_KEEP_H

#include "lanewick/error.h"

#include <stdbool.h>
#include <stddef.h>

enum { LW_KEEP_BYTES = 65536 }; /* of one file */

/* Makes the folder (and those above it) when missing; LW_STORAGE when others may write there. */
LW_MUST_CHECK bool lw_keep_open(const char *folder, lw_error *err);
/* The file's text, free(*text); *text NULL: there is none. false: there, but cannot be read or is too large. */
LW_MUST_CHECK bool lw_keep_read(const char *folder, const char *name, char **text, lw_error *err);
LW_MUST_CHECK bool lw_keep_write(const char *folder, const char *name, const char *text, lw_error *err);

#endif
