/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Storing, changing, removing and reading single records of any table, with statements prepared once.
 */
#include "inside.h"

#include <math.h>
#include <string.h>

/* INSERT INTO t (id, ...) VALUES (?1, ...) or UPDATE t SET id = ?1, ... WHERE id = ?1 */
static bool statement_for(lw_store *store, lw_table table, bool change, sqlite3_stmt **out, lw_error *err)
{
    sqlite3_stmt **kept = change ? &store->change[table] : &store->put[table];
    const lw_table_layout *layout = &lw_table_layouts[table];
    if (!*kept) {
        sqlite3_str *sql = sqlite3_str_new(store->db);
        sqlite3_str_appendf(sql, change ? "UPDATE \"%w\" SET " : "INSERT INTO \"%w\" (", layout->name);
        for (int i = 0; i < layout->count; i++)
            sqlite3_str_appendf(sql, change ? "%s\"%w\" = ?%d" : "%s\"%w\"", i ? ", " : "", layout->columns[i].name,
                                i + 1);
        sqlite3_str_appendall(sql, change ? " WHERE id = ?1" : ") VALUES (");
        for (int i = 0; !change && i < layout->count; i++)
            sqlite3_str_appendf(sql, "%s?%d", i ? ", " : "", i + 1);
        sqlite3_str_appendall(sql, change ? "" : ")");
        char *text = sqlite3_str_finish(sql);
        const bool done = text && lw_store_prepare(store, text, kept, err);
        sqlite3_free(text);
        if (!done)
            return lw_fail(err, LW_STORAGE, "", "There is not enough memory to store this.");
    }
    *out = *kept;
    return true;
}

static void bind(const lw_column *c, const char *at, sqlite3_stmt *statement, int place)
{
    double real;
    int whole;
    int64_t money;
    const char *text = at;
    switch (c->kind) {
    case LW_LONG:
        memcpy(&text, at, sizeof text);
        (void)sqlite3_bind_text(statement, place, text ? text : "", -1, SQLITE_STATIC);
        break;
    case LW_TEXT:
        (void)sqlite3_bind_text(statement, place, text, -1, SQLITE_STATIC);
        break;
    case LW_LINK:
        if (text[0])
            (void)sqlite3_bind_text(statement, place, text, -1, SQLITE_STATIC);
        else
            (void)sqlite3_bind_null(statement, place);
        break;
    case LW_REAL:
        memcpy(&real, at, sizeof real);
        if (isnan(real))
            (void)sqlite3_bind_null(statement, place);
        else
            (void)sqlite3_bind_double(statement, place, real);
        break;
    case LW_WHOLE:
        memcpy(&whole, at, sizeof whole);
        (void)sqlite3_bind_int(statement, place, whole);
        break;
    case LW_MONEY:
        memcpy(&money, at, sizeof money);
        (void)sqlite3_bind_int64(statement, place, money);
        break;
    }
}

static bool step(lw_store *store, lw_table table, const void *record, bool change, lw_error *err)
{
    const lw_table_layout *layout = &lw_table_layouts[table];
    sqlite3_stmt *statement = NULL;
    if (!statement_for(store, table, change, &statement, err))
        return false;
    for (int i = 0; i < layout->count; i++)
        bind(&layout->columns[i], (const char *)record + layout->columns[i].offset, statement, i + 1);
    bool done = sqlite3_step(statement) == SQLITE_DONE;
    const int changed = sqlite3_changes(store->db);
    if (!done)
        (void)lw_store_fault(store, "store this", err);
    (void)sqlite3_reset(statement);
    (void)sqlite3_clear_bindings(statement);
    if (done && changed != 1)
        done = lw_fail(err, LW_WRONG_INPUT, "id", "There is no %s with the id %s.", layout->name,
                       (const char *)record + layout->columns[0].offset);
    return done;
}

bool lw_store_put(lw_store *store, lw_table table, void *record, lw_error *err)
{
    char *id = (char *)record + lw_table_layouts[table].columns[0].offset;
    const bool change = id[0] != '\0';
    if (!change)
        lw_store_new_id(store, id);
    const bool done = step(store, table, record, change, err);
    if (!done && !change)
        id[0] = '\0';
    return done;
}

bool lw_store_add(lw_store *store, lw_table table, const void *record, lw_error *err)
{
    return step(store, table, record, false, err);
}

