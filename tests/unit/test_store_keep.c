/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Keeping the store: migrations, foreign files, backup, restore, export, import.
 */
#include "store_place.h"

#include <sqlite3.h>

/* Version 1 with rows in it comes to version 2 with its rows and its journal, and the new tables are journalled. */
static void version_1_migrates(void **state)
{
    place *p = *state;
    lw_store *old = open_at(p->other, 1);
    lw_crate_record crate;
    put_crate(old, &crate);
    const lw_cell_record cell = put_cell(old, crate.id, "A1", "old");
    lw_lamp_record lamp = {.code = "L1"};
    lw_error none = {0};
    assert_false(lw_store_put(old, LW_LAMPS, &lamp, &none)); /* not there yet */
    lw_store_close(old);
    lw_store *new = open_at(p->other, 2);
    lw_cell_record again;
    bool found;
    DO(lw_store_get(new, LW_CELLS, "code", "A1", &again, &found, &err));
    assert_true(found && strcmp(again.id, cell.id) == 0);
    lamp = (lw_lamp_record){.code = "L1", .lat_deg = NAN, .lon_deg = NAN};
    DO(lw_store_put(new, LW_LAMPS, &lamp, &err));
    entries all = {0};
    DO(lw_store_journal(new, lamp.id, keep_entry, &all, &err));
    assert_int_equal(all.count, 1);
    all.count = 0;
    DO(lw_store_journal(new, cell.id, keep_entry, &all, &err));
    assert_int_equal(all.count, 1);
    DO(lw_store_check(new, &err));
    lw_store_close(new);
}

static void foreign_files_are_refused(void **state)
{
    place *p = *state;
    lw_store *store = NULL;
    const lw_store_options options = {.path = p->other};
    REFUSED(lw_store_open(&options, &store, &err), "There is no store");
    FILE *file = fopen(p->other, "w");
    for (int i = 0; i < 1000; i++)
        (void)fputs("this is a letter, no database\n", file);
    (void)fclose(file);
    REFUSED(lw_store_open(&options, &store, &err), "is not a store of lanewick");
    (void)unlink(p->other);
    sqlite3 *db;
    assert_int_equal(sqlite3_open(p->other, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "CREATE TABLE t (a)", NULL, NULL, NULL), SQLITE_OK);
    REFUSED(lw_store_open(&options, &store, &err), "not a store of lanewick");
    assert_int_equal(sqlite3_exec(db, "DROP TABLE t; PRAGMA application_id = 1280202571; PRAGMA user_version = 99",
                                  NULL, NULL, NULL),
                     SQLITE_OK);
    (void)sqlite3_close(db);
    REFUSED(lw_store_open(&options, &store, &err), "newer lanewick");
    assert_null(store);
}

static void backup_and_restore(void **state)
{
    place *p = *state;
    put_everything(p->store);
    DO(lw_store_backup(p->store, p->other, &err));
    REFUSED(lw_store_backup(p->store, p->path, &err), "another file");
    lw_cell_record cell;
    bool found;
    DO(lw_store_get(p->store, LW_CELLS, "code", "A1", &cell, &found, &err));
    memcpy(cell.marking, "spoilt", 7);
    DO(lw_store_put(p->store, LW_CELLS, &cell, &err));
    DO(lw_store_restore(p->store, p->other, &err));
    DO(lw_store_get(p->store, LW_CELLS, "code", "A1", &cell, &found, &err));
    assert_string_equal(cell.marking, "INR18650-25");
    memcpy(cell.marking, "again", 6);
    DO(lw_store_put(p->store, LW_CELLS, &cell, &err)); /* still writes, and still keeps the journal */
    DO(lw_store_check(p->store, &err));
    REFUSED(lw_store_restore(p->store, p->zip, &err), "no backup");
    FILE *file = fopen(p->other, "r+b");
    (void)fseek(file, 8192 + 8, SEEK_SET);
    for (int i = 0; i < 7000; i++)
        (void)fputc(0xA5, file);
    (void)fclose(file);
    REFUSED(lw_store_restore(p->store, p->other, &err), "damaged");
    DO(lw_store_check(p->store, &err));
}

static void export_and_import(void **state)
{
    place *p = *state;
    put_everything(p->store);
    DO(lw_store_export(p->store, p->zip, &err));
    REFUSED(lw_store_import(p->store, p->zip, &err), "holds records already");
    lw_store *second = open_at(p->other, 0);
    REFUSED(lw_store_import(second, p->path, &err), "no zip file");
    DO(lw_store_import(second, p->zip, &err));
    DO(lw_store_check(second, &err));
    for (int t = 0; t < LW_TABLES; t++) {
        int64_t a, b;
        DO(lw_store_total(p->store, (lw_table)t, &a, &err));
        DO(lw_store_total(second, (lw_table)t, &b, &err));
        assert_true(a == b && a > 0);
    }
    lw_result_record result;
    bool found;
    DO(lw_store_get(second, LW_RESULTS, "kind", "capacity_ah", &result, &found, &err));
    assert_true(found && result.value == 0.1 + 0.2 && result.sd == 1.0 / 3.0);
    lw_standing_record standing;
    DO(lw_store_get(second, LW_STANDINGS, "verdict", "sound", &standing, &found, &err));
    assert_string_equal(standing.reasons, "two lines\nand \"quotes\"");
    assert_true(isnan(standing.self_discharge_pct));
    lw_price_record price = {.thing = "later", .price = 1.25};
    entries all = {0};
    DO(lw_store_put(second, LW_PRICES, &price, &err)); /* the triggers are back */
    DO(lw_store_journal(second, price.id, keep_entry, &all, &err));
    assert_int_equal(all.count, 1);
    lw_store_close(second);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(version_1_migrates, set_up, tear_down),
        cmocka_unit_test_setup_teardown(foreign_files_are_refused, set_up, tear_down),
        cmocka_unit_test_setup_teardown(backup_and_restore, set_up, tear_down),
        cmocka_unit_test_setup_teardown(export_and_import, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
