/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matched packs as JSON.
 */
#ifndef LANEWICK_MATCH_JSON_H
#define LANEWICK_MATCH_JSON_H

#include "lanewick/cell_csv.h"

/* groups[][] (cell ids, pack after pack), group_capacity_ah[], weakest_ah, bound_ah, spread_pct and more; free() it.
 * NULL when memory is out. */
LW_MUST_CHECK char *lw_match_to_json(const lw_cell_list *list, const lw_match_ask *ask, const lw_match *match);

/* packs, upper_bound and the keys of lw_match_to_json; free() it. */
LW_MUST_CHECK char *lw_count_to_json(const lw_cell_list *list, const lw_match_ask *ask, double need_ah,
                                     const lw_count *count);

/* What to mind when the cells are joined, one sentence each; NULL after the last. */
const char *lw_pack_caution(size_t i);

#endif
