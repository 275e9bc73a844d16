/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The keys of matched packs, for every document that holds them.
 */
#ifndef LANEWICK_MATCH_PUT_H
#define LANEWICK_MATCH_PUT_H

#include "json_help.h"

#include "lanewick/match_json.h"

void lw_json_put_match(json_t *object, const lw_cell_list *list, const lw_match_ask *ask, const lw_match *match);

#endif
