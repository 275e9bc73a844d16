/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What the tests of the store share: a folder of their own, a fixed clock, one record of every table.
 */
#ifndef LANEWICK_TESTS_STORE_PLACE_H
#define LANEWICK_TESTS_STORE_PLACE_H

#include "lanewick/store.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <cmocka.h>

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
    if (!mkdtemp(p->folder)) {
        free(p);
        return 1;
    }
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
    cell.rated_ah = 2.5;
    DO(lw_store_put(store, LW_CELLS, &cell, &err));
    return cell;
}

/* One record of every table; each refers to the ones before. */
static void put_cell_tables(lw_store *store, lw_cell_record *cell_out)
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
    *cell_out = cell;
}

static void put_everything(lw_store *store)
{
    lw_cell_record cell;
    put_cell_tables(store, &cell);
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
    const lw_slip_record slip = {.id = "0197f3a0-1111-7aaa-8bbb-000000000001",
                                 .kind = "crate",
                                 .at = "2026-07-14T08:00:00Z",
                                 .document = "{\"code\":\"K\"}",
                                 .answer = "{}"};
    DO(lw_store_add(store, LW_SLIPS, &slip, &err));
    lw_cell_record of;
    bool there;
    DO(lw_store_get(store, LW_CELLS, "code", "A1", &of, &there, &err));
    lw_run_record run = {
        .at = "2026-07-14T08:00:00Z", .load_ohm = 4.02, .every_s = 600, .temp_c = NAN, .open_before_v = 4.12};
    memcpy(run.cell, of.id, LW_ID);
    DO(lw_store_put(store, LW_RUNS, &run, &err));
    lw_run_reading_record reading = {.at = "2026-07-14T08:00:10Z", .volts = 4.01};
    memcpy(reading.run, run.id, LW_ID);
    DO(lw_store_put(store, LW_RUN_READINGS, &reading, &err));
    lw_error twice = {0};
    assert_false(lw_store_add(store, LW_SLIPS, &slip, &twice)); /* the same id again */
    assert_int_equal(twice.family, LW_WRONG_INPUT);
    lw_price_record price = {.thing = "wire 0.75",
                             .minor = 9007199254,
                             .currency = "NSL",
                             .decimals = 2,
                             .at = "2026-11-02",
                             .shop = "market"};
    DO(lw_store_put(store, LW_PRICE_NOTES, &price, &err));
    lw_part_record part = {.name = "wire 0.75", .sold_by = 10, .spares_pm = -1};
    DO(lw_store_put(store, LW_PARTS, &part, &err));
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

#endif
