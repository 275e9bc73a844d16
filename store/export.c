/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Everything as one zip: each table as CSV (RFC 4180) and as JSON lines, and a manifest. All tables are read in one
 * transaction, so that they belong together. Numbers are written with as many digits as give back the same bits.
 */
#include "inside.h"

#include "lanewick/csv.h"
#include "lanewick/version.h"

#include <fcntl.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>
#include <zip.h>

enum { MOST_TABLES = 64 };

typedef struct table {
    char name[LW_WORD];
    int64_t rows;
} table;

static void write_real(FILE *file, double x)
{
    char text[40];
    (void)snprintf(text, sizeof text, "%.15g", x);
    if (strtod(text, NULL) != x)
        (void)snprintf(text, sizeof text, "%.17g", x);
    (void)fputs(text, file);
    if (!strpbrk(text, ".en"))
        (void)fputs(".0", file);
}

static void write_json_text(FILE *file, const char *text)
{
    (void)fputc('"', file);
    for (const unsigned char *c = (const unsigned char *)text; *c; c++) {
        if (*c == '"' || *c == '\\')
            (void)fprintf(file, "\\%c", *c);
        else if (*c < 0x20)
            (void)fprintf(file, "\\u%04x", *c);
        else
            (void)fputc(*c, file);
    }
    (void)fputc('"', file);
}

static void write_csv_text(FILE *file, const char *text)
{
    if (!strpbrk(text, ",\"\r\n")) {
        (void)fputs(text, file);
        return;
    }
    lw_csv_quote(file, text);
}

static void write_value(FILE *file, sqlite3_stmt *row, int i, bool json)
{
    switch (sqlite3_column_type(row, i)) {
    case SQLITE_NULL:
        (void)fputs(json ? "null" : "", file);
        break;
    case SQLITE_INTEGER:
        (void)fprintf(file, "%lld", (long long)sqlite3_column_int64(row, i));
        break;
    case SQLITE_FLOAT:
        write_real(file, sqlite3_column_double(row, i));
        break;
    default:
        if (json)
            write_json_text(file, (const char *)sqlite3_column_text(row, i));
        else
            write_csv_text(file, (const char *)sqlite3_column_text(row, i));
    }
}

static void write_row(FILE *csv, FILE *lines, sqlite3_stmt *row)
{
    const int columns = sqlite3_column_count(row);
    for (int i = 0; i < columns; i++) {
        if (i)
            (void)fputc(',', csv);
        write_value(csv, row, i, false);
        (void)fputs(i ? "," : "{", lines);
        write_json_text(lines, sqlite3_column_name(row, i));
        (void)fputc(':', lines);
        write_value(lines, row, i, true);
    }
    (void)fputc('\n', csv);
    (void)fputs("}\n", lines);
}

/* All rows of a table, without the columns that follow by themselves. */
static bool select_rows(lw_store *store, const char *name, sqlite3_stmt **out, lw_error *err)
{
    sqlite3_stmt *columns;
    if (!lw_store_own_columns(store, name, &columns, err))
        return false;
    sqlite3_str *sql = sqlite3_str_new(store->db);
    for (int i = 0; sqlite3_step(columns) == SQLITE_ROW; i++)
        sqlite3_str_appendf(sql, "%s\"%w\"", i ? ", " : "SELECT ", sqlite3_column_text(columns, 0));
    (void)sqlite3_finalize(columns);
    sqlite3_str_appendf(sql, " FROM \"%w\" ORDER BY id", name);
    char *text = sqlite3_str_finish(sql);
    const bool done = text && lw_store_prepare(store, text, out, err);
    sqlite3_free(text);
    return done || lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the store.");
}

static bool write_table(lw_store *store, table *t, FILE *csv, FILE *lines, lw_error *err)
{
    sqlite3_stmt *row = NULL;
    if (!select_rows(store, t->name, &row, err))
        return false;
    for (int i = 0; i < sqlite3_column_count(row); i++)
        (void)fprintf(csv, "%s%s", i ? "," : "", sqlite3_column_name(row, i));
    (void)fputc('\n', csv);
    for (t->rows = 0; sqlite3_step(row) == SQLITE_ROW; t->rows++)
        write_row(csv, lines, row);
    if (sqlite3_finalize(row) != SQLITE_OK)
        return lw_store_fault(store, "read the store", err);
    if (fflush(csv) != 0 || fflush(lines) != 0 || ferror(csv) || ferror(lines))
        return lw_fail(err, LW_STORAGE, "", "There is no room for the export; is the disk full?");
    return true;
}

