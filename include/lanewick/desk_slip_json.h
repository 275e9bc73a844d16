/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * One slip from somebody who comes and goes, such as a phone: see lanewick/desk_slip.h.
 */
#ifndef LANEWICK_DESK_SLIP_JSON_H
#define LANEWICK_DESK_SLIP_JSON_H

#include "lanewick/error.h"

typedef enum lw_slip_outcome {
    LW_SLIP_TAKEN,    /* stored now, or before: the same answer */
    LW_SLIP_CONFLICT, /* somebody wrote otherwise meanwhile: a person decides */
    LW_SLIP_MISSING,  /* what it speaks of is not there */
    LW_SLIP_REUSED    /* its id came before with other content */
} lw_slip_outcome;

typedef struct lw_slip_reply {
    lw_slip_outcome outcome;
    bool again;                   /* it had been taken in before */
    char field[40], detail[320];  /* of anything but TAKEN */
    char *answer, *stored, *sent; /* JSON: of TAKEN; of CONFLICT, the two versions. lw_slip_reply_free() */
} lw_slip_reply;
void lw_slip_reply_free(lw_slip_reply *reply);

/* Takes in one slip (lanewick/slip_json.h) into the store of that name; the first crate makes the store. who: for the
 * journal, NULL: this machine's user. False: the slip itself is wrong (LW_WRONG_INPUT, LW_NOT_COMPUTABLE) or storage
 * failed; nothing is stored then. */
LW_MUST_CHECK bool lw_desk_slip_json(const char *store, const char *who, const char *text, size_t length,
                                     lw_slip_reply *reply, lw_error *err);

/* Closes the stores that are kept open between such visits: at the end of the program. */
void lw_desk_visits_end(void);

#endif
