/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A plan computed anew for the verbs that work from one.
 */
#ifndef LANEWICK_PLAN_LOAD_H
#define LANEWICK_PLAN_LOAD_H

#include "lanewick/plan.h"

/* From a plan as written by lanewick plan --out, or from a brief. */
LW_MUST_CHECK bool lw_cli_load_plan(const char *path, lw_plan *plan, lw_error *err);

#endif
