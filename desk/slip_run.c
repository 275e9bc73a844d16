/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Discharges under way: one phone begins them, any phone takes the next reading, and the test that finishes one takes
 * its place. See slip_inside.h.
 */
#include "slip_inside.h"

#include "crate_list.h"
#include "visits.h"

#include "lanewick/desk_crate_json.h"
#include "lanewick/records_json.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct gathered {
    lw_run_reading_record *reading; /* room for LW_SLIP_READINGS */
    size_t n;
} gathered;

static bool keep_reading(void *payload, const void *record)
{
    gathered *g = payload;
    if (g->n < LW_SLIP_READINGS)
        g->reading[g->n++] = *(const lw_run_reading_record *)record;
    return true;
}

/* Phones send late what they read early. */
static int by_time(const void *a, const void *b)
{
    const lw_run_reading_record *one = a, *other = b;
    const int order = strcmp(one->at, other->at);
    return order != 0 ? order : strcmp(one->id, other->id);
}

static bool readings_of(lw_store *store, const char *run, gathered *out, lw_error *err)
{
    *out = (gathered){.reading = malloc(LW_SLIP_READINGS * sizeof *out->reading)};
    if (!out->reading)
        return lw_fail(err, LW_STORAGE, "", "Memory is out.");
    if (lw_store_each(store, LW_RUN_READINGS, "run", run, keep_reading, out, err)) {
        qsort(out->reading, out->n, sizeof out->reading[0], by_time);
        return true;
    }
    free(out->reading);
    return false;
}

/* The run as people see it; NULL with *err: storage. */
static char *run_json(lw_store *store, const lw_run_record *run, lw_error *err)
{
    gathered g;
    lw_cell_record cell;
    lw_instrument_record tool = {0};
    bool found, named = false;
    if (!lw_store_get(store, LW_CELLS, "id", run->cell, &cell, &found, err) ||
        (run->resistor[0] && !lw_store_get(store, LW_INSTRUMENTS, "id", run->resistor, &tool, &named, err)) ||
        !readings_of(store, run->id, &g, err))
        return NULL;
    char *text = lw_run_to_json(run, found ? cell.code : "", named ? tool.name : "", g.reading, g.n);
    free(g.reading);
    if (!text)
        (void)lw_fail(err, LW_STORAGE, "", "Memory is out.");
    return text;
}

bool lw_slip_apply_run(lw_slip_work *work, lw_error *err)
{
    lw_run_record *run = &work->slip.run;
    lw_cell_record cell;
    lw_instrument_record tool;
    bool found;
    if (!lw_store_get(work->store, LW_CELLS, "id", work->slip.target, &cell, &found, err))
        return false;
    if (!found)
        return lw_slip_reply_with(work, LW_SLIP_MISSING, "cell", "There is no cell with the id %s.", work->slip.target);
    if (work->slip.test.resistor[0]) {
        if (!lw_desk_instrument(work->store, work->slip.test.resistor, &tool, err))
            return false;
        if (isnan(tool.ohm))
            return lw_fail(err, LW_WRONG_INPUT, "resistor", "%s is a %s without a value in ohm.", tool.name, tool.kind);
        memcpy(run->resistor, tool.id, LW_ID);
        run->load_ohm = tool.ohm;
    }
    if (!lw_store_add(work->store, LW_RUNS, run, err))
        return false;
    work->run = run_json(work->store, run, err);
    return work->run != NULL;
}

bool lw_slip_run_is_over(lw_slip_work *work, const char *id, lw_error *err)
{
    lw_slip_record begun;
    bool was = false;
    if (!lw_store_get(work->store, LW_SLIPS, "id", id, &begun, &was, err))
        return false;
    if (!was)
        return lw_slip_reply_with(work, LW_SLIP_MISSING, "run", "There is no discharge under way with the id %s.", id);
    return lw_slip_reply_with(work, LW_SLIP_CONFLICT, "run",
                              "This discharge was finished or thrown away already, at another device.");
}

bool lw_slip_apply_reading(lw_slip_work *work, lw_error *err)
{
    lw_run_record run;
    bool found;
    if (!lw_store_get(work->store, LW_RUNS, "id", work->slip.target, &run, &found, err))
        return false;
    if (!found)
        return lw_slip_run_is_over(work, work->slip.target, err);
    lw_run_reading_record reading = {.volts = work->slip.volts};
    memcpy(reading.id, work->slip.id, LW_ID);
    memcpy(reading.run, run.id, LW_ID);
    memcpy(reading.at, work->slip.at, LW_STAMP);
    if (strcmp(work->slip.at, run.at) < 0)
        return lw_fail(err, LW_WRONG_INPUT, "at", "The reading is of %s, before the discharge began at %s.",
                       work->slip.at, run.at);
    if (isnan(reading.volts))
        memcpy(run.ended, work->slip.at, LW_STAMP);
    if (isnan(reading.volts) ? !lw_store_put(work->store, LW_RUNS, &run, err)
                             : !lw_store_add(work->store, LW_RUN_READINGS, &reading, err))
        return false;
    work->run = run_json(work->store, &run, err);
    return work->run != NULL;
}

bool lw_slip_end_run(lw_slip_work *work, const char *id, bool *found, lw_error *err)
{
    lw_run_record run;
    gathered g;
    if (!lw_store_get(work->store, LW_RUNS, "id", id, &run, found, err))
        return false;
    if (!*found)
        return true;
    bool done = readings_of(work->store, id, &g, err);
    if (!done)
        return false;
    for (size_t i = 0; done && i < g.n; i++)
        done = lw_store_remove(work->store, LW_RUN_READINGS, g.reading[i].id, err);
    free(g.reading);
    return done && lw_store_remove(work->store, LW_RUNS, id, err);
}

bool lw_slip_remove_reading(lw_slip_work *work, bool *found, lw_error *err)
{
    lw_run_reading_record reading;
    lw_run_record run;
    bool there;
    if (!lw_store_get(work->store, LW_RUN_READINGS, "id", work->slip.target, &reading, found, err) || !*found)
        return err->family == LW_OK;
    if (!lw_store_remove(work->store, LW_RUN_READINGS, reading.id, err) ||
        !lw_store_get(work->store, LW_RUNS, "id", reading.run, &run, &there, err))
        return false;
    work->run = run_json(work->store, &run, err);
    return work->run != NULL;
}

typedef struct walk {
    lw_store *store;
    lw_json_list list;
    lw_error *err;
} walk;

static bool add_run(void *payload, const void *record)
{
    walk *w = payload;
    char *text = run_json(w->store, record, w->err);
    if (w->err->family == LW_OK)
        lw_json_list_add(&w->list, text);
    return w->err->family == LW_OK && !w->list.full;
}

bool lw_desk_runs_json(const char *path, char **json, lw_error *err)
{
    walk w = {.err = err};
    if (!lw_json_list_begin(path, &w.store, &w.list, json, err))
        return false;
    (void)fputs("{\"runs\":[", w.list.out);
    const bool done = lw_store_each(w.store, LW_RUNS, NULL, NULL, add_run, &w, err) && err->family == LW_OK;
    (void)fputs("]}", w.list.out);
    lw_visit_end(w.store, path);
    return lw_json_list_end(&w.list, done, json, err);
}
