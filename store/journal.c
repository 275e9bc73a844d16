/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The journal: triggers made from the columns of each table, so that none can be forgotten. They call lw_who(),
 * lw_what() and lw_now(), which only this program has: another program can read the file but not change it unseen.
 */
#include "inside.h"

#include <stdlib.h>
#include <string.h>

static void text_function(sqlite3_context *context, int count, sqlite3_value **values)
{
    (void)count;
    (void)values;
    sqlite3_result_text(context, sqlite3_user_data(context), -1, SQLITE_TRANSIENT);
}

static void now_function(sqlite3_context *context, int count, sqlite3_value **values)
{
    (void)count;
    (void)values;
    char stamp[LW_STAMP];
    lw_store_now(sqlite3_user_data(context), stamp);
    sqlite3_result_text(context, stamp, -1, SQLITE_TRANSIENT);
}

bool lw_journal_functions(lw_store *store, lw_error *err)
{
    const int flags = SQLITE_UTF8 | SQLITE_INNOCUOUS;
    if (sqlite3_create_function(store->db, "lw_who", 0, flags, store->who, text_function, NULL, NULL) != SQLITE_OK ||
        sqlite3_create_function(store->db, "lw_what", 0, flags, store->what, text_function, NULL, NULL) != SQLITE_OK ||
        sqlite3_create_function(store->db, "lw_now", 0, flags, store, now_function, NULL, NULL) != SQLITE_OK)
        return lw_store_fault(store, "prepare the journal", err);
    return true;
}

/* json_object('id', ROW.id, ...) over the table's columns. */
static bool object_of(lw_store *store, const char *table, const char *row, sqlite3_str *sql, lw_error *err)
{
    sqlite3_stmt *columns;
    if (!lw_store_own_columns(store, table, &columns, err))
        return false;
    sqlite3_str_appendall(sql, "json_object(");
    for (int i = 0; sqlite3_step(columns) == SQLITE_ROW; i++) {
        const unsigned char *name = sqlite3_column_text(columns, 0);
        sqlite3_str_appendf(sql, "%s'%q', %s.\"%w\"", i ? ", " : "", name, row, name);
    }
    sqlite3_str_appendall(sql, ")");
    return sqlite3_finalize(columns) == SQLITE_OK || lw_store_fault(store, "read the schema", err);
}

/* " OF a, b, ...": a change of the columns that follow by themselves is no news. */
static bool of_columns(lw_store *store, const char *table, sqlite3_str *sql, lw_error *err)
{
    sqlite3_stmt *columns;
    if (!lw_store_own_columns(store, table, &columns, err))
        return false;
    for (int i = 0; sqlite3_step(columns) == SQLITE_ROW; i++)
        sqlite3_str_appendf(sql, "%s\"%w\"", i ? ", " : " OF ", sqlite3_column_text(columns, 0));
    return sqlite3_finalize(columns) == SQLITE_OK || lw_store_fault(store, "read the schema", err);
}

typedef struct moment {
    const char *name, *event, *row;
    bool before, after;
} moment;
static const moment moments[] = {{"put", "INSERT", "NEW", false, true},
                                 {"change", "UPDATE", "NEW", true, true},
                                 {"remove", "DELETE", "OLD", true, false}};

static bool arm_table(lw_store *store, const char *table, lw_error *err)
{
    for (size_t i = 0; i < sizeof moments / sizeof moments[0]; i++) {
        const moment *m = &moments[i];
        sqlite3_str *sql = sqlite3_str_new(store->db);
        sqlite3_str_appendf(sql, "CREATE TRIGGER \"journal_%w_%s\" AFTER %s", table, m->name, m->event);
        bool done = !m->before || !m->after || of_columns(store, table, sql, err);
        sqlite3_str_appendf(sql,
                            " ON \"%w\" BEGIN INSERT INTO journal (at, who, what, kind, row, before, after) VALUES "
                            "(lw_now(), lw_who(), lw_what(), '%q', %s.id, ",
                            table, table, m->row);
        if (m->before)
            done = done && object_of(store, table, "OLD", sql, err);
        else
            sqlite3_str_appendall(sql, "NULL");
        sqlite3_str_appendall(sql, ", ");
        if (m->after)
            done = done && object_of(store, table, "NEW", sql, err);
        else
            sqlite3_str_appendall(sql, "NULL");
        sqlite3_str_appendall(sql, "); END");
        char *text = sqlite3_str_finish(sql);
        done = done && text && lw_store_run(store, text, "prepare the journal", err);
        sqlite3_free(text);
        if (!done)
            return lw_fail(err, LW_STORAGE, "", "The journal could not be prepared: memory is out.");
    }
    return true;
}

