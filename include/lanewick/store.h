/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The workshop's records in one SQLite file. docs/store.md: tables, guarantees, backup.
 *
 * What a call acknowledged survives a kill at any moment and, on a disk that keeps its word about syncing, a power
 * cut. Two processes may write at once; a second writer waits up to busy_ms. A store object belongs to one thread.
 * Every change is written to the journal (who, when, what, before, after) in the same transaction.
 *
 *     lw_store *store;
 *     lw_crate_record crate = {.code = "C1", .name = "first crate"};
 *     if (lw_store_open(&(lw_store_options){.path = "w.lanewick", .create = true}, &store, &err)) {
 *         bool well = lw_store_put(store, LW_CRATES, &crate, &err);
 *         lw_store_close(store);
 *     }
 */
#ifndef LANEWICK_STORE_H
#define LANEWICK_STORE_H

#include "lanewick/error.h"
#include "lanewick/records.h"

#include <stdint.h>

typedef struct lw_store lw_store;

typedef struct lw_store_options {
    const char *path;
    const char *who;           /* for the journal; NULL: $LANEWICK_WHO, $USER or "someone" */
    bool create;               /* make the file when it is missing */
    int busy_ms;               /* wait for another writer; 0: 10 s */
    int cache_kb;              /* pages kept in memory; 0: 128 MB, for the long works */
    int version;               /* stop migrating at this schema version; 0: the newest (tests of migrations) */
    const char *vfs;           /* SQLite's file layer; NULL: the usual one (tests of faults) */
    int64_t (*now_ms)(void *); /* milliseconds since 1970-01-01 UTC; NULL: the machine's clock */
    void *payload;
} lw_store_options;

enum { LW_STORE_VERSION = 6 };

/* Errors (LW_STORAGE unless said): no such file (LW_WRONG_INPUT), no store of lanewick, made by a newer version,
 * damaged, locked by another program, no place on the disk. */
LW_MUST_CHECK bool lw_store_open(const lw_store_options *options, lw_store **out, lw_error *err);
void lw_store_close(lw_store *store); /* NULL is allowed; an open transaction is undone */

/* Several changes as one, or none of them. `what` goes to the journal. Without begin each put is its own. */
LW_MUST_CHECK bool lw_store_begin(lw_store *store, const char *what, lw_error *err);
LW_MUST_CHECK bool lw_store_commit(lw_store *store, lw_error *err);
void lw_store_rollback(lw_store *store); /* after any failure between begin and commit */
/* The word for the journal of single puts to come. */
void lw_store_what(lw_store *store, const char *what);
void lw_store_now(const lw_store *store, char stamp[LW_STAMP]);
/* Who changes from now on, for the journal; NULL as in the options. */
void lw_store_who(lw_store *store, const char *who);

typedef enum lw_table {
    LW_WORKSHOPS,    /* lw_workshop_record, key name */
    LW_INSTRUMENTS,  /* lw_instrument_record, key name */
    LW_CRATES,       /* lw_crate_record, key code */
    LW_CELLS,        /* lw_cell_record, key code */
    LW_TESTS,        /* lw_test_record */
    LW_RESULTS,      /* lw_result_record */
    LW_STANDINGS,    /* lw_standing_record, key cell */
    LW_PLANS,        /* lw_plan_record, key code */
    LW_PACKS,        /* lw_pack_record, key code */
    LW_SLOTS,        /* lw_slot_record */
    LW_LAMPS,        /* lw_lamp_record, key code */
    LW_SIGHTINGS,    /* lw_sighting_record */
    LW_LABELS,       /* lw_label_record, key code */
    LW_PRICE_NOTES,  /* lw_price_record */
    LW_PARTS,        /* lw_part_record, key name */
    LW_SLIPS,        /* lw_slip_record */
    LW_RUNS,         /* lw_run_record */
    LW_RUN_READINGS, /* lw_run_reading_record */
    LW_TABLES
} lw_table;

/* Stores a record of the table's type. id "": a new one, which gets its id; else the stored one is changed.
 * LW_WRONG_INPUT: the key is there already, a reference leads nowhere, a value the table does not allow, or a cell
 * that sits in another pack. */
