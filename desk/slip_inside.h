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
    char *run; /* JSON of a discharge under way, NULL: none; freed by who answers */
} lw_slip_work;

/* Makes the change inside the open transaction. True with reply->outcome other than TAKEN: undo it. */
LW_MUST_CHECK bool lw_slip_apply(lw_slip_work *work, lw_error *err);

/* Sets the outcome with its word; true. */
bool lw_slip_reply_with(lw_slip_work *work, lw_slip_outcome outcome, const char *field, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

/* Discharges under way (slip_run.c); what goes wrong is as with lw_slip_apply. */
LW_MUST_CHECK bool lw_slip_apply_run(lw_slip_work *work, lw_error *err);
LW_MUST_CHECK bool lw_slip_apply_reading(lw_slip_work *work, lw_error *err);
/* The word that the discharge of that id is not under way: it is over, or was never there. */
LW_MUST_CHECK bool lw_slip_run_is_over(lw_slip_work *work, const char *id, lw_error *err);
/* Takes the discharge of that id out of the ones under way, with its readings; *found: there was one. */
LW_MUST_CHECK bool lw_slip_end_run(lw_slip_work *work, const char *id, bool *found, lw_error *err);
/* Takes back the reading that the slip names; *found: there was one. */
LW_MUST_CHECK bool lw_slip_remove_reading(lw_slip_work *work, bool *found, lw_error *err);

/* The cell as people see it, as JSON; NULL: not there or memory is out. */
char *lw_slip_cell_json(lw_store *store, const char *code);

#endif
