/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The store: records, journal, rules, pages, migrations, backup, export.
 */
#include "lanewick/store.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>
#include <sqlite3.h>

typedef struct place {
    char folder[64], path[100], other[100], zip[100];
    lw_store *store;
} place;

static int64_t fixed_ms = 1784000000123; /* 2026-07-14 */
static int64_t fixed_clock(void *payload)
{
    return *(int64_t *)payload;
}

static lw_store *open_at(const char *path, int version)
{
    lw_store *store = NULL;
    lw_error err = {0};
    const lw_store_options options = {
        .path = path, .who = "Tamika", .create = true, .version = version, .now_ms = fixed_clock, .payload = &fixed_ms};
    if (!lw_store_open(&options, &store, &err))
        fail_msg("%s", err.message);
    return store;
}

static int set_up(void **state)
{
    place *p = calloc(1, sizeof *p);
    if (!p)
        return 1;
    (void)snprintf(p->folder, sizeof p->folder, "/tmp/lanewick-store-XXXXXX");
    if (!mkdtemp(p->folder))
        return 1;
    (void)snprintf(p->path, sizeof p->path, "%s/a.store", p->folder);
    (void)snprintf(p->other, sizeof p->other, "%s/b.store", p->folder);
    (void)snprintf(p->zip, sizeof p->zip, "%s/all.zip", p->folder);
    p->store = open_at(p->path, 0);
    *state = p;
    return 0;
}

static int tear_down(void **state)
{
    place *p = *state;
    lw_store_close(p->store);
    const char *endings[] = {"a.store",     "a.store-wal", "a.store-shm", "b.store",
                             "b.store-wal", "b.store-shm", "all.zip"};
    for (size_t i = 0; i < sizeof endings / sizeof endings[0]; i++) {
        char path[160];
        (void)snprintf(path, sizeof path, "%s/%s", p->folder, endings[i]);
        (void)unlink(path);
    }
    const int left = rmdir(p->folder); /* nothing else may have been left behind */
    free(p);
    return left;
}

#define DO(call)                         \
    do {                                 \
        lw_error err = {0};              \
        if (!(call))                     \
            fail_msg("%s", err.message); \
    } while (0)
#define REFUSED(call, part)                                     \
    do {                                                        \
        lw_error err = {0};                                     \
        assert_false(call);                                     \
        if (!strstr(err.message, part))                         \
            fail_msg("\"%s\" lacks \"%s\"", err.message, part); \
    } while (0)

static void put_crate(lw_store *store, lw_crate_record *crate)
{
    *crate = (lw_crate_record){.code = "NS1", .name = "first crate", .origin = "market"};
    DO(lw_store_put(store, LW_CRATES, crate, &err));
}

static lw_cell_record put_cell(lw_store *store, const char *crate, const char *code, const char *marking)
{
    lw_cell_record cell = lw_cell_blank();
    (void)snprintf(cell.crate, sizeof cell.crate, "%s", crate);
    (void)snprintf(cell.code, sizeof cell.code, "%s", code);
    (void)snprintf(cell.marking, sizeof cell.marking, "%s", marking);
    cell.found_v = 3.617;
    DO(lw_store_put(store, LW_CELLS, &cell, &err));
    return cell;
}