LW_MUST_CHECK bool lw_store_put(lw_store *store, lw_table table, void *record, lw_error *err);
/* Stores a new record under the id that it has, from a phone. LW_WRONG_INPUT also: the id is there already. */
LW_MUST_CHECK bool lw_store_add(lw_store *store, lw_table table, const void *record, lw_error *err);
/* Takes a record away; the journal keeps it. LW_WRONG_INPUT when others refer to it. */
LW_MUST_CHECK bool lw_store_remove(lw_store *store, lw_table table, const char *id, lw_error *err);

/* The record whose column has this value (the first by id); *found false when there is none. Pointers inside the record
 * (readings, document) are NULL here; lw_store_each gives them. */
LW_MUST_CHECK bool lw_store_get(lw_store *store, lw_table table, const char *column, const char *value, void *record,
                                bool *found, lw_error *err);
/* Calls visit with each record whose column has this value (column NULL: all), oldest first. The record is valid
 * during the call only. visit returns false to stop. */
typedef bool lw_visit(void *payload, const void *record);
LW_MUST_CHECK bool lw_store_each(lw_store *store, lw_table table, const char *column, const char *value,
                                 lw_visit *visit, void *payload, lw_error *err);
LW_MUST_CHECK bool lw_store_total(lw_store *store, lw_table table, int64_t *rows, lw_error *err);

enum { LW_STORE_VISIT_KB = 4000 }; /* cache of a short visit, of which a server has many at one time */

/* --- cells as one sees them ------------------------------------------------------------------------------------ */

typedef struct lw_cell_view {
    lw_cell_record cell;
    lw_standing_record standing; /* verdict "untested" and NANs when never judged */
    char crate[LW_CODE];         /* code of the crate */
    char pack[LW_CODE];          /* code of the pack it sits in, "" */
} lw_cell_view;

typedef struct lw_cell_filter {
    const char *crate;   /* code; NULL: all */
    const char *search;  /* beginning of code or marking; NULL: all */
    const char *verdict; /* NULL: all */
    bool free_only;      /* sits in no pack */
    const char *after;   /* codes after this one (pages); NULL: from the first */
    int limit;           /* 0: all */
} lw_cell_filter;

/* Records of visit: const lw_cell_view. In the order of the codes; with a search the cells whose code begins so, then
 * those whose marking does. */
LW_MUST_CHECK bool lw_store_cells(lw_store *store, const lw_cell_filter *filter, lw_visit *visit, void *payload,
                                  lw_error *err);

/* --- journal --------------------------------------------------------------------------------------------------- */

typedef struct lw_journal_entry {
    int64_t number;
    const char *at, *who, *what, *kind, *row, *before, *after; /* before, after: JSON or NULL */
} lw_journal_entry;
/* The changes of one record (row: its id; NULL: all), oldest first. */
LW_MUST_CHECK bool lw_store_journal(lw_store *store, const char *row, lw_visit *visit, void *payload, lw_error *err);

/* --- keeping it ------------------------------------------------------------------------------------------------ */

/* A copy in one file while others work; written beside the place, checked, then put there. */
LW_MUST_CHECK bool lw_store_backup(lw_store *store, const char *path, lw_error *err);
/* Puts what a backup holds in the place of everything here, after checking it. All or nothing. */
LW_MUST_CHECK bool lw_store_restore(lw_store *store, const char *path, lw_error *err);
/* Page structure, references, the journal's order, rules between tables. The error names the first fault. */
LW_MUST_CHECK bool lw_store_check(lw_store *store, lw_error *err);
/* Everything, journal included, as one zip: TABLE.csv for people and spreadsheets, TABLE.jsonl (a JSON object a line,
 * exact) and manifest.json. */
LW_MUST_CHECK bool lw_store_export(lw_store *store, const char *path, lw_error *err);
/* Reads such a zip into an empty store. All or nothing. */
LW_MUST_CHECK bool lw_store_import(lw_store *store, const char *path, lw_error *err);

/* --- ids ------------------------------------------------------------------------------------------------------- */

/* RFC 9562 section 5.7: 48 bits of milliseconds since 1970, 12 and 62 free bits. */
void lw_uuid7_text(int64_t unix_ms, unsigned rand_a, uint64_t rand_b, char out[LW_ID]);

#endif
