/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head's light from its LM-63 file.
 */
#ifndef LANEWICK_LANE_FILES_H
#define LANEWICK_LANE_FILES_H

#include "lanewick/head.h"
#include "lanewick/layout.h"
#include "lanewick/lm63.h"

/* Reads folder/name (folder NULL: refused, for the document may come from elsewhere) of type C into the arena. */
bool lw_read_head_file(const char *folder, const char *name, lw_arena *arena, lw_lm63 **out, lw_error *err);
/* A head with its file, readings and bottle. */
bool lw_head_work_out(const lw_head *head, const char *folder, lw_arena *arena, lw_head_light **out, lw_error *err);
/* The files of a wish's heads. */
bool lw_read_layout_heads(const char *folder, lw_layout_request *request, lw_arena *arena, lw_error *err);

#endif