/* RFC 9562, appendix A.6: the example of a version 7 UUID (from memory of the document). */
static void uuid_is_as_published(void **state)
{
    (void)state;
    char id[LW_ID];
    lw_uuid7_text(0x017F22E279B0, 0xCC3, 0x18C4DC0C0C07398FULL, id);
    assert_string_equal(id, "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
}

static void ids_sort_by_time(void **state)
{
    place *p = *state;
    lw_crate_record crate;
    put_crate(p->store, &crate);
    char before[LW_ID] = "";
    for (int i = 0; i < 9000; i++) { /* more than one millisecond's counter holds, with a clock that stands still */
        lw_price_record price = {.thing = "wire", .unit = "m", .price = 0.37, .currency = "X"};
        if (i == 4500)
            fixed_ms -= 86400000; /* a clock set back */
        DO(lw_store_put(p->store, LW_PRICES, &price, &err));
        assert_true(strcmp(before, price.id) < 0);
        memcpy(before, price.id, sizeof before);
        if (i == 0)
            DO(lw_store_begin(p->store, "prices", &err));
    }
    DO(lw_store_commit(p->store, &err));
    fixed_ms += 86400000;
}

static void records_come_back(void **state)
{
    place *p = *state;
    lw_crate_record crate;
    put_crate(p->store, &crate);
    lw_cell_record in = put_cell(p->store, crate.id, "A-17", "ICR18650-22 \"F\"\xC2\xB5"), out;
    bool found;
    DO(lw_store_get(p->store, LW_CELLS, "code", "a-17", &out, &found, &err)); /* codes count alike in both cases */
    assert_true(found);
    assert_string_equal(out.id, in.id);
    assert_string_equal(out.marking, in.marking);
    assert_true(out.found_v == 3.617);
    in.found_v = NAN;
    DO(lw_store_put(p->store, LW_CELLS, &in, &err));
    DO(lw_store_get(p->store, LW_CELLS, "id", in.id, &out, &found, &err));
    assert_true(isnan(out.found_v));
    DO(lw_store_get(p->store, LW_CELLS, "code", "A-18", &out, &found, &err));
    assert_false(found);
}

static bool count_visits(void *payload, const void *record)
{
    (void)record;
    ++*(int *)payload;
    return true;
}

/* One record of every table; each refers to the ones before. */
static void put_everything(lw_store *store)
{
    lw_crate_record crate;
    put_crate(store, &crate);
    lw_cell_record cell = put_cell(store, crate.id, "A1", "INR18650-25");
    lw_workshop_record workshop = {.name = "Nsungwi Light Workshop", .place = "Nsungwi Landing", .currency = "NSL"};
    lw_instrument_record meter = {.name = "grey meter",
                                  .kind = "meter",
                                  .percent = 0.5,
                                  .digits = 2,
                                  .step = 0.001,
                                  .ohm = NAN,
                                  .tolerance_pct = NAN};
    DO(lw_store_put(store, LW_WORKSHOPS, &workshop, &err));
    DO(lw_store_put(store, LW_INSTRUMENTS, &meter, &err));
    lw_test_record test = {.method = "resistor",
                           .at = "2026-07-14T08:00:00Z",
                           .temp_c = 24.5,
                           .readings = "{\"times_s\":[0,600.5],\"volts_v\":[4.021,3.97]}"};
    memcpy(test.cell, cell.id, LW_ID);
    memcpy(test.meter, meter.id, LW_ID);
    DO(lw_store_put(store, LW_TESTS, &test, &err));
    lw_result_record result = {.kind = "capacity_ah", .value = 0.1 + 0.2, .sd = 1.0 / 3.0}; /* 17 digits */
    memcpy(result.test, test.id, LW_ID);
    memcpy(result.cell, cell.id, LW_ID);
    DO(lw_store_put(store, LW_RESULTS, &result, &err));
    lw_standing_record standing = {.verdict = "sound",
                                   .capacity_ah = 2.031,
                                   .capacity_sd_ah = 0.04,
                                   .resistance_ohm = 0.0995,
                                   .resistance_sd_ohm = NAN,
                                   .self_discharge_pct = NAN,
                                   .self_discharge_sd_pct = NAN,
                                   .reasons = "two lines\nand \"quotes\"",
                                   .at = "2026"};
    memcpy(standing.cell, cell.id, LW_ID);
    DO(lw_store_put(store, LW_STANDINGS, &standing, &err));
    lw_plan_record plan = {.code = "P1", .name = "lane", .document = "{\"format\":\"lanewick.plan/1\"}"};
    DO(lw_store_put(store, LW_PLANS, &plan, &err));
    lw_pack_record pack = {.code = "K1",
                           .series = 1,
                           .voltage_class = "4v2",
                           .weakest_ah = 2.031,
                           .guaranteed_ah = NAN,
                           .state = "reserved"};
    DO(lw_store_put(store, LW_PACKS, &pack, &err));
    lw_slot_record slot = {.group = 1, .place = 1, .since = "2026-07-14T18:05:30Z"};
    memcpy(slot.pack, pack.id, LW_ID);
    memcpy(slot.cell, cell.id, LW_ID);
    DO(lw_store_put(store, LW_SLOTS, &slot, &err));
    lw_lamp_record lamp = {.code = "L1", .name = "jetty", .lat_deg = -11.6213, .lon_deg = 34.2701, .keeper = "Ama"};
    memcpy(lamp.pack, pack.id, LW_ID);
    DO(lw_store_put(store, LW_LAMPS, &lamp, &err));
    lw_sighting_record sighting = {.at = "2026-08-01T17:10:00Z", .kind = "dusk_v", .value = 4.013};
    memcpy(sighting.lamp, lamp.id, LW_ID);
    DO(lw_store_put(store, LW_SIGHTINGS, &sighting, &err));
    lw_label_record label = {.code = "7K3Q", .kind = "lamp", .at = "2026"};
    memcpy(label.thing, lamp.id, LW_ID);
    DO(lw_store_put(store, LW_LABELS, &label, &err));
    lw_price_record price = {.thing = "wire 0.75", .unit = "m", .price = 0.37, .currency = "NSL"};
    DO(lw_store_put(store, LW_PRICES, &price, &err));
}

static void rules_hold(void **state)
{
    place *p = *state;
    put_everything(p->store);
    lw_cell_record twice = lw_cell_blank(), cell;
    bool found;
    DO(lw_store_get(p->store, LW_CELLS, "code", "A1", &cell, &found, &err));
    memcpy(twice.crate, cell.crate, LW_ID);
    memcpy(twice.code, "a1", 3);
    REFUSED(lw_store_put(p->store, LW_CELLS, &twice, &err), "same cell.code");
    assert_string_equal(twice.id, "");
    memcpy(twice.code, "A2", 3);
    memcpy(twice.crate, "nowhere", 8);
    REFUSED(lw_store_put(p->store, LW_CELLS, &twice, &err), "not there");
    memcpy(twice.crate, cell.crate, LW_ID);
    memcpy(twice.voltage_class, "5v", 3);
    REFUSED(lw_store_put(p->store, LW_CELLS, &twice, &err), "CHECK");
    lw_pack_record second = {.code = "K2",
                             .series = 1,
                             .voltage_class = "4v2",
                             .weakest_ah = NAN,
                             .guaranteed_ah = NAN,
                             .state = "reserved"};
    DO(lw_store_put(p->store, LW_PACKS, &second, &err));
    lw_slot_record slot = {.group = 1, .place = 1};
    memcpy(slot.pack, second.id, LW_ID);
    memcpy(slot.cell, cell.id, LW_ID);
    REFUSED(lw_store_put(p->store, LW_SLOTS, &slot, &err), "sits in another pack");
    REFUSED(lw_store_remove(p->store, LW_CELLS, cell.id, &err), "others refer");
    REFUSED(lw_store_remove(p->store, LW_CELLS, "nobody", &err), "no cell with the id");
    lw_cell_record ghost = cell;
    memcpy(ghost.id, "nobody", 7);
    REFUSED(lw_store_put(p->store, LW_CELLS, &ghost, &err), "no cell with the id");
    REFUSED(lw_store_each(p->store, LW_CELLS, "x; DROP TABLE cell", "", count_visits, &found, &err), "no column");
    DO(lw_store_check(p->store, &err));
}

typedef struct entries {
    int count;
    char text[3][1200];
} entries;

static bool keep_entry(void *payload, const void *record)
{
    entries *all = payload;
    const lw_journal_entry *e = record;
    if (all->count < 3)
        (void)snprintf(all->text[all->count], sizeof all->text[0], "%s %s %s %s before %s after %s", e->at, e->who,
                       e->what, e->kind, e->before ? e->before : "nothing", e->after ? e->after : "nothing");
    all->count++;
    return true;
}

static void journal_tells_who_and_what(void **state)
{
    place *p = *state;
    lw_crate_record crate;
    put_crate(p->store, &crate);
    lw_store_what(p->store, "bench");
    lw_cell_record cell = put_cell(p->store, crate.id, "A1", "old");
    memcpy(cell.marking, "new", 4);
    DO(lw_store_put(p->store, LW_CELLS, &cell, &err));
    DO(lw_store_remove(p->store, LW_CELLS, cell.id, &err));
    entries all = {0};
    DO(lw_store_journal(p->store, cell.id, keep_entry, &all, &err));
    assert_int_equal(all.count, 3);
    assert_non_null(strstr(all.text[0], "2026-07-14T03:33:20Z Tamika bench cell before nothing after {\"id\":\""));
    assert_non_null(strstr(all.text[1], "\"marking\":\"old\""));
    assert_non_null(strstr(strstr(all.text[1], "after"), "\"marking\":\"new\""));
    assert_non_null(strstr(all.text[2], "after nothing"));
    DO(lw_store_begin(p->store, "undone", &err));
    (void)put_cell(p->store, crate.id, "A9", "never");
    lw_store_rollback(p->store);
    all.count = 0;
    DO(lw_store_journal(p->store, NULL, keep_entry, &all, &err));
    assert_int_equal(all.count, 4);
}

/* Neither the journal nor the records can be changed unseen by another program. */
static void journal_cannot_be_changed(void **state)
{
    place *p = *state;
    lw_crate_record crate;
    put_crate(p->store, &crate);
    sqlite3 *db;
    assert_int_equal(sqlite3_open(p->path, &db), SQLITE_OK);
    assert_int_equal(sqlite3_exec(db, "UPDATE journal SET who = 'nobody'", NULL, NULL, NULL), SQLITE_CONSTRAINT);
    assert_int_equal(sqlite3_exec(db, "DELETE FROM journal", NULL, NULL, NULL), SQLITE_CONSTRAINT);
    assert_int_equal(sqlite3_exec(db, "UPDATE crate SET name = 'x'", NULL, NULL, NULL), SQLITE_ERROR);
    assert_int_equal(sqlite3_exec(db, "SELECT * FROM crate", NULL, NULL, NULL), SQLITE_OK);
    (void)sqlite3_close(db);
}

static bool codes_of(void *payload, const void *record)
{
    char *text = payload;
    const lw_cell_view *view = record;
    const size_t used = strlen(text);
    (void)snprintf(text + used, 400 - used, "%s/%s/%s/%s ", view->cell.code, view->crate, view->standing.verdict,
                   view->pack);
    return true;
}

static void lists_and_searches(void **state)
{
    place *p = *state;
    put_everything(p->store);
    lw_crate_record crate;
    bool found;
    DO(lw_store_get(p->store, LW_CRATES, "code", "NS1", &crate, &found, &err));
    (void)put_cell(p->store, crate.id, "B2", "a100");
    (void)put_cell(p->store, crate.id, "C3", "INR18650-25");
    char text[400] = "";
    DO(lw_store_cells(p->store, &(lw_cell_filter){.search = "a1"}, codes_of, text, &err));
    assert_string_equal(text, "A1/NS1/sound/K1 B2/NS1/untested/ ");
    text[0] = '\0';
    DO(lw_store_cells(p->store, &(lw_cell_filter){.search = "inr", .free_only = true}, codes_of, text, &err));
    assert_string_equal(text, "C3/NS1/untested/ ");
    text[0] = '\0';
    DO(lw_store_cells(p->store, &(lw_cell_filter){.crate = "ns1", .after = "A1", .limit = 1}, codes_of, text, &err));
    assert_string_equal(text, "B2/NS1/untested/ ");
    text[0] = '\0';
    DO(lw_store_cells(p->store, &(lw_cell_filter){.verdict = "sound"}, codes_of, text, &err));
    assert_string_equal(text, "A1/NS1/sound/K1 ");
}

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
        cmocka_unit_test(uuid_is_as_published),
        cmocka_unit_test_setup_teardown(ids_sort_by_time, set_up, tear_down),
        cmocka_unit_test_setup_teardown(records_come_back, set_up, tear_down),
        cmocka_unit_test_setup_teardown(rules_hold, set_up, tear_down),
        cmocka_unit_test_setup_teardown(journal_tells_who_and_what, set_up, tear_down),
        cmocka_unit_test_setup_teardown(journal_cannot_be_changed, set_up, tear_down),
        cmocka_unit_test_setup_teardown(lists_and_searches, set_up, tear_down),
        cmocka_unit_test_setup_teardown(version_1_migrates, set_up, tear_down),
        cmocka_unit_test_setup_teardown(foreign_files_are_refused, set_up, tear_down),
        cmocka_unit_test_setup_teardown(backup_and_restore, set_up, tear_down),
        cmocka_unit_test_setup_teardown(export_and_import, set_up, tear_down),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
