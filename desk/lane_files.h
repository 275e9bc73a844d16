/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Heads and their LM-63 files.
 */
#ifndef LANEWICK_LANE_FILES_H
#define LANEWICK_LANE_FILES_H

#include "lanewick/head.h"
#include "lanewick/layout.h"

/* A head with its file, readings and bottle. */
bool lw_head_work_out(const lw_head *head, const char *folder, lw_arena *arena, lw_head_light **out, lw_error *err);
/* The heads of a wish with their LM-63 files (type C), readings and diffusers, in the arena; a file with folder NULL is
 * refused, for the document may come from elsewhere. */
bool lw_read_layout_heads(const char *folder, lw_layout_request *request, lw_arena *arena, lw_error *err);

#endif