/* The archive takes the file over and reads it when it is closed. */
static bool add_file(zip_t *zip, FILE *file, const char *name, const char *ending, lw_error *err)
{
    char entry[LW_WORD + 8];
    (void)snprintf(entry, sizeof entry, "%s%s", name, ending);
    rewind(file);
    zip_source_t *source = zip_source_filep(zip, file, 0, 0);
    if (source && zip_file_add(zip, entry, source, ZIP_FL_ENC_UTF_8) >= 0)
        return true;
    if (source)
        zip_source_free(source);
    else
        (void)fclose(file);
    return lw_fail(err, LW_STORAGE, "", "The export could not be written: %.100s.", zip_strerror(zip));
}

static bool add_table(lw_store *store, zip_t *zip, table *t, lw_error *err)
{
    FILE *csv = tmpfile(), *lines = tmpfile();
    const bool written = csv && lines && write_table(store, t, csv, lines, err);
    if (!written) {
        if (csv)
            (void)fclose(csv);
        if (lines)
            (void)fclose(lines);
        return lw_fail(err, LW_STORAGE, "", "There is no room for temporary files; is the disk full?");
    }
    if (!add_file(zip, csv, t->name, ".csv", err)) {
        (void)fclose(lines);
        return false;
    }
    return add_file(zip, lines, t->name, ".jsonl", err);
}

static bool add_manifest(const lw_store *store, zip_t *zip, const table *tables, int count, lw_error *err)
{
    FILE *file = tmpfile();
    char stamp[LW_STAMP];
    if (!file)
        return lw_fail(err, LW_STORAGE, "", "There is no room for temporary files; is the disk full?");
    lw_store_now(store, stamp);
    (void)fprintf(file,
                  "{\"format\": \"lanewick.store/1\", \"version\": %d, \"program\": \"lanewick " LW_VERSION "\", "
                  "\"at\": \"%s\", \"rows\": {",
                  (int)LW_STORE_VERSION, stamp);
    for (int i = 0; i < count; i++)
        (void)fprintf(file, "%s\"%s\": %lld", i ? ", " : "", tables[i].name, (long long)tables[i].rows);
    (void)fputs("}}\n", file);
    if (fflush(file) != 0) {
        (void)fclose(file);
        return lw_fail(err, LW_STORAGE, "", "There is no room for the export; is the disk full?");
    }
    return add_file(zip, file, "manifest", ".json", err);
}

static bool list_tables(lw_store *store, table tables[MOST_TABLES], int *count, lw_error *err)
{
    sqlite3_stmt *s;
    *count = 0;
    if (!lw_store_prepare(
            store, "SELECT name FROM sqlite_schema WHERE type = 'table' AND name NOT LIKE 'sqlite_%' ORDER BY rowid",
            &s, err))
        return false;
    while (*count < MOST_TABLES && sqlite3_step(s) == SQLITE_ROW)
        (void)snprintf(tables[(*count)++].name, LW_WORD, "%s", sqlite3_column_text(s, 0));
    return sqlite3_finalize(s) == SQLITE_OK || lw_store_fault(store, "read the schema", err);
}

static bool fill(lw_store *store, zip_t *zip, lw_error *err)
{
    table tables[MOST_TABLES] = {0};
    int count;
    bool done = list_tables(store, tables, &count, err);
    for (int i = 0; done && i < count; i++)
        done = add_table(store, zip, &tables[i], err);
    return done && add_manifest(store, zip, tables, count, err);
}

static bool put_in_place(const char *part, const char *path, lw_error *err)
{
    const int file = open(part, O_RDONLY | O_CLOEXEC);
    const bool done = file >= 0 && fsync(file) == 0 && rename(part, path) == 0;
    if (file >= 0)
        (void)close(file);
    if (done)
        return true;
    (void)unlink(part);
    return lw_fail(err, LW_STORAGE, "", "%.200s could not be written.", path);
}

bool lw_store_export(lw_store *store, const char *path, lw_error *err)
{
    char part[1100];
    const int length = snprintf(part, sizeof part, "%s.part.%ld", path, (long)getpid());
    if (length < 0 || (size_t)length >= sizeof part)
        return lw_fail(err, LW_WRONG_INPUT, "file", "The name of the export is too long.");
    int fault = 0;
    zip_t *zip = zip_open(part, ZIP_CREATE | ZIP_TRUNCATE, &fault);
    if (!zip)
        return lw_fail(err, LW_STORAGE, "file", "%.200s cannot be written.", path);
    bool done = lw_store_run(store, "BEGIN", "read the store", err);
    done = done && fill(store, zip, err);
    (void)sqlite3_exec(store->db, "COMMIT", NULL, NULL, NULL);
    if (!done) {
        zip_discard(zip);
        return false;
    }
    if (zip_close(zip) != 0) {
        (void)lw_fail(err, LW_STORAGE, "file", "%.200s could not be written: %.100s.", path, zip_strerror(zip));
        zip_discard(zip);
        return false;
    }
    return put_in_place(part, path, err);
}
