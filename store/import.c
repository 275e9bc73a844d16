/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reads an export (store/export.c) into an empty store, in one transaction. The rows come with their ids and their
 * journal; the triggers are away meanwhile and come back before the end.
 */
#include "inside.h"

#include "lanewick/flat_json.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <zip.h>

enum { LONGEST_LINE = 64 << 20, MOST_COLUMNS = 64, CHUNK = 1 << 16 };

typedef struct reader {
    lw_store *store;
    sqlite3_stmt *insert;
    char columns[MOST_COLUMNS][LW_WORD];
    int count;
    const char *table;
    long line;
} reader;

static bool bind_value(void *payload, const lw_flat_value *value, lw_error *err)
{
    reader *r = payload;
    int place = 0;
    for (int i = 0; i < r->count; i++)
        if (strcmp(r->columns[i], value->key) == 0)
            place = i + 1;
    if (place == 0)
        return lw_fail(err, LW_WRONG_INPUT, value->key, "%s has no column %.40s.", r->table, value->key);
    int code = SQLITE_OK;
    switch (value->kind) {
    case LW_FLAT_NULL:
        break;
    case LW_FLAT_TEXT:
        code = sqlite3_bind_text(r->insert, place, value->text, -1, SQLITE_TRANSIENT);
        break;
    case LW_FLAT_WHOLE:
        code = sqlite3_bind_int64(r->insert, place, value->whole);
        break;
    case LW_FLAT_REAL:
        code = sqlite3_bind_double(r->insert, place, value->real);
        break;
    }
    return code == SQLITE_OK || lw_store_fault(r->store, "read the export", err);
}

static bool one_line(reader *r, const char *text, size_t length, lw_error *err)
{
    r->line++;
    (void)sqlite3_clear_bindings(r->insert);
    lw_error inner = {0};
    bool done = lw_flat_json_read(text, length, bind_value, r, &inner);
    if (done) {
        done = sqlite3_step(r->insert) == SQLITE_DONE || lw_store_fault(r->store, "take the row", &inner);
        (void)sqlite3_reset(r->insert);
    }
    return done || lw_fail(err, inner.family, r->table, "%s.jsonl, line %ld: %.300s", r->table, r->line, inner.message);
}

/* Takes whole lines out of the buffer; what is left moves to its front. */
static bool take_lines(reader *r, char *buffer, size_t *held, bool last, lw_error *err)
{
    size_t from = 0;
    for (char *end; (end = memchr(buffer + from, '\n', *held - from)) != NULL;) {
        const size_t length = (size_t)(end - buffer) - from;
        if (length > 0 && !one_line(r, buffer + from, length, err))
            return false;
        from += length + 1;
    }
    *held -= from;
    memmove(buffer, buffer + from, *held);
    if (last && *held > 0)
        return lw_fail(err, LW_WRONG_INPUT, r->table, "%s.jsonl ends in the middle of a line; the file is cut off.",
                       r->table);
    return true;
}

static bool read_entry(reader *r, zip_file_t *file, lw_error *err)
{
    size_t room = 4 * CHUNK, held = 0;
    char *buffer = malloc(room);
    bool done = buffer != NULL;
    for (zip_int64_t got = 1; done && got > 0;) {
        if (held + CHUNK > room) {
            char *larger = room < LONGEST_LINE ? realloc(buffer, 2 * room) : NULL;
            if (!larger) {
                done = lw_fail(err, LW_WRONG_INPUT, r->table, "%s.jsonl has a line that is too long.", r->table);
                break;
            }
            buffer = larger;
            room *= 2;
        }
        got = zip_fread(file, buffer + held, CHUNK);
        if (got < 0)
            done = lw_fail(err, LW_WRONG_INPUT, r->table, "%s.jsonl is damaged: %.80s.", r->table,
                           zip_file_strerror(file));
        else
            held += (size_t)got;
        done = done && take_lines(r, buffer, &held, got == 0, err);
    }
    free(buffer);
    return done || lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the export.");
}

