/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Taking in slips (lanewick/slip_json.h), each exactly once: a slip, what it changes, the new verdict of its cell and
 * the answer are stored in one transaction. docs/slips.md.
 */
#ifndef LANEWICK_DESK_SLIP_H
#define LANEWICK_DESK_SLIP_H

#include "lanewick/desk_slip_json.h"
#include "lanewick/store.h"

/* False: the slip itself is wrong (LW_WRONG_INPUT, LW_NOT_COMPUTABLE) or storage failed; nothing is stored then. */
LW_MUST_CHECK bool lw_desk_slip(lw_store *store, const char *text, size_t length, lw_slip_reply *reply, lw_error *err);

/* A bundle, or several one after another, each from the start of a line, in their order; told of every slip that waits.
 * A slip that is not taken stops nothing, but later slips about the same cell wait with it. */
typedef struct lw_slips_report {
    int taken, again, waiting;
} lw_slips_report;
typedef void lw_slip_told(void *payload, size_t i, const char *problem);
LW_MUST_CHECK bool lw_desk_slips(lw_store *store, const char *text, size_t length, lw_slip_told *told, void *payload,
                                 lw_slips_report *report, lw_error *err);

#endif
