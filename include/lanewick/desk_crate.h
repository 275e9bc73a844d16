/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wishes about crates and their cells, for every door alike: intake, the bench prompt, tests, verdicts, packs.
 * Each wish is one transaction. docs/crate.md.
 */
#ifndef LANEWICK_DESK_CRATE_H
#define LANEWICK_DESK_CRATE_H

#include "lanewick/match.h"
#include "lanewick/plan_packs.h"
#include "lanewick/store.h"
#include "lanewick/verdict.h"

/* --- intake ---------------------------------------------------------------------------------------------------- */

/* The record of that code; LW_WRONG_INPUT when there is none. */
LW_MUST_CHECK bool lw_desk_crate(lw_store *store, const char *code, lw_crate_record *out, lw_error *err);
LW_MUST_CHECK bool lw_desk_cell(lw_store *store, const char *code, lw_cell_record *out, lw_error *err);
LW_MUST_CHECK bool lw_desk_instrument(lw_store *store, const char *name, lw_instrument_record *out, lw_error *err);

/* Checks and stores a new cell of the crate; found_at is now when a voltage is given without a date. */
LW_MUST_CHECK bool lw_desk_cell_add(lw_store *store, const char *crate, lw_cell_record *cell, lw_error *err);

typedef struct lw_import_request {
    const char *crate, *bytes;
    size_t length;
    const char *map;       /* "code=Label,volts=U"; NULL: none */
    lw_cell_record common; /* what holds for rows that do not tell it */
    bool dry_run;          /* do everything, store nothing */
    void (*refused)(void *payload, int line, const char *reason);
    void *payload;
} lw_import_request;
typedef struct lw_import_report {
    int good, refused;
    bool stored;
    char taken[LW_NOTE], passed[LW_NOTE]; /* columns used and not used */
} lw_import_report;
/* All rows or none: one refused row, and nothing is stored (report->stored false; no error). An error means that the
 * file as a whole cannot be read or the disk failed. */
LW_MUST_CHECK bool lw_desk_import(lw_store *store, const lw_import_request *request, lw_import_report *report,
                                  lw_error *err);

/* --- the bench prompt ------------------------------------------------------------------------------------------ */

enum { LW_ENTRY_UNDOS = 50, LW_ENTRY_REPLY = 2000 };
typedef struct lw_entry_step { /* what undoing puts back */
    bool made_cell, made_test;
    char made[LW_ID];
    lw_cell_record before;
} lw_entry_step;
typedef struct lw_entry {
    lw_store *store;
    lw_crate_record crate;
    lw_cell_record cell; /* the one in hand; id "" for none */
    char repeat[LW_NOTE];
    lw_entry_step steps[LW_ENTRY_UNDOS];
    int undos; /* steps that can be taken back */
} lw_entry;
LW_MUST_CHECK bool lw_entry_begin(lw_entry *entry, lw_store *store, const char *crate, lw_error *err);
/* One typed line; reply says what was understood, or why nothing was stored. An accepted line is stored when this
 * returns. False: the person is done. */
bool lw_entry_line(lw_entry *entry, const char *line, char reply[LW_ENTRY_REPLY]);

/* --- tests ----------------------------------------------------------------------------------------------------- */

typedef struct lw_cell_test {
    const char *id;                           /* of the test, made by a phone; NULL: a new one */
    const char *cell, *method;                /* resistor, log, pulse, two_pulse, rest, hold, charger, flag */
    const char *at;                           /* wall-clock start; NULL: now */
    const char *meter, *resistor;             /* names of instruments; NULL: a usual meter, load_ohm as given */
    const double *times_s, *volts_v, *amps_a; /* readings; rest: times in seconds too */
    size_t n;
    double load_ohm, lead_ohm, end_v, rate_a, temp_c, clock_s; /* NAN: not told */
    lw_reading open_before_v, open_after_v;
    double open_after_s;
    double capacity_ah, current_a; /* charger: as read, at which current */
    double pulse_v[2], pulse_a[2]; /* two_pulse */
    const char *flag;              /* hot_on_charge, no_taper, recovered, open_circuit */
    const char *note;
} lw_cell_test;
lw_cell_test lw_cell_test_blank(void);
enum { LW_TEST_RESULTS = 12 };
/* Computes the results, stores readings and results. results[*count] are what was found. */
LW_MUST_CHECK bool lw_desk_test(lw_store *store, const lw_cell_test *test, lw_result_record results[LW_TEST_RESULTS],
                                int *count, lw_error *err);
