/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Matched packs with their duty as JSON.
 */
#ifndef LANEWICK_DUTY_JSON_H
#define LANEWICK_DUTY_JSON_H

#include "lanewick/cell_csv.h"
#include "lanewick/duty.h"

/* The keys of lw_match_to_json() and "duty"; free() it. NULL when memory is out. */
LW_MUST_CHECK char *lw_match_duty_to_json(const lw_cell_list *list, const lw_match_ask *ask, const lw_match *match,
                                          const lw_duty *duty);

#endif
