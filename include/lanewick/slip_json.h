/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Slips: what a person at the bench wrote down, one thing a slip, as a phone makes them without a connection. A slip
 * has an id of its own (UUID version 7), the wall-clock time of the writing, and a kind. docs/slips.md.
 */
#ifndef LANEWICK_SLIP_JSON_H
#define LANEWICK_SLIP_JSON_H

#include "lanewick/arena.h"
#include "lanewick/error.h"
#include "lanewick/records.h"

typedef enum lw_slip_kind {
    LW_SLIP_CRATE,  /* a new crate; its id is the slip's */
    LW_SLIP_CELL,   /* a new cell; its id is the slip's */
    LW_SLIP_CHANGE, /* of a cell: each field as it was seen and as it shall be */
    LW_SLIP_TEST,   /* readings of a cell; the test's id is the slip's */
    LW_SLIP_REMOVE, /* takes back a cell, a test, a discharge under way or a reading of it that was a mistake */
    LW_SLIP_RUN,    /* a discharge begins; its id is the slip's */
    LW_SLIP_READING /* the next reading of a discharge, or that it was disconnected */
} lw_slip_kind;
const char *lw_slip_kind_text(lw_slip_kind kind);

/* Fields of a cell that a change may name, in this order. */
enum { LW_SLIP_FIELDS = 9, LW_SLIP_READINGS = 5000 };
const char *lw_slip_field(int i); /* code, marking, voltage_class, shape, origin, look, note, found_v, rated_ah */
/* The text of field i (numbers: as %.9g, "" when not known). */
void lw_slip_field_get(const lw_cell_record *cell, int i, char out[LW_NOTE]);
/* Copies field i. */
void lw_slip_field_set(lw_cell_record *to, const lw_cell_record *from, int i);

/* What a test slip tells; NAN, "" and NULL: not told. */
typedef struct lw_slip_test {
    char method[16], meter[LW_WORD], resistor[LW_WORD], flag[24], note[LW_NOTE];
    const double *times_s, *volts_v, *amps_a;
    size_t n;
    double load_ohm, lead_ohm, end_v, temp_c, clock_s, open_before_v, open_after_v, open_after_s, capacity_ah,
        current_a;
    double pulse_v[2], pulse_a[2];
} lw_slip_test;

typedef struct lw_slip {
    char id[LW_ID], at[LW_STAMP];
    lw_slip_kind kind;
    lw_crate_record crate; /* CRATE: the new one; CELL: its code */
    lw_cell_record cell;   /* CELL: the new one; CHANGE: the fields as they shall be */
    lw_cell_record was;    /* CHANGE: the fields as they were seen */
    bool named[LW_SLIP_FIELDS];
    char target[LW_ID]; /* CHANGE, TEST, RUN: id of the cell; REMOVE: of the row; READING: of the run */
    lw_slip_test test;  /* RUN: the name of the resistor */
    lw_run_record run;  /* RUN; TEST: its id, of the discharge that the test finishes, "" for none */
    double volts;       /* READING; NAN: disconnected */
} lw_slip;

/* One slip; lists go to the arena. Errors name the key. */
LW_MUST_CHECK bool lw_slip_from_json(const char *text, size_t length, lw_arena *arena, lw_slip *out, lw_error *err);

/* The slip in one way of writing, however it was spaced: what is kept of it, to tell a slip that comes again from
 * another with its id. free() it; NULL: no JSON, or memory is out. */
LW_MUST_CHECK char *lw_slip_document(const char *text, size_t length);

/* A bundle of slips, {"format": "lanewick.slips/1", "slips": [...]}: calls each with every slip as a text of its own,
 * in order; false from it stops. */
enum { LW_SLIPS_MOST = 100000 };
LW_MUST_CHECK bool lw_slips_each(const char *text, size_t length,
                                 bool (*each)(void *payload, size_t i, const char *slip, size_t length), void *payload,
                                 lw_error *err);

/* {"id", "kind", "crate"?, "cell"?, "run"?, "results"}: what is stored now, from texts of records_json.h (may be NULL),
 * which it frees; free() it. */
LW_MUST_CHECK char *lw_slip_answer_to_json(const lw_slip *slip, char *crate, char *cell, char *run,
                                           const char *results);

#endif