bool lw_store_remove(lw_store *store, lw_table table, const char *id, lw_error *err)
{
    char *sql = sqlite3_mprintf("DELETE FROM \"%w\" WHERE id = ?", lw_table_layouts[table].name);
    sqlite3_stmt *statement = NULL;
    bool done = sql && lw_store_prepare(store, sql, &statement, err);
    if (done) {
        (void)sqlite3_bind_text(statement, 1, id, -1, SQLITE_STATIC);
        done = sqlite3_step(statement) == SQLITE_DONE || lw_store_fault(store, "remove this", err);
    }
    (void)sqlite3_finalize(statement);
    sqlite3_free(sql);
    if (done && sqlite3_changes(store->db) != 1)
        return lw_fail(err, LW_WRONG_INPUT, "id", "There is no %s with the id %.36s.", lw_table_layouts[table].name,
                       id);
    return done;
}

static const lw_column *find_column(const lw_table_layout *layout, const char *name)
{
    for (int i = 0; i < layout->count; i++)
        if (strcmp(layout->columns[i].name, name) == 0)
            return &layout->columns[i];
    return NULL;
}

static char *select_text(lw_store *store, const lw_table_layout *layout, const lw_column *where)
{
    sqlite3_str *sql = sqlite3_str_new(store->db);
    sqlite3_str_appendall(sql, "SELECT ");
    for (int i = 0; i < layout->count; i++)
        sqlite3_str_appendf(sql, "%s\"%w\"", i ? ", " : "", layout->columns[i].name);
    sqlite3_str_appendf(sql, " FROM \"%w\"", layout->name);
    if (where)
        sqlite3_str_appendf(sql, " WHERE \"%w\" = ?", where->name);
    sqlite3_str_appendall(sql, " ORDER BY id");
    return sqlite3_str_finish(sql);
}

/* Room for a record of any table. */
typedef union lw_any_record {
    lw_workshop_record workshop;
    lw_instrument_record instrument;
    lw_crate_record crate;
    lw_cell_record cell;
    lw_test_record test;
    lw_result_record result;
    lw_standing_record standing;
    lw_plan_record plan;
    lw_pack_record pack;
    lw_slot_record slot;
    lw_lamp_record lamp;
    lw_sighting_record sighting;
    lw_label_record label;
    lw_price_record price;
    lw_part_record part;
    lw_slip_record slip;
    lw_run_record run;
    lw_run_reading_record run_reading;
} lw_any_record;

bool lw_store_each(lw_store *store, lw_table table, const char *column, const char *value, lw_visit *visit,
                   void *payload, lw_error *err)
{
    const lw_table_layout *layout = &lw_table_layouts[table];
    const lw_column *where = column ? find_column(layout, column) : NULL;
    if (column && !where)
        return lw_fail(err, LW_BUG, column, "The table %s has no column %.40s.", layout->name, column);
    char *sql = select_text(store, layout, where);
    sqlite3_stmt *statement = NULL;
    bool done = sql && lw_store_prepare(store, sql, &statement, err);
    sqlite3_free(sql);
    if (!done)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory to read the store.");
    if (where)
        (void)sqlite3_bind_text(statement, 1, value, -1, SQLITE_STATIC);
    lw_any_record record;
    for (bool more = true; more && sqlite3_step(statement) == SQLITE_ROW;) {
        lw_record_from_row(layout, statement, 0, &record);
        more = visit(payload, &record);
    }
    done = sqlite3_finalize(statement) == SQLITE_OK || lw_store_fault(store, "read the store", err);
    return done;
}

typedef struct wanted {
    const lw_table_layout *layout;
    void *record;
    bool found;
} wanted;

static bool keep_first(void *payload, const void *record)
{
    wanted *w = payload;
    memcpy(w->record, record, w->layout->record_size);
    for (int i = 0; i < w->layout->count; i++)
        if (w->layout->columns[i].kind == LW_LONG) {
            const char *gone = NULL;
            memcpy((char *)w->record + w->layout->columns[i].offset, &gone, sizeof gone);
        }
    w->found = true;
    return false;
}

bool lw_store_get(lw_store *store, lw_table table, const char *column, const char *value, void *record, bool *found,
                  lw_error *err)
{
    wanted w = {&lw_table_layouts[table], record, false};
    const bool done = lw_store_each(store, table, column, value, keep_first, &w, err);
    *found = w.found;
    return done;
}

bool lw_store_total(lw_store *store, lw_table table, int64_t *rows, lw_error *err)
{
    char *sql = sqlite3_mprintf("SELECT count(*) FROM \"%w\"", lw_table_layouts[table].name);
    const bool done = sql && lw_store_number(store, sql, rows, err);
    sqlite3_free(sql);
    return done;
}
