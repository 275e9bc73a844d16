/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Inside the desk: one slip on its way into the store.
 */
#ifndef LANEWICK_SLIP_INSIDE_H
#define LANEWICK_SLIP_INSIDE_H

#include "lanewick/desk_crate.h"
#include "lanewick/desk_slip.h"
#include "lanewick/slip_json.h"

typedef struct lw_slip_work {
    lw_store *store;
    lw_slip slip;
    lw_slip_reply *reply;
    lw_crate_record crate; /* what it made or found */
    lw_cell_record cell;
    lw_result_record results[LW_TEST_RESULTS];
    int count;
} lw_slip_work;

/* Makes the change inside the open transaction. True with reply->outcome other than TAKEN: undo it. */
LW_MUST_CHECK bool lw_slip_apply(lw_slip_work *work, lw_error *err);

/* The cell as people see it, as JSON; NULL: not there or memory is out. */
char *lw_slip_cell_json(lw_store *store, const char *code);

#endif
