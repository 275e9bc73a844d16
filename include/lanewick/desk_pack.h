/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wishes about packs: from the bytes of a list of cells to matched groups, for every door alike.
 */
#ifndef LANEWICK_DESK_PACK_H
#define LANEWICK_DESK_PACK_H

#include "lanewick/cell_csv.h"
#include "lanewick/duty.h"
#include "lanewick/pack_nights.h"

/* Bytes of arena that a list of this text needs for reading and matching; 0: the text is too long. */
size_t lw_desk_pack_memory(const char *bytes, size_t length);

/* Bytes of arena for matching so many cells. */
size_t lw_desk_match_memory(size_t cells);

/* Reads the list, puts its cells into ask and matches or counts. */
LW_MUST_CHECK bool lw_desk_pack_match(const char *bytes, size_t length, lw_match_ask *ask, lw_arena *arena,
                                      lw_cell_list *list, lw_match *match, lw_error *err);
LW_MUST_CHECK bool lw_desk_pack_count(const char *bytes, size_t length, lw_match_ask *ask, double need_ah,
                                      lw_arena *arena, lw_cell_list *list, lw_count *count, lw_error *err);

/* The matched packs in their duty, see lanewick/duty.h. */
LW_MUST_CHECK bool lw_desk_pack_duty(const lw_match_ask *ask, const lw_match *match, const lw_duty_ask *duty,
                                     lw_arena *arena, lw_duty *out, lw_error *err);

/* Matches the cells, puts the real groups into the lamp's system and runs its nights, today and in each planned year;
 * the same for the cells as they come. The arena needs lw_desk_pack_memory() and LW_DESK_PACK_NIGHTS_BYTES.
 * LW_REFUSED: the lamp would charge or empty these cells beyond the limits of their class. */
enum { LW_DESK_PACK_NIGHTS_BYTES = 12 << 20 };
LW_MUST_CHECK bool lw_desk_pack_nights(const char *bytes, size_t length, lw_pack_nights_ask *ask, lw_arena *arena,
                                       lw_cell_list *list, lw_pack_nights *out, lw_error *err);

#endif
