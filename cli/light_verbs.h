/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The parts of lanewick light that have their own files.
 */
#ifndef LANEWICK_LIGHT_VERBS_H
#define LANEWICK_LIGHT_VERBS_H

#include "cli.h"

#include "lanewick/desk_head.h"

typedef struct lw_light_options {
    const char *out;         /* LM-63 file to write, NULL: none */
    lw_picture_wish picture; /* path NULL: none */
    bool json, tolerant;
} lw_light_options;

/* Each returns the exit code. */
int lw_light_head(const char *path, const lw_light_options *options);

#endif