/* Runs work with the names that a query gives; they are read first, for the work changes what the query reads. */
static bool for_names(lw_store *store, const char *query, bool (*work)(lw_store *, const char *, lw_error *),
                      lw_error *err)
{
    enum { MOST = 128 };
    char *names[MOST];
    int count = 0;
    sqlite3_stmt *statement;
    if (!lw_store_prepare(store, query, &statement, err))
        return false;
    while (count < MOST && sqlite3_step(statement) == SQLITE_ROW)
        names[count++] = sqlite3_mprintf("%s", sqlite3_column_text(statement, 0));
    bool done = sqlite3_finalize(statement) == SQLITE_OK || lw_store_fault(store, "read the schema", err);
    for (int i = 0; i < count; i++) {
        done = done && names[i] && work(store, names[i], err);
        sqlite3_free(names[i]);
    }
    return done;
}

static bool drop_trigger(lw_store *store, const char *name, lw_error *err)
{
    char *sql = sqlite3_mprintf("DROP TRIGGER \"%w\"", name);
    const bool done = sql && lw_store_run(store, sql, "prepare the journal", err);
    sqlite3_free(sql);
    return done;
}

bool lw_journal_disarm(lw_store *store, lw_error *err)
{
    return for_names(store, "SELECT name FROM sqlite_schema WHERE type = 'trigger' AND name LIKE 'journal_%'",
                     drop_trigger, err);
}

bool lw_journal_arm(lw_store *store, lw_error *err)
{
    static const char keep[] =
        "CREATE TRIGGER journal_stays BEFORE UPDATE ON journal BEGIN SELECT RAISE(ABORT, 'the journal is never "
        "changed'); END; CREATE TRIGGER journal_keeps BEFORE DELETE ON journal BEGIN SELECT RAISE(ABORT, 'the journal "
        "is never changed'); END;";
    return lw_journal_disarm(store, err) &&
           for_names(store,
                     "SELECT name FROM sqlite_schema WHERE type = 'table' AND name <> 'journal' AND name NOT LIKE "
                     "'sqlite_%'",
                     arm_table, err) &&
           lw_store_run(store, keep, "prepare the journal", err);
}

bool lw_store_journal(lw_store *store, const char *row, lw_visit *visit, void *payload, lw_error *err)
{
    sqlite3_stmt *s;
    if (!lw_store_prepare(
            store,
            row ? "SELECT id, at, who, what, kind, row, before, after FROM journal WHERE row = ? ORDER BY id"
                : "SELECT id, at, who, what, kind, row, before, after FROM journal ORDER BY id",
            &s, err))
        return false;
    if (row)
        (void)sqlite3_bind_text(s, 1, row, -1, SQLITE_STATIC);
    bool more = true;
    while (more && sqlite3_step(s) == SQLITE_ROW) {
        const char *text[7];
        for (int i = 0; i < 7; i++)
            text[i] = (const char *)sqlite3_column_text(s, i + 1);
        const lw_journal_entry entry = {
            sqlite3_column_int64(s, 0), text[0], text[1], text[2], text[3], text[4], text[5], text[6]};
        more = visit(payload, &entry);
    }
    return sqlite3_finalize(s) == SQLITE_OK || lw_store_fault(store, "read the journal", err);
}
