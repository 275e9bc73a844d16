/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Keeping the store: migrations, foreign files, backup, restore, export, import.
 */
#include "store_place.h"

#include <sqlite3.h>

static void word(sqlite3_context *context, int count, sqlite3_value **values)
{
    (void)count;
    (void)values;
    sqlite3_result_text(context, "Tamika", -1, SQLITE_STATIC);
}

/* Rows as an older program wrote them: this one knows columns that were not there yet. */
static void write_as_before(const char *path, const char *sql)
{
    static const char *const functions[] = {"lw_who", "lw_what", "lw_now"};
    sqlite3 *db;
    char *fault = NULL;
    assert_int_equal(sqlite3_open(path, &db), SQLITE_OK);
    for (size_t i = 0; i < 3; i++)
        assert_int_equal(
            sqlite3_create_function(db, functions[i], 0, SQLITE_UTF8 | SQLITE_INNOCUOUS, NULL, word, NULL, NULL),
            SQLITE_OK);
    if (sqlite3_exec(db, sql, NULL, NULL, &fault) != SQLITE_OK)
        fail_msg("%s", fault);
    (void)sqlite3_close(db);
}

static const char cells_of_old[] =
    "INSERT INTO crate VALUES ('k1', 'NS1', 'first', '', '', '');"
    "INSERT INTO cell VALUES ('c1', 'k1', 'A1', 'old', '4v2', '', '', '', 3.617, '', ''),"
    "('c2', 'k1', 'A2', 'old', '4v2', '', '', '', NULL, '', ''), ('c3', 'k1', 'A3', 'old', '4v2', '', '', '', NULL, "
    "'', '');";
static const char packs_of_old[] =
    "INSERT INTO standing VALUES ('s1', 'c1', 'sound', 2.0, 0.1, NULL, NULL, NULL, NULL, '', '', ''),"
    "('s2', 'c2', 'scrap', 0.2, 0.1, NULL, NULL, NULL, NULL, '', '', '');"
    "INSERT INTO pack VALUES ('p1', 'K1', 1, '4v2', 2.0, NULL, 'reserved', NULL, '', '', '');"
    "INSERT INTO pack_slot VALUES ('l1', 'p1', 'c1', 1, 1, 'then', ''), ('l2', 'p1', 'c3', 1, 2, 'then', 'later');";

static bool codes_of(void *payload, const void *record)
{
    const lw_cell_view *view = record;
    char *text = payload;
    const size_t used = strlen(text);
    (void)snprintf(text + used, 400 - used, "%s ", view->cell.code);
    return true;
}

static void lists_are(lw_store *store, const lw_cell_filter *filter, const char *expected)
{
    char text[400] = "";
    DO(lw_store_cells(store, filter, codes_of, text, &err));
    assert_string_equal(text, expected);
}

/* Version 1 with rows in it comes to the newest with its rows and its journal, and the new tables are journalled. */
static void version_1_migrates(void **state)
{
    place *p = *state;
    lw_store *old = open_at(p->other, 1);
    lw_lamp_record lamp = {.code = "L1"};
    lw_error none = {0};
    assert_false(lw_store_put(old, LW_LAMPS, &lamp, &none)); /* not there yet */
    lw_store_close(old);
    write_as_before(p->other, cells_of_old);
    lw_store *new = open_at(p->other, 0);
    lw_cell_record again;
    bool found;
    DO(lw_store_get(new, LW_CELLS, "code", "A1", &again, &found, &err));
    assert_true(found && strcmp(again.id, "c1") == 0 && isnan(again.rated_ah));
    lamp = (lw_lamp_record){.code = "L1", .lat_deg = NAN, .lon_deg = NAN};
    DO(lw_store_put(new, LW_LAMPS, &lamp, &err));
    entries all = {0};
    DO(lw_store_journal(new, lamp.id, keep_entry, &all, &err));
    assert_int_equal(all.count, 1);
    all.count = 0;
    DO(lw_store_journal(new, "c1", keep_entry, &all, &err));
    assert_int_equal(all.count, 1);
    DO(lw_store_check(new, &err));
    lw_store_close(new);
}

/* Version 2 comes to version 3: the lists know what was judged and packed before, a rated capacity can be told, and the
 * step itself is no news in the journal. */
static void version_2_migrates(void **state)
{
    place *p = *state;
    lw_store_close(open_at(p->other, 2));
    write_as_before(p->other, cells_of_old);
    write_as_before(p->other, packs_of_old);
    lw_store *new = open_at(p->other, 3);
    lists_are(new, &(lw_cell_filter){.free_only = true}, "A2 A3 ");
    lists_are(new, &(lw_cell_filter){.verdict = "untested"}, "A3 ");
    lists_are(new, &(lw_cell_filter){.verdict = "sound", .crate = "ns1"}, "A1 ");
    lists_are(new, &(lw_cell_filter){.verdict = "sound", .free_only = true}, "");
    lw_cell_record cell;
    bool found;
    DO(lw_store_get(new, LW_CELLS, "code", "A1", &cell, &found, &err));
    cell.rated_ah = 2.2;
    DO(lw_store_put(new, LW_CELLS, &cell, &err));
    entries all = {0};
    DO(lw_store_journal(new, "c1", keep_entry, &all, &err));
    assert_int_equal(all.count, 2);
    assert_non_null(strstr(all.text[1], "\"rated_ah\":2.2"));
    assert_null(strstr(all.text[1], "now_"));
    DO(lw_store_check(new, &err));
    lw_store_close(new);
}

