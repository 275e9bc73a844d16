/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Recording a test: readings in, results computed (desk/crate_methods.c), both stored in one transaction.
 */
#include "crate_methods.h"

#include "lanewick/records_json.h"
#include "lanewick/utc.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

lw_cell_test lw_cell_test_blank(void)
{
    return (lw_cell_test){.load_ohm = NAN,
                          .lead_ohm = NAN,
                          .end_v = NAN,
                          .rate_a = NAN,
                          .temp_c = NAN,
                          .clock_s = NAN,
                          .capacity_ah = NAN,
                          .current_a = NAN,
                          .pulse_v = {NAN, NAN},
                          .pulse_a = {NAN, NAN}};
}

static bool take_instruments(lw_store *store, const lw_cell_test *test, lw_test_work *work, lw_error *err)
{
    work->meter = lw_usual_meter;
    work->load_ohm = test->load_ohm;
    work->load_tolerance_pct = 1.0;
    lw_instrument_record tool;
    if (test->meter) {
        if (!lw_desk_instrument(store, test->meter, &tool, err))
            return false;
        if (strcmp(tool.kind, "meter") != 0)
            return lw_fail(err, LW_WRONG_INPUT, "meter", "%s is a %s, not a meter.", tool.name, tool.kind);
        work->meter = (lw_meter){tool.percent, tool.digits, tool.step};
        memcpy(work->record.meter, tool.id, LW_ID);
    }
    if (!test->resistor)
        return true;
    if (!lw_desk_instrument(store, test->resistor, &tool, err))
        return false;
    if (isnan(tool.ohm))
        return lw_fail(err, LW_WRONG_INPUT, "resistor", "%s is a %s without a value in ohm.", tool.name, tool.kind);
    work->load_ohm = tool.ohm;
    work->load_tolerance_pct = isnan(tool.tolerance_pct) ? 5.0 : tool.tolerance_pct;
    memcpy(work->record.resistor, tool.id, LW_ID);
    return true;
}

static char *readings_text(const lw_cell_test *t, const lw_test_work *work)
{
    const char *const names[] = {"load_ohm",    "lead_ohm",  "end_v",         "rate_a",       "clock_s",
                                 "capacity_ah", "current_a", "open_before_v", "open_after_v", "open_after_s",
                                 "u1_v",        "u2_v",      "i1_a",          "i2_a"};
    const double values[] = {work->load_ohm,
                             t->lead_ohm,
                             t->end_v,
                             t->rate_a,
                             t->clock_s,
                             t->capacity_ah,
                             t->current_a,
                             t->open_before_v.given ? t->open_before_v.value : NAN,
                             t->open_after_v.given ? t->open_after_v.value : NAN,
                             t->open_after_v.given ? t->open_after_s : NAN,
                             t->pulse_v[0],
                             t->pulse_v[1],
                             t->pulse_a[0],
                             t->pulse_a[1]};
    const lw_readings readings = {.times_s = t->times_s,
                                  .volts_v = t->volts_v,
                                  .amps_a = t->amps_a,
                                  .n = t->n,
                                  .names = names,
                                  .values = values,
                                  .count = sizeof values / sizeof values[0]};
    return lw_readings_to_json(&readings);
}

static bool store_test(lw_store *store, lw_test_work *work, lw_error *err)
{
    const bool named = work->test->id != NULL;
    if (named)
        (void)snprintf(work->record.id, LW_ID, "%s", work->test->id);
    if (named ? !lw_store_add(store, LW_TESTS, &work->record, err) : !lw_store_put(store, LW_TESTS, &work->record, err))
        return false;
    for (int i = 0; i < work->count; i++) {
        lw_result_record *r = &work->results[i];
        memcpy(r->test, work->record.id, LW_ID);
        memcpy(r->cell, work->cell.id, LW_ID);
        if (!lw_store_put(store, LW_RESULTS, r, err))
            return false;
    }
    return true;
}

static bool date_test(const lw_store *store, const lw_cell_test *test, lw_test_record *record, lw_error *err)
{
    double days;
    if (!test->at) {
        lw_store_now(store, record->at);
        return true;
    }
    if (!lw_utc_parse("at", test->at, &days, err))
        return false;
    lw_utc_text(days, record->at);
    return true;
}

bool lw_desk_test_within(lw_store *store, const lw_cell_test *test, lw_result_record results[LW_TEST_RESULTS],
                         int *count, lw_error *err)
{
    lw_test_work work = {.store = store, .test = test, .results = results};
    *count = 0;
    if (!lw_desk_cell(store, test->cell, &work.cell, err) || !take_instruments(store, test, &work, err) ||
        !lw_record_text("method", test->method, work.record.method, sizeof work.record.method, err) ||
        !lw_record_text("note", test->note ? test->note : "", work.record.note, sizeof work.record.note, err) ||
        !date_test(store, test, &work.record, err) || !lw_test_compute(&work, err))
        return false;
    memcpy(work.record.cell, work.cell.id, LW_ID);
    work.record.temp_c = test->temp_c;
    char *readings = readings_text(test, &work);
    if (!readings)
        return lw_fail(err, LW_STORAGE, "", "There is not enough memory to keep the readings.");
    work.record.readings = readings;
    const bool done = store_test(store, &work, err);
    free(readings);
    *count = done ? work.count : 0;
    return done;
}

bool lw_desk_test(lw_store *store, const lw_cell_test *test, lw_result_record results[LW_TEST_RESULTS], int *count,
                  lw_error *err)
{
    if (!lw_store_begin(store, "crate test", err))
        return false;
    if (lw_desk_test_within(store, test, results, count, err) && lw_store_commit(store, err))
        return true;
    lw_store_rollback(store);
    *count = 0;
    return false;
}
