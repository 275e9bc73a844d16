/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What each kind of slip does. A change names each field as it was seen: where the store says otherwise by now, and
 * not what is wanted either, somebody else wrote meanwhile, and a person decides.
 */
#include "slip_inside.h"

#include "lanewick/records_json.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

bool lw_slip_reply_with(lw_slip_work *work, lw_slip_outcome outcome, const char *field, const char *format, ...)
{
    va_list rest;
    va_start(rest, format);
    (void)vsnprintf(work->reply->detail, sizeof work->reply->detail, format, rest);
    va_end(rest);
    (void)snprintf(work->reply->field, sizeof work->reply->field, "%s", field);
    work->reply->outcome = outcome;
    return true;
}

static bool keep_view(void *payload, const void *record)
{
    const lw_cell_view *view = record;
    char **json = payload;
    *json = lw_cell_to_json(&view->cell, &view->standing, view->crate, view->pack);
    return false;
}

char *lw_slip_cell_json(lw_store *store, const char *code)
{
    char *json = NULL;
    lw_error err = {0};
    /* the code itself comes first of those that begin so */
    const lw_cell_filter filter = {.search = code, .limit = 1};
    if (!lw_store_cells(store, &filter, keep_view, &json, &err)) {
        free(json);
        return NULL;
    }
    return json;
}

static char *sent_cell(const lw_slip_work *work, const lw_cell_record *cell)
{
    const lw_standing_record none = lw_standing_blank();
    return lw_cell_to_json(cell, &none, work->crate.code, "");
}

static bool apply_crate(lw_slip_work *work, lw_error *err)
{
    bool found;
    lw_crate_record there;
    lw_cell_record trial = lw_cell_blank(); /* the same rule for codes */
    memcpy(trial.code, work->slip.crate.code, sizeof trial.code);
    work->crate = work->slip.crate;
    if (!lw_cell_check(&trial, err) ||
        !lw_store_get(work->store, LW_CRATES, "code", work->crate.code, &there, &found, err))
        return false;
    if (!found)
        return lw_store_add(work->store, LW_CRATES, &work->crate, err);
    work->reply->stored = lw_crate_to_json(&there);
    work->reply->sent = lw_crate_to_json(&work->crate);
    return lw_slip_reply_with(work, LW_SLIP_CONFLICT, "code", "There is a crate %s already.", there.code);
}

static bool label_is_taken(lw_slip_work *work, const lw_cell_record *cell)
{
    work->reply->stored = lw_slip_cell_json(work->store, cell->code);
    work->reply->sent = sent_cell(work, cell);
    return lw_slip_reply_with(work, LW_SLIP_CONFLICT, "code",
                              "There is a cell %s already; every label may be there once.", cell->code);
}

static bool apply_cell(lw_slip_work *work, lw_error *err)
{
    bool found;
    lw_cell_record there;
    if (!lw_store_get(work->store, LW_CRATES, "code", work->slip.crate.code, &work->crate, &found, err))
        return false;
    if (!found)
        return lw_slip_reply_with(work, LW_SLIP_MISSING, "crate", "There is no crate %s.", work->slip.crate.code);
    work->cell = work->slip.cell;
    memcpy(work->cell.crate, work->crate.id, LW_ID);
    if (!lw_store_get(work->store, LW_CELLS, "code", work->cell.code, &there, &found, err))
        return false;
    return found ? label_is_taken(work, &work->cell) : lw_store_add(work->store, LW_CELLS, &work->cell, err);
}

static bool find_cell(lw_slip_work *work, bool *found, lw_error *err)
{
    bool home;
    if (!lw_store_get(work->store, LW_CELLS, "id", work->slip.target, &work->cell, found, err))
        return false;
    if (!*found)
        return lw_slip_reply_with(work, LW_SLIP_MISSING, "cell", "There is no cell with the id %s.", work->slip.target);
    return lw_store_get(work->store, LW_CRATES, "id", work->cell.crate, &work->crate, &home, err);
}

/* Field i is as it was seen, or already as it shall be. */
static bool agrees(const lw_slip_work *work, int i)
{
    char now[LW_NOTE], was[LW_NOTE], wanted[LW_NOTE];
    lw_slip_field_get(&work->cell, i, now);
    lw_slip_field_get(&work->slip.was, i, was);
    lw_slip_field_get(&work->slip.cell, i, wanted);
    return strcmp(now, was) == 0 || strcmp(now, wanted) == 0;
}

static bool apply_change(lw_slip_work *work, lw_error *err)
{
    bool found;
    lw_cell_record other;
    if (!find_cell(work, &found, err) || !found)
        return found == false && err->family == LW_OK;
    lw_cell_record wanted = work->cell;
    int differs = -1;
    for (int i = LW_SLIP_FIELDS - 1; i >= 0; i--) {
        if (!work->slip.named[i])
            continue;
        differs = agrees(work, i) ? differs : i;
        lw_slip_field_set(&wanted, &work->slip.cell, i);
    }
    if (!isnan(wanted.found_v) && !wanted.found_at[0])
        memcpy(wanted.found_at, work->slip.at, LW_STAMP);
    if (!lw_cell_check(&wanted, err))
        return false;
    if (differs >= 0) {
        work->reply->stored = lw_slip_cell_json(work->store, work->cell.code);
        work->reply->sent = sent_cell(work, &wanted);
        return lw_slip_reply_with(work, LW_SLIP_CONFLICT, lw_slip_field(differs),
                                  "%s of cell %s was written otherwise meanwhile.", lw_slip_field(differs),
                                  work->cell.code);
    }
    if (!lw_store_get(work->store, LW_CELLS, "code", wanted.code, &other, &found, err))
        return false;
    if (found && strcmp(other.id, wanted.id) != 0)
        return label_is_taken(work, &wanted);
    work->cell = wanted;
    return lw_store_put(work->store, LW_CELLS, &work->cell, err);
}