static bool prepare_insert(reader *r, lw_error *err)
{
    sqlite3_stmt *columns;
    if (!lw_store_own_columns(r->store, r->table, &columns, err))
        return false;
    for (r->count = 0; r->count < MOST_COLUMNS && sqlite3_step(columns) == SQLITE_ROW; r->count++)
        (void)snprintf(r->columns[r->count], LW_WORD, "%s", sqlite3_column_text(columns, 0));
    (void)sqlite3_finalize(columns);
    sqlite3_str *sql = sqlite3_str_new(r->store->db);
    sqlite3_str_appendf(sql, "INSERT INTO \"%w\" (", r->table);
    for (int i = 0; i < r->count; i++)
        sqlite3_str_appendf(sql, "%s\"%w\"", i ? ", " : "", r->columns[i]);
    sqlite3_str_appendall(sql, ") VALUES (");
    for (int i = 0; i < r->count; i++)
        sqlite3_str_appendf(sql, "%s?%d", i ? ", " : "", i + 1);
    sqlite3_str_appendall(sql, ")");
    char *text = sqlite3_str_finish(sql);
    const bool done = text && lw_store_prepare(r->store, text, &r->insert, err);
    sqlite3_free(text);
    return done;
}

static bool import_table(lw_store *store, zip_t *zip, const char *name, lw_error *err)
{
    char entry[LW_WORD + 8];
    (void)snprintf(entry, sizeof entry, "%s.jsonl", name);
    zip_file_t *file = zip_fopen(zip, entry, 0);
    if (!file)
        return true; /* an older export without this table */
    reader *r = calloc(1, sizeof *r);
    bool done = r != NULL;
    if (done) {
        r->store = store;
        r->table = name;
        done = prepare_insert(r, err) && read_entry(r, file, err);
        (void)sqlite3_finalize(r->insert);
    }
    free(r);
    (void)zip_fclose(file);
    return done || lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the export.");
}

static bool read_manifest(lw_store *store, zip_t *zip, const char *path, lw_error *err)
{
    char text[8192];
    zip_file_t *file = zip_fopen(zip, "manifest.json", 0);
    const zip_int64_t length = file ? zip_fread(file, text, sizeof text - 1) : -1;
    if (file)
        (void)zip_fclose(file);
    text[length > 0 ? length : 0] = '\0';
    sqlite3_stmt *s;
    if (!lw_store_prepare(
            store,
            "SELECT json_extract(?1, '$.version') WHERE json_valid(?1) AND json_extract(?1, '$.format') = "
            "'lanewick.store/1'",
            &s, err))
        return false;
    (void)sqlite3_bind_text(s, 1, text, -1, SQLITE_STATIC);
    const bool known = sqlite3_step(s) == SQLITE_ROW;
    const int version = known ? sqlite3_column_int(s, 0) : 0;
    (void)sqlite3_finalize(s);
    if (!known)
        return lw_fail(err, LW_WRONG_INPUT, "file", "%.200s is no export of a store of lanewick.", path);
    if (version < 1 || version > LW_STORE_VERSION)
        return lw_fail(err, LW_WRONG_INPUT, "file", "%.200s was written by another lanewick (version %d of the store).",
                       path, version);
    return true;
}

static bool is_empty(lw_store *store, lw_error *err)
{
    for (int i = 0; i < LW_TABLES; i++) {
        int64_t rows;
        if (!lw_store_total(store, (lw_table)i, &rows, err))
            return false;
        if (rows > 0)
            return lw_fail(err, LW_WRONG_INPUT, "store",
                           "%.200s holds records already; an export is read into an empty store only.", store->path);
    }
    return true;
}

static bool take_everything(lw_store *store, zip_t *zip, const char *path, lw_error *err)
{
    bool done = is_empty(store, err) && lw_journal_disarm(store, err) &&
                lw_store_run(store, "PRAGMA defer_foreign_keys = ON; DELETE FROM journal", "begin to write", err);
    for (int i = 0; done && i < LW_TABLES; i++)
        done = import_table(store, zip, lw_table_layouts[i].name, err);
    char *note =
        sqlite3_mprintf("INSERT INTO journal (at, who, what, kind, row) VALUES (lw_now(), lw_who(), 'import of "
                        "everything from %q', 'store', '')",
                        path);
    done = done && note && import_table(store, zip, "journal", err) &&
           lw_store_run(store, note, "note the import", err) && lw_journal_arm(store, err);
    sqlite3_free(note);
    return done;
}

bool lw_store_import(lw_store *store, const char *path, lw_error *err)
{
    int fault = 0;
    zip_t *zip = zip_open(path, ZIP_RDONLY | ZIP_CHECKCONS, &fault);
    if (!zip)
        return lw_fail(err, LW_WRONG_INPUT, "file", "%.200s is no zip file that can be read.", path);
    bool done = read_manifest(store, zip, path, err) && lw_store_begin(store, "import of everything", err);
    if (done && take_everything(store, zip, path, err))
        done = lw_store_commit(store, err);
    else
        done = false;
    if (!done)
        lw_store_rollback(store);
    zip_discard(zip);
    return done;
}