/* Version 4 comes to version 5: prices become whole numbers of the smallest unit. */
static void version_4_migrates(void **state)
{
    place *p = *state;
    lw_store_close(open_at(p->other, 4));
    write_as_before(p->other, "INSERT INTO price VALUES ('x1', 'wire', 'm', 0.29, 'NSL', '2026-07-01', 'market'),"
                              "('x2', 'wire', 'm', 70368744177.67, 'NSL', '2026-07-02', 'no such price');");
    lw_store *new = open_at(p->other, 5);
    lw_price_record price;
    bool found;
    int64_t rows;
    DO(lw_store_get(new, LW_PRICE_NOTES, "thing", "WIRE", &price, &found, &err));
    assert_true(found && price.minor == 29 && price.decimals == 2 && price.consumables_minor == 0);
    assert_string_equal(price.shop, "market");
    DO(lw_store_total(new, LW_PRICE_NOTES, &rows, &err));
    assert_int_equal(rows, 1);
    price.minor = 31;
    DO(lw_store_put(new, LW_PRICE_NOTES, &price, &err));
    entries all = {0};
    DO(lw_store_journal(new, "x1", keep_entry, &all, &err));
    assert_int_equal(all.count, 2);
    DO(lw_store_check(new, &err));
    lw_store_close(new);
}

/* Version 5 comes to version 6: slips of before are still known, and new kinds fit. */
static void version_5_migrates(void **state)
{
    place *p = *state;
    lw_store_close(open_at(p->other, 5));
    write_as_before(p->other, "INSERT INTO slip VALUES ('s1', 'crate', '2026', '2026', '{}', '{\"x\":1}');");
    lw_store *new = open_at(p->other, 6);
    lw_slip_record slip, next = {.id = "s2", .kind = "reading", .at = "2026", .document = "{}", .answer = "{}"};
    bool found;
    DO(lw_store_get(new, LW_SLIPS, "id", "s1", &slip, &found, &err));
    assert_true(found);
    assert_string_equal(slip.kind, "crate");
    DO(lw_store_add(new, LW_SLIPS, &next, &err));
    DO(lw_store_check(new, &err));
    lw_store_close(new);
}

/* What the lists know follows the tables, whoever changes them; a fault is found by the check. */
static void lists_follow(void **state)
{
    place *p = *state;
    put_everything(p->store); /* A1 is sound and in K1 */
    lists_are(p->store, &(lw_cell_filter){.free_only = true}, "");
    lw_slot_record slot;
    lw_standing_record standing;
    bool found;
    DO(lw_store_get(p->store, LW_SLOTS, "until", "", &slot, &found, &err));
    (void)snprintf(slot.until, sizeof slot.until, "2026-07-15T00:00:00Z");
    DO(lw_store_put(p->store, LW_SLOTS, &slot, &err));
    lists_are(p->store, &(lw_cell_filter){.free_only = true, .verdict = "sound"}, "A1 ");
    DO(lw_store_get(p->store, LW_STANDINGS, "verdict", "sound", &standing, &found, &err));
    (void)snprintf(standing.verdict, sizeof standing.verdict, "tired");
    DO(lw_store_put(p->store, LW_STANDINGS, &standing, &err));
    lists_are(p->store, &(lw_cell_filter){.verdict = "tired"}, "A1 ");
    DO(lw_store_remove(p->store, LW_STANDINGS, standing.id, &err));
    lists_are(p->store, &(lw_cell_filter){.verdict = "untested", .free_only = true}, "A1 ");
    REFUSED(lw_store_cells(p->store, &(lw_cell_filter){.verdict = "good"}, codes_of, NULL, &err), "verdict is");
    DO(lw_store_check(p->store, &err));
    write_as_before(p->path, "UPDATE cell SET now_packed = 1");
    REFUSED(lw_store_check(p->store, &err), "the lists do not know");
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
    lw_cell_record cell;
    DO(lw_store_get(second, LW_CELLS, "code", "A1", &cell, &found, &err));
    assert_true(cell.rated_ah == 2.5);
    lists_are(second, &(lw_cell_filter){.free_only = true}, ""); /* also what follows by itself */
    lists_are(second, &(lw_cell_filter){.verdict = "sound"}, "A1 ");
    lw_price_record price = {.thing = "later", .minor = 125, .decimals = 2};
    entries all = {0};
    DO(lw_store_put(second, LW_PRICE_NOTES, &price, &err)); /* the triggers are back */
    DO(lw_store_journal(second, price.id, keep_entry, &all, &err));
    assert_int_equal(all.count, 1);
    lw_store_close(second);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup_teardown(version_1_migrates, set_up, tear_down),
        cmocka_unit_test_setup_teardown(version_2_migrates, set_up, tear_down),
        cmocka_unit_test_setup_teardown(version_4_migrates, set_up, tear_down),
        cmocka_unit_test_setup_teardown(version_5_migrates, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lists_follow, set_up, tear_down),
        cmocka_unit_test_setup_teardown(foreign_files_are_refused, set_up, tear_down),
        cmocka_unit_test_setup_teardown(backup_and_restore, set_up, tear_down),
        cmocka_unit_test_setup_teardown(export_and_import, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
