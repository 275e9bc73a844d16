/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the files of the store share: the open file, its prepared statements, faults of SQLite in our words.
 */
#ifndef LANEWICK_STORE_INSIDE_H
#define LANEWICK_STORE_INSIDE_H

#include "lanewick/store.h"

#include <sqlite3.h>

enum { LW_STORE_APPLICATION = 0x4C4E574B /* "LNWK" */, LW_STORE_WHAT = 200 };

struct lw_store {
    sqlite3 *db;
    sqlite3_stmt *put[LW_TABLES], *change[LW_TABLES];
    char path[1024], who[LW_WORD], what[LW_STORE_WHAT];
    int64_t (*now_ms)(void *);
    void *payload;
    int64_t last_ms; /* of the ids given out */
    unsigned last_a; /* their counter within the millisecond */
    bool in_transaction;
};

/* Fills err from the last fault of the database; returns false. `doing` completes "could not ...". */
bool lw_store_fault(const lw_store *store, const char *doing, lw_error *err);
/* Runs statements that give no rows. */
LW_MUST_CHECK bool lw_store_run(lw_store *store, const char *sql, const char *doing, lw_error *err);
LW_MUST_CHECK bool lw_store_prepare(lw_store *store, const char *sql, sqlite3_stmt **out, lw_error *err);
/* A statement whose rows are the names of a table's columns, without those that follow by themselves (now_*). */
LW_MUST_CHECK bool lw_store_own_columns(lw_store *store, const char *table, sqlite3_stmt **out, lw_error *err);
/* The whole number that a statement such as PRAGMA user_version gives. */
LW_MUST_CHECK bool lw_store_number(lw_store *store, const char *sql, int64_t *out, lw_error *err);

LW_MUST_CHECK bool lw_store_migrate(lw_store *store, int version, lw_error *err);
/* Makes the journal's triggers of every table anew, or takes them away (while a backup is read in). */
LW_MUST_CHECK bool lw_journal_arm(lw_store *store, lw_error *err);
LW_MUST_CHECK bool lw_journal_disarm(lw_store *store, lw_error *err);
/* The functions that the triggers call: lw_who(), lw_what(), lw_now(). */
LW_MUST_CHECK bool lw_journal_functions(lw_store *store, lw_error *err);

void lw_store_new_id(lw_store *store, char id[LW_ID]);

/* --- the tables as data ---------------------------------------------------------------------------------------- */

typedef enum lw_column_kind {
    LW_TEXT,  /* char[size] */
    LW_LINK,  /* char[LW_ID]; "" is stored as NULL */
    LW_LONG,  /* const char * */
    LW_REAL,  /* double; NAN is stored as NULL */
    LW_WHOLE, /* int */
    LW_MONEY, /* int64_t */
} lw_column_kind;

typedef struct lw_column {
    const char *name;
    lw_column_kind kind;
    size_t offset, size;
} lw_column;

typedef struct lw_table_layout {
    const char *name;
    size_t record_size;
    int count;
    const lw_column *columns; /* the first is id */
} lw_table_layout;
extern const lw_table_layout lw_table_layouts[LW_TABLES];

/* Reads columns first, first + 1, ... of the statement's row into the record. */
void lw_record_from_row(const lw_table_layout *layout, sqlite3_stmt *statement, int first, void *record);

#endif
