/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Intake: crates, single cells and tables of cells. See lanewick/desk_crate.h.
 */
#include "lanewick/desk_crate.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool lw_desk_crate(lw_store *store, const char *code, lw_crate_record *out, lw_error *err)
{
    bool found;
    return lw_store_get(store, LW_CRATES, "code", code, out, &found, err) &&
           (found || lw_fail(err, LW_WRONG_INPUT, "crate",
                             "There is no crate %.40s; `lanewick crate new %.40s` makes it.", code, code));
}

bool lw_desk_cell(lw_store *store, const char *code, lw_cell_record *out, lw_error *err)
{
    bool found;
    return lw_store_get(store, LW_CELLS, "code", code, out, &found, err) &&
           (found || lw_fail(err, LW_WRONG_INPUT, "cell", "There is no cell %.40s.", code));
}

bool lw_desk_instrument(lw_store *store, const char *name, lw_instrument_record *out, lw_error *err)
{
    bool found;
    return lw_store_get(store, LW_INSTRUMENTS, "name", name, out, &found, err) &&
           (found || lw_fail(err, LW_WRONG_INPUT, "instrument",
                             "There is no instrument %.60s; `lanewick crate tool` makes it.", name));
}

static void date_it(const lw_store *store, lw_cell_record *cell)
{
    if (!isnan(cell->found_v) && !cell->found_at[0])
        lw_store_now(store, cell->found_at);
}

bool lw_desk_cell_add(lw_store *store, const char *crate, lw_cell_record *cell, lw_error *err)
{
    lw_crate_record home;
    if (!lw_desk_crate(store, crate, &home, err) || !lw_cell_check(cell, err))
        return false;
    memcpy(cell->crate, home.id, sizeof cell->crate);
    cell->id[0] = '\0';
    date_it(store, cell);
    lw_store_what(store, "crate add");
    lw_error inner = {0};
    if (lw_store_put(store, LW_CELLS, cell, &inner))
        return true;
    if (inner.family == LW_WRONG_INPUT && strstr(inner.message, "cell.code"))
        return lw_fail(err, LW_WRONG_INPUT, "code", "There is a cell %s already; every label may be there once.",
                       cell->code);
    return lw_fail(err, inner.family, inner.field, "%s", inner.message);
}

/* A row is refused by the file's reader or by the store (a label that is there already). */
static bool take_row(lw_store *store, const lw_crate_record *home, lw_cell_record *cell, lw_error *refused)
{
    if (refused->family != LW_OK)
        return false;
    memcpy(cell->crate, home->id, sizeof cell->crate);
    date_it(store, cell);
    lw_error inner = {0};
    if (lw_store_put(store, LW_CELLS, cell, &inner))
        return true;
    if (strstr(inner.message, "cell.code"))
        return lw_fail(refused, LW_WRONG_INPUT, "code", "There is a cell %s already.", cell->code);
    return lw_fail(refused, inner.family, inner.field, "%s", inner.message);
}

static bool take_rows(lw_store *store, const lw_import_request *request, const lw_crate_record *home,
                      lw_cell_rows *rows, lw_import_report *report, lw_error *err)
{
    int line;
    lw_cell_record cell;
    lw_error refused;
    while (lw_cell_rows_next(rows, &line, &cell, &refused)) {
        if (take_row(store, home, &cell, &refused)) {
            report->good++;
            continue;
        }
        if (refused.family != LW_WRONG_INPUT)
            return lw_fail(err, refused.family, refused.field, "%s", refused.message);
        report->refused++;
        if (request->refused)
            request->refused(request->payload, line, refused.message);
    }
    return true;
}

static bool import_rows(lw_store *store, const lw_import_request *request, const lw_crate_record *home,
                        lw_cell_rows *rows, lw_import_report *report, lw_error *err)
{
    char what[120];
    (void)snprintf(what, sizeof what, "crate import into %s", home->code);
    if (!lw_store_begin(store, what, err))
        return false;
    if (!take_rows(store, request, home, rows, report, err)) {
        lw_store_rollback(store);
        return false;
    }
    if (request->dry_run || report->refused > 0) {
        lw_store_rollback(store);
        return true;
    }
    report->stored = lw_store_commit(store, err);
    return report->stored;
}

bool lw_desk_import(lw_store *store, const lw_import_request *request, lw_import_report *report, lw_error *err)
{
    *report = (lw_import_report){0};
    lw_crate_record home;
    lw_cell_map map = {0};
    if (!lw_desk_crate(store, request->crate, &home, err) ||
        (request->map && !lw_cell_map_read(request->map, &map, err)))
        return false;
    const size_t size = lw_cell_rows_memory(request->bytes, request->length);
    if (size == 0)
        return lw_fail(err, LW_WRONG_INPUT, "file", "The file has %zu bytes; the most is %d.", request->length,
                       LW_CSV_MAX_BYTES);
    void *memory = malloc(size);
    if (!memory)
        return lw_fail(err, LW_STORAGE, "file", "There is not enough memory to read the file.");
    lw_arena arena = lw_arena_over(memory, size);
    lw_cell_rows rows = {0};
    const bool done = lw_cell_rows_open(request->bytes, request->length, &map, &request->common, &arena, &rows, err) &&
                      (rows.csv.rows > 0 || lw_fail(err, LW_WRONG_INPUT, "file",
                                                    "The table has a header but no cells; nothing is stored.")) &&
                      import_rows(store, request, &home, &rows, report, err);
    memcpy(report->taken, rows.taken, sizeof report->taken);
    memcpy(report->passed, rows.passed, sizeof report->passed);
    free(memory);
    return done;
}
