/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A head worked out, written as an LM-63 file, drawn; a lane drawn.
 */
#ifndef LANEWICK_DESK_HEAD_H
#define LANEWICK_DESK_HEAD_H

#include "lanewick/canvas.h"
#include "lanewick/head_json.h"

/* A head document (lanewick.head/1) and its light; both in the arena. folder: where its file lies; NULL: no files. */
LW_MUST_CHECK bool lw_desk_head(const char *text, size_t length, const char *folder, lw_arena *arena, lw_head **head,
                                lw_head_light **light, lw_error *err);

/* The head's light as an LM-63-2019 file, written whole or not at all. date YYYY-MM-DD when the head states none. */
LW_MUST_CHECK bool lw_desk_head_write(const lw_head *head, const lw_head_light *light, const char *date,
                                      const char *path, lw_error *err);

#endif