/* The same inside an open transaction. */
LW_MUST_CHECK bool lw_desk_test_within(lw_store *store, const lw_cell_test *test,
                                       lw_result_record results[LW_TEST_RESULTS], int *count, lw_error *err);

/* --- verdicts and the bench plan ------------------------------------------------------------------------------- */

typedef struct lw_judged_cell {
    lw_cell_record cell;
    lw_standing_record standing;
    lw_cell_facts facts;
    lw_judgement judgement;
} lw_judged_cell;
/* Judges every cell of the crate from all its tests and what cells of the same marking teach, and stores the standings.
 * cells[*n] in the order of the codes, from the arena. */
LW_MUST_CHECK bool lw_desk_judge(lw_store *store, const char *crate, lw_arena *arena, lw_judged_cell **cells, size_t *n,
                                 lw_error *err);

/* One cell from its own tests alone, inside an open transaction; what others of its marking teach comes with the crate.
 */
LW_MUST_CHECK bool lw_desk_judge_cell(lw_store *store, const char *code, lw_error *err);

/* Which cells to charge and whose capacities to read on which day: cells[order[i]] on charge_day[i] and read_day[i],
 * for the `count` cells of the class that are not scrap and have no capacity test. */
typedef struct lw_bench_week {
    size_t *order, count;
    int *charge_day, *read_day;
    double *charge_wh; /* of each, chargers included */
    lw_bench_days days;
} lw_bench_week;
LW_MUST_CHECK bool lw_desk_bench_plan(const lw_judged_cell *cells, size_t n, const char *voltage_class,
                                      const lw_bench *bench, lw_arena *arena, lw_bench_week *out, lw_error *err);

/* --- packs ----------------------------------------------------------------------------------------------------- */

typedef struct lw_use_request {
    const char *crate;         /* NULL: all crates */
    const char *voltage_class; /* NULL: 4v2 */
    const char *pack;          /* code of the first pack, counted up for more; NULL: the next free P1, P2, ... */
    int series, parallel, packs;
    double need_ah; /* above 0: as many packs of groups with at least this as the cells give */
    bool tired;     /* tired cells too */
    double confidence, tolerance_pct;
    uint64_t seed;
    const char *note;
} lw_use_request;
typedef struct lw_use {
    lw_lot_cell *cells; /* the ones that could be used; id is the code */
    size_t n;
    lw_match_ask ask;
    lw_match match;
    int upper_bound;      /* of the packs, with need_ah */
    lw_pack_record *pack; /* [match.groups / series] */
} lw_use;
/* Matches the free sound cells (core/pack), stores the packs and reserves their cells. */
LW_MUST_CHECK bool lw_desk_use(lw_store *store, const lw_use_request *request, lw_arena *arena, lw_use *out,
                               lw_error *err);
size_t lw_desk_use_memory(lw_store *store);

typedef struct lw_use_plan {
    const char *text; /* a plan's document, zero-terminated */
    size_t length;
    const char *pack; /* code of the first pack, counted up for more; NULL: the next free P1, P2, ... */
    const char *note; /* of the packs; NULL: the lamp's name */
} lw_use_plan;
typedef struct lw_used_plan {
    lw_planned_packs planned;
    lw_plan_record plan;  /* as it is kept */
    lw_pack_record *pack; /* [planned.packs] */
} lw_used_plan;
/* Reserves the very cells that a plan names (brief with shelf.cells[].crate) and keeps the plan: all or nothing, in one
 * transaction. LW_WRONG_INPUT: a cell sits in a pack already or is not in the store; LW_REFUSED: a cell is no longer
 * sound or tired, or the plan is refused. */
LW_MUST_CHECK bool lw_desk_use_plan(lw_store *store, const lw_use_plan *ask, lw_arena *arena, lw_used_plan *out,
                                    lw_error *err);
size_t lw_desk_use_plan_memory(size_t length);

/* Takes a pack apart: its cells are free again, their places stay as history. */
LW_MUST_CHECK bool lw_desk_free(lw_store *store, const char *pack, const char *note, int *cells, lw_error *err);

#endif
