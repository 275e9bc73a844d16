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
    const char *brief;       /* for a search with the nights, NULL: none */
    uint64_t seed;
    bool json, tolerant;
} lw_light_options;

/* Reads a document; files that it names stand in its folder. */
bool lw_light_document(const char *path, char **bytes, size_t *length, char *folder, size_t size, lw_error *err);

/* Each returns the exit code. */
int lw_light_search(const char *path, const lw_light_options *options);
int lw_light_head(const char *path, const lw_light_options *options);

#endif
