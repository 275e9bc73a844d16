/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * lanewick plan --if: see plan_if.c.
 */
#ifndef LANEWICK_PLAN_IF_H
#define LANEWICK_PLAN_IF_H

#include "lanewick/desk.h"
#include "lanewick/words.h"

/* change: "20 W panel=36000", "20 W panel=+50%". Prints what all lamps cost as they are planned now and when they are
 * planned anew. Errors: no such part; LW_REFUSED: the brief has no plan. */
LW_MUST_CHECK bool lw_cli_plan_if(const lw_plan_request *request, const char *change, const lw_words *words, bool json,
                                  lw_error *err);

#endif
