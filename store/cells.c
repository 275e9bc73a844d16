/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cells with their crate, their standing and the pack they sit in: lists and searches, by indices alone.
 */
#include "inside.h"

#include <math.h>
#include <stdio.h>

static void append_columns(sqlite3_str *sql, lw_table table, const char *alias)
{
    const lw_table_layout *layout = &lw_table_layouts[table];
    for (int i = 0; i < layout->count; i++)
        sqlite3_str_appendf(sql, "%s.\"%w\", ", alias, layout->columns[i].name);
}

/* A beginning as a range of the index: from the text itself to the text and the greatest letter. */
static char *list_text(lw_store *store, const lw_cell_filter *f)
{
    sqlite3_str *sql = sqlite3_str_new(store->db);
    sqlite3_str_appendall(sql, "SELECT ");
    append_columns(sql, LW_CELLS, "c");
    append_columns(sql, LW_STANDINGS, "s");
    sqlite3_str_appendall(sql, "k.code, p.code FROM cell c JOIN crate k ON k.id = c.crate LEFT JOIN standing s ON "
                               "s.cell = c.id LEFT JOIN pack_slot l ON l.cell = c.id AND l.until = '' LEFT JOIN pack p "
                               "ON p.id = l.pack WHERE 1");
    if (f->crate)
        sqlite3_str_appendall(sql, " AND c.crate = (SELECT id FROM crate WHERE code = :crate)");
    if (f->search)
        sqlite3_str_appendall(sql, " AND c.id IN (SELECT id FROM cell WHERE code >= :search AND code < :search || "
                                   "char(1114111) UNION SELECT id FROM cell WHERE marking >= :search AND marking < "
                                   ":search || char(1114111))");
    if (f->verdict)
        sqlite3_str_appendall(sql, " AND coalesce(s.verdict, 'untested') = :verdict");
    if (f->free_only)
        sqlite3_str_appendall(sql, " AND l.id IS NULL");
    if (f->after)
        sqlite3_str_appendall(sql, " AND c.code > :after");
    sqlite3_str_appendall(sql, " ORDER BY c.code LIMIT :limit");
    return sqlite3_str_finish(sql);
}

static void bind_named(sqlite3_stmt *statement, const char *name, const char *text)
{
    const int place = sqlite3_bind_parameter_index(statement, name);
    if (place > 0)
        (void)sqlite3_bind_text(statement, place, text, -1, SQLITE_STATIC);
}

static void read_view(sqlite3_stmt *statement, lw_cell_view *view)
{
    const lw_table_layout *cell = &lw_table_layouts[LW_CELLS], *standing = &lw_table_layouts[LW_STANDINGS];
    lw_record_from_row(cell, statement, 0, &view->cell);
    lw_record_from_row(standing, statement, cell->count, &view->standing);
    if (!view->standing.verdict[0])
        (void)snprintf(view->standing.verdict, sizeof view->standing.verdict, "untested");
    const int next = cell->count + standing->count;
    const char *crate = (const char *)sqlite3_column_text(statement, next);
    const char *pack = (const char *)sqlite3_column_text(statement, next + 1);
    (void)snprintf(view->crate, sizeof view->crate, "%s", crate ? crate : "");
    (void)snprintf(view->pack, sizeof view->pack, "%s", pack ? pack : "");
}

bool lw_store_cells(lw_store *store, const lw_cell_filter *filter, lw_visit *visit, void *payload, lw_error *err)
{
    char *sql = list_text(store, filter);
    sqlite3_stmt *statement = NULL;
    const bool ready = sql && lw_store_prepare(store, sql, &statement, err);
    sqlite3_free(sql);
    if (!ready)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the store.");
    bind_named(statement, ":crate", filter->crate);
    bind_named(statement, ":search", filter->search);
    bind_named(statement, ":verdict", filter->verdict);
    bind_named(statement, ":after", filter->after);
    (void)sqlite3_bind_int(statement, sqlite3_bind_parameter_index(statement, ":limit"),
                           filter->limit > 0 ? filter->limit : -1);
    lw_cell_view view;
    for (bool more = true; more && sqlite3_step(statement) == SQLITE_ROW;) {
        read_view(statement, &view);
        more = visit(payload, &view);
    }
    return sqlite3_finalize(statement) == SQLITE_OK || lw_store_fault(store, "read the store", err);
}
