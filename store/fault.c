/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Faults of the database in our words, and the small helpers around a statement.
 */
#include "inside.h"

#include <string.h>

static bool constraint_fault(const lw_store *store, int code, const char *doing, lw_error *err)
{
    const char *message = sqlite3_errmsg(store->db);
    const char *column = strstr(message, ": ");
    column = column ? column + 2 : "";
    if (strstr(message, "pack_slot.cell"))
        return lw_fail(err, LW_WRONG_INPUT, "cell", "The cell sits in another pack; take that pack apart first.");
    switch (code) {
    case SQLITE_CONSTRAINT_UNIQUE:
    case SQLITE_CONSTRAINT_PRIMARYKEY:
        return lw_fail(err, LW_WRONG_INPUT, column, "Could not %s: another record has the same %s.", doing, column);
    case SQLITE_CONSTRAINT_FOREIGNKEY:
        return lw_fail(err, LW_WRONG_INPUT, "",
                       "Could not %s: a record that it refers to is not there, or others "
                       "refer to it.",
                       doing);
    default:
        return lw_fail(err, LW_WRONG_INPUT, "", "Could not %s: %.200s.", doing, message);
    }
}

bool lw_store_fault(const lw_store *store, const char *doing, lw_error *err)
{
    const int code = sqlite3_extended_errcode(store->db);
    switch (code & 0xFF) {
    case SQLITE_CONSTRAINT:
        return constraint_fault(store, code, doing, err);
    case SQLITE_FULL:
        return lw_fail(err, LW_STORAGE, "",
                       "Could not %s: the disk is full. Nothing of it was stored; make room and "
                       "do it again.",
                       doing);
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return lw_fail(err, LW_STORAGE, "", "Could not %s: another program is writing to %.200s; try again.", doing,
                       store->path);
    case SQLITE_NOTADB:
        return lw_fail(err, LW_STORAGE, "", "%.200s is not a store of lanewick.", store->path);
    case SQLITE_CORRUPT:
        return lw_fail(err, LW_STORAGE, "", "%.200s is damaged (%.100s); restore the last backup.", store->path,
                       sqlite3_errmsg(store->db));
    case SQLITE_READONLY:
    case SQLITE_CANTOPEN:
    case SQLITE_PERM:
        return lw_fail(err, LW_STORAGE, "", "Could not %s: %.200s cannot be opened for writing.", doing, store->path);
    default:
        return lw_fail(err, LW_STORAGE, "", "Could not %s: %.250s.", doing, sqlite3_errmsg(store->db));
    }
}

bool lw_store_run(lw_store *store, const char *sql, const char *doing, lw_error *err)
{
    return sqlite3_exec(store->db, sql, NULL, NULL, NULL) == SQLITE_OK || lw_store_fault(store, doing, err);
}

bool lw_store_prepare(lw_store *store, const char *sql, sqlite3_stmt **out, lw_error *err)
{
    *out = NULL;
    return sqlite3_prepare_v2(store->db, sql, -1, out, NULL) == SQLITE_OK ||
           lw_store_fault(store, "ask the store", err);
}

bool lw_store_number(lw_store *store, const char *sql, int64_t *out, lw_error *err)
{
    sqlite3_stmt *statement;
    if (!lw_store_prepare(store, sql, &statement, err))
        return false;
    const bool done = sqlite3_step(statement) == SQLITE_ROW;
    *out = done ? sqlite3_column_int64(statement, 0) : 0;
    if (!done)
        (void)lw_store_fault(store, "read the store", err);
    (void)sqlite3_finalize(statement);
    return done;
}
