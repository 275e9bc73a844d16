/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The store: ids, records, rules between tables, journal, lists.
 */
#include "store_place.h"

#include <sqlite3.h>

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
        lw_price_record price = {.thing = "wire", .minor = 37, .currency = "X", .decimals = 2};
        if (i == 4500)
            fixed_ms -= 86400000; /* a clock set back */
        DO(lw_store_put(p->store, LW_PRICE_NOTES, &price, &err));
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
    assert_true(out.found_v == 3.617 && out.rated_ah == 2.5);
    in.found_v = NAN;
    in.rated_ah = NAN;
    DO(lw_store_put(p->store, LW_CELLS, &in, &err));
    DO(lw_store_get(p->store, LW_CELLS, "id", in.id, &out, &found, &err));
    assert_true(isnan(out.found_v) && isnan(out.rated_ah));
    DO(lw_store_get(p->store, LW_CELLS, "code", "A-18", &out, &found, &err));
    assert_false(found);
}

static bool count_visits(void *payload, const void *record)
{
    (void)record;
    ++*(int *)payload;
    return true;
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
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
