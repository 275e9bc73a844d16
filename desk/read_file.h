/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Files that a document names.
 */
#ifndef LANEWICK_READ_FILE_H
#define LANEWICK_READ_FILE_H

#include "lanewick/error.h"

#include <stddef.h>

/* The path of a file named in a document of that folder; NULL: from here. */
void lw_file_beside(const char *folder, const char *name, char *path, size_t size);

typedef struct lw_file_ask {
    const char *field, *path; /* field: the key that names it */
    size_t most;              /* one byte more is read, so that its reader sees that it is too large */
    const char *advice;       /* told when it cannot be opened; "": nothing */
} lw_file_ask;

/* All of a file; free(*bytes), also when this fails. LW_WRONG_INPUT: not opened; LW_STORAGE: not read. */
LW_MUST_CHECK bool lw_read_file(const lw_file_ask *ask, char **bytes, size_t *length, lw_error *err);

#endif