static lw_reading maybe(double x)
{
    return (lw_reading){!isnan(x), isnan(x) ? 0.0 : x};
}

static bool apply_test(lw_slip_work *work, lw_error *err)
{
    const lw_slip_test *t = &work->slip.test;
    bool found, ran;
    if (!find_cell(work, &found, err) || !found)
        return found == false && err->family == LW_OK;
    if (work->slip.run.id[0]) {
        if (!lw_slip_end_run(work, work->slip.run.id, &ran, err))
            return false;
        if (!ran)
            return lw_slip_run_is_over(work, work->slip.run.id, err);
    }
    lw_cell_test test = lw_cell_test_blank();
    test.id = work->slip.id;
    test.cell = work->cell.code;
    test.method = t->method;
    test.at = work->slip.at;
    test.meter = t->meter[0] ? t->meter : NULL;
    test.resistor = t->resistor[0] ? t->resistor : NULL;
    test.times_s = t->times_s;
    test.volts_v = t->volts_v;
    test.amps_a = t->amps_a;
    test.n = t->n;
    test.load_ohm = t->load_ohm;
    test.lead_ohm = t->lead_ohm;
    test.end_v = t->end_v;
    test.temp_c = t->temp_c;
    test.clock_s = t->clock_s;
    test.open_before_v = maybe(t->open_before_v);
    test.open_after_v = maybe(t->open_after_v);
    test.open_after_s = isnan(t->open_after_s) ? 0.0 : t->open_after_s;
    test.capacity_ah = t->capacity_ah;
    test.current_a = t->current_a;
    memcpy(test.pulse_v, t->pulse_v, sizeof test.pulse_v);
    memcpy(test.pulse_a, t->pulse_a, sizeof test.pulse_a);
    test.flag = t->flag[0] ? t->flag : NULL;
    test.note = t->note;
    return lw_desk_test_within(work->store, &test, work->results, &work->count, err);
}

typedef struct ids {
    char (*id)[LW_ID];
    size_t n, room;
} ids;

static bool keep_id(void *payload, const void *record)
{
    ids *list = payload;
    if (list->n < list->room)
        memcpy(list->id[list->n++], ((const lw_result_record *)record)->id, LW_ID);
    return true;
}

static bool remove_test(lw_slip_work *work, const lw_test_record *test, lw_error *err)
{
    char room[LW_TEST_RESULTS][LW_ID];
    ids list = {room, 0, LW_TEST_RESULTS};
    bool found;
    if (!lw_store_each(work->store, LW_RESULTS, "test", test->id, keep_id, &list, err))
        return false;
    for (size_t i = 0; i < list.n; i++)
        if (!lw_store_remove(work->store, LW_RESULTS, room[i], err))
            return false;
    return lw_store_remove(work->store, LW_TESTS, test->id, err) &&
           lw_store_get(work->store, LW_CELLS, "id", test->cell, &work->cell, &found, err);
}

static bool remove_cell(lw_slip_work *work, const lw_cell_record *cell, lw_error *err)
{
    bool judged, tested;
    lw_standing_record standing;
    lw_test_record test;
    if (!lw_store_get(work->store, LW_TESTS, "cell", cell->id, &test, &tested, err) ||
        !lw_store_get(work->store, LW_STANDINGS, "cell", cell->id, &standing, &judged, err))
        return false;
    if (tested)
        return lw_fail(err, LW_WRONG_INPUT, "row", "Cell %s has tests; take them back first.", cell->code);
    return (!judged || lw_store_remove(work->store, LW_STANDINGS, standing.id, err)) &&
           lw_store_remove(work->store, LW_CELLS, cell->id, err);
}

static bool apply_remove(lw_slip_work *work, lw_error *err)
{
    bool found;
    lw_test_record test;
    lw_cell_record cell;
    if (!lw_store_get(work->store, LW_TESTS, "id", work->slip.target, &test, &found, err))
        return false;
    if (found)
        return remove_test(work, &test, err);
    if (!lw_store_get(work->store, LW_CELLS, "id", work->slip.target, &cell, &found, err))
        return false;
    if (found)
        return remove_cell(work, &cell, err);
    if (!lw_slip_remove_reading(work, &found, err))
        return false;
    if (!found && !lw_slip_end_run(work, work->slip.target, &found, err))
        return false;
    if (found)
        return true;
    return lw_slip_reply_with(work, LW_SLIP_MISSING, "row",
                              "There is no cell, test, discharge or reading with the id %s.", work->slip.target);
}

bool lw_slip_apply(lw_slip_work *work, lw_error *err)
{
    static bool (*const apply[])(lw_slip_work * work, lw_error * err) = {
        [LW_SLIP_CRATE] = apply_crate,
        [LW_SLIP_CELL] = apply_cell,
        [LW_SLIP_CHANGE] = apply_change,
        [LW_SLIP_TEST] = apply_test,
        [LW_SLIP_REMOVE] = apply_remove,
        [LW_SLIP_RUN] = lw_slip_apply_run,
        [LW_SLIP_READING] = lw_slip_apply_reading,
    };
    return apply[work->slip.kind](work, err);
}
