/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cells with their crate, their standing and the pack they sit in: lists and searches, by indices alone.
 */
#include "inside.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static void append_columns(sqlite3_str *sql, lw_table table, const char *alias)
{
    const lw_table_layout *layout = &lw_table_layouts[table];
    for (int i = 0; i < layout->count; i++)
        sqlite3_str_appendf(sql, "%s.\"%w\", ", alias, layout->columns[i].name);
}

typedef enum list_part { BY_CODE, MARKING_BEGINS } list_part;

static const char *const verdicts[] = {"untested", "unsure", "sound", "tired", "scrap"};
enum { VERDICTS = sizeof verdicts / sizeof verdicts[0] };

static const char code_begins[] = " AND c.code >= :search AND c.code < :search || char(1114111)";

/* The rows of one state (verdict, in a pack or not) stand in the order of their codes in an index, of one crate or of
 * all: the states wanted are merged as they come, so that a page costs a page whatever else the store holds. */
static void append_states(sqlite3_str *sql, const lw_cell_filter *f)
{
    const char *between = "";
    for (int v = 0; v < VERDICTS; v++)
        for (int packed = 0; packed < (f->free_only ? 1 : 2); packed++) {
            if (f->verdict && strcmp(f->verdict, verdicts[v]) != 0)
                continue;
            sqlite3_str_appendf(sql, "%sSELECT c.rowid AS r, c.code AS code FROM cell c INDEXED BY %s WHERE ", between,
                                f->crate ? "cell_crate_state" : "cell_state");
            if (f->crate)
                sqlite3_str_appendall(sql, "c.crate = (SELECT id FROM crate WHERE code = :crate) AND ");
            sqlite3_str_appendf(sql, "c.now_verdict = '%q' AND c.now_packed = %d", verdicts[v], packed);
            sqlite3_str_appendall(sql, f->after ? " AND c.code > :after" : "");
            sqlite3_str_appendall(sql, f->search ? code_begins : "");
            between = " UNION ALL ";
        }
    sqlite3_str_appendall(sql, " ORDER BY 2 LIMIT :limit");
}

/* Markings that begin so, in the order of an index that also holds what is asked of the cells. */
static void append_markings(sqlite3_str *sql, const lw_cell_filter *f)
{
    sqlite3_str_appendall(sql,
                          "SELECT c.rowid AS r, c.code AS code, c.marking AS marking FROM cell c INDEXED BY "
                          "cell_marking WHERE c.marking >= :search AND c.marking < :search || char(1114111) AND NOT "
                          "(c.code >= :search AND c.code < :search || char(1114111))");
    if (f->crate)
        sqlite3_str_appendall(sql, " AND c.crate = (SELECT id FROM crate WHERE code = :crate)");
    if (f->verdict)
        sqlite3_str_appendall(sql, " AND c.now_verdict = :verdict");
    sqlite3_str_appendall(sql, f->free_only ? " AND c.now_packed = 0" : "");
    sqlite3_str_appendall(sql, f->after ? " AND c.code > :after" : "");
    sqlite3_str_appendall(sql, " ORDER BY c.marking, c.code LIMIT :limit");
}

static char *list_text(lw_store *store, const lw_cell_filter *f, list_part part)
{
    sqlite3_str *sql = sqlite3_str_new(store->db);
    sqlite3_str_appendall(sql, "SELECT ");
    append_columns(sql, LW_CELLS, "c");
    append_columns(sql, LW_STANDINGS, "s");
    sqlite3_str_appendall(sql, "k.code, p.code FROM (");
    if (part == BY_CODE)
        append_states(sql, f);
    else
        append_markings(sql, f);
    sqlite3_str_appendall(sql, ") u CROSS JOIN cell c ON c.rowid = u.r LEFT JOIN standing s ON s.cell = c.id LEFT JOIN "
                               "crate k ON k.id = c.crate LEFT JOIN pack_slot l ON l.cell = c.id AND l.until = '' "
                               "LEFT JOIN pack p ON p.id = l.pack ORDER BY ");
    sqlite3_str_appendall(sql, part == BY_CODE ? "u.code" : "u.marking, u.code");
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

/* Visits the rows of one part; counts them; *more false when the visitor has enough. */
static bool visit_part(lw_store *store, const lw_cell_filter *filter, list_part part, int limit, lw_visit *visit,
                       void *payload, int *count, bool *more, lw_error *err)
{
    char *sql = list_text(store, filter, part);
    sqlite3_stmt *statement = NULL;
    const bool ready = sql && lw_store_prepare(store, sql, &statement, err);
    sqlite3_free(sql);
    if (!ready)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the store.");
    bind_named(statement, ":crate", filter->crate);
    bind_named(statement, ":search", filter->search);
    bind_named(statement, ":verdict", filter->verdict);
    bind_named(statement, ":after", filter->after);
    (void)sqlite3_bind_int(statement, sqlite3_bind_parameter_index(statement, ":limit"), limit);
    lw_cell_view view;
    while (*more && sqlite3_step(statement) == SQLITE_ROW) {
        read_view(statement, &view);
        *more = visit(payload, &view);
        ++*count;
    }
    return sqlite3_finalize(statement) == SQLITE_OK || lw_store_fault(store, "read the store", err);
}

bool lw_store_cells(lw_store *store, const lw_cell_filter *filter, lw_visit *visit, void *payload, lw_error *err)
{
    const int limit = filter->limit > 0 ? filter->limit : -1;
    int count = 0;
    bool more = true, known = !filter->verdict;
    for (int v = 0; v < VERDICTS; v++)
        known = known || strcmp(filter->verdict, verdicts[v]) == 0;
    if (!known)
        return lw_fail(err, LW_WRONG_INPUT, "verdict",
                       "verdict is \"%.20s\"; it is sound, tired, unsure, scrap or untested.", filter->verdict);
    if (!visit_part(store, filter, BY_CODE, limit, visit, payload, &count, &more, err))
        return false;
    if (!filter->search || (limit > 0 && count >= limit))
        return true;
    return visit_part(store, filter, MARKING_BEGINS, limit > 0 ? limit - count : -1, visit, payload, &count, &more,
                      err);
}
