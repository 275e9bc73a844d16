/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Verdicts over a crate: all tests of each cell put together, with what cells of the same marking teach (core/cell).
 */
#include "lanewick/desk_crate.h"

#include "lanewick/records_json.h"
#include "lanewick/stats.h"
#include "lanewick/utc.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_TESTS = 40, MOST_RESTS = 200 };

typedef struct findings { /* one cell's */
    double capacity[MOST_TESTS], capacity_sd[MOST_TESTS], ohm[MOST_TESTS], ohm_sd[MOST_TESTS];
    double leak[MOST_TESTS], leak_sd[MOST_TESTS];
    size_t capacities, ohms, leaks;
    double rest_day[MOST_RESTS], rest_v[MOST_RESTS];
    size_t rests;
    lw_estimate pct; /* self-discharge, % of the capacity in 30 days */
    lw_cell_facts *facts;
} findings;

static void take(double *values, double *sds, size_t *n, const lw_result_record *r)
{
    if (*n == MOST_TESTS || !(r->sd > 0.0))
        return;
    values[*n] = r->value;
    sds[(*n)++] = r->sd;
}

static bool take_result(void *payload, const void *record)
{
    findings *f = payload;
    const lw_result_record *r = record;
    if (strcmp(r->kind, "capacity_ah") == 0)
        take(f->capacity, f->capacity_sd, &f->capacities, r);
    else if (strcmp(r->kind, "resistance_10s_ohm") == 0)
        take(f->ohm, f->ohm_sd, &f->ohms, r);
    else if (strcmp(r->kind, "leak_mv_day") == 0)
        take(f->leak, f->leak_sd, &f->leaks, r);
    else if (strcmp(r->kind, "rest_24h_v") == 0)
        f->facts->rest_24h_v = (lw_reading){true, r->value};
    else if (strcmp(r->kind, "self_discharge_pct") == 0)
        f->pct = (lw_estimate){r->value, r->sd, 1};
    else if (strcmp(r->kind, "hot_on_charge") == 0)
        f->facts->hot_on_charge = true;
    else if (strcmp(r->kind, "no_taper") == 0)
        f->facts->no_taper = true;
    else if (strcmp(r->kind, "recovered") == 0)
        f->facts->recovered = true;
    else if (strcmp(r->kind, "open_circuit") == 0)
        f->facts->open_circuit = true;
    return true;
}

/* Single resting voltages, each typed on its own day, make a series together. */
static bool take_rest(void *payload, const void *record)
{
    findings *f = payload;
    const lw_test_record *test = record;
    double seconds[MOST_RESTS], volts[MOST_RESTS], day;
    size_t n;
    lw_error err = {0};
    if (strcmp(test->method, "rest") != 0 || !lw_utc_parse("at", test->at, &day, &err) ||
        !lw_readings_rest_from_json(test->readings, seconds, volts, MOST_RESTS, &n) || n != 1 || f->rests == MOST_RESTS)
        return true; /* a series of its own has its result already */
    f->rest_day[f->rests] = day;
    f->rest_v[f->rests++] = volts[0];
    return true;
}

static lw_estimate together(const double *value, const double *sd, size_t n, const lw_estimate *prior)
{
    lw_estimate out = {0};
    lw_error err = {0};
    if (n == 0 && !prior)
        return out;
    return lw_estimate_from(value, sd, n, prior, &out, &err) ? out : (lw_estimate){0};
}

static void take_leak(findings *f)
{
    f->facts->leak_mv_day = together(f->leak, f->leak_sd, f->leaks, NULL);
    const lw_meter meter = {.percent = 0.5, .digits = 2.0, .step = 0.001};
    const double capacity = f->facts->capacity_ah.value > 0.0 ? f->facts->capacity_ah.value : 2.0;
    lw_rest_result rest;
    lw_error err = {0};
    if (f->leaks > 0 || f->rests < 2 || !f->facts->class)
        return;
    for (size_t i = f->rests; i-- > 0;)
        f->rest_day[i] -= f->rest_day[0];
    if (!lw_self_discharge(f->rest_day, f->rest_v, f->rests, &meter, capacity, f->facts->class, &rest, &err) ||
        !(rest.k_sd_mv_per_day > 0.0))
        return;
    f->facts->leak_mv_day = (lw_estimate){rest.k_mv_per_day, rest.k_sd_mv_per_day, (int)rest.used};
    f->pct = (lw_estimate){rest.pct_per_month, rest.pct_sd, (int)rest.used};
}

static void take_look(const lw_cell_record *cell, lw_cell_facts *facts)
{
    facts->class = lw_test_class_find(cell->voltage_class);
    facts->dent = strstr(cell->look, "dent") != NULL;
    facts->rust = strstr(cell->look, "rust") != NULL;
    facts->leak = strstr(cell->look, "leak") != NULL;
    facts->swollen = strstr(cell->look, "swollen") != NULL;
    facts->smell = strstr(cell->look, "smell") != NULL;
    facts->torn_wrap = strstr(cell->look, "torn") != NULL;
    facts->hot_on_charge = strstr(cell->look, "hot") != NULL;
    facts->found_v = (lw_reading){.given = !isnan(cell->found_v), .value = cell->found_v};
    facts->rated_ah = (lw_reading){.given = !isnan(cell->rated_ah), .value = cell->rated_ah};
}

/* First pass: what each cell's own tests say. */
static bool own_tests(lw_store *store, lw_judged_cell *c, lw_error *err)
{
    static _Thread_local findings f;
    f = (findings){.facts = &c->facts};
    take_look(&c->cell, &c->facts);
    if (!lw_store_each(store, LW_RESULTS, "cell", c->cell.id, take_result, &f, err) ||
        !lw_store_each(store, LW_TESTS, "cell", c->cell.id, take_rest, &f, err))
        return false;
    c->facts.capacity_ah = together(f.capacity, f.capacity_sd, f.capacities, NULL);
    c->facts.resistance_ohm = together(f.ohm, f.ohm_sd, f.ohms, NULL);
    double low = INFINITY, high = 0.0;
    for (size_t i = 0; i < f.capacities; i++) {
        low = fmin(low, f.capacity[i]);
        high = fmax(high, f.capacity[i]);
    }
    if (f.capacities > 1)
        c->facts.repeat_difference_pct = 200.0 * (high - low) / (high + low);
    take_leak(&f);
    c->standing.self_discharge_pct = f.pct.tests > 0 ? f.pct.value : NAN;
    c->standing.self_discharge_sd_pct = f.pct.tests > 0 ? f.pct.sd : NAN;
    return true;
}

static int by_value(const void *a, const void *b)
{
    const double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

typedef struct lesson { /* from the others of the same marking */
    lw_estimate *capacity, *ohm;
    double *median;
} lesson;

/* Second pass: cells of the same marking and class teach about the ones with few tests. The cell itself does not count
 * among its teachers; `own` are the first pass's estimates, so that teaching is not taught on. */
static void learn(const lw_judged_cell *all, const lw_estimate *own, size_t n, size_t i, lesson *room,
                  lw_cell_facts *facts)
{
    size_t capacities = 0, ohms = 0, medians = 0;
    const lw_cell_record *cell = &all[i].cell;
    if (!cell->marking[0])
        return;
    for (size_t k = 0; k < n; k++) {
        if (strcmp(all[k].cell.marking, cell->marking) != 0 ||
            strcmp(all[k].cell.voltage_class, cell->voltage_class) != 0)
            continue;
        const lw_estimate *theirs = &own[2 * k];
        if (theirs[1].tests > 0)
            room->median[medians++] = theirs[1].value;
        if (k == i)
            continue;
        if (theirs[0].tests > 0)
            room->capacity[capacities++] = theirs[0];
        if (theirs[1].tests > 0)
            room->ohm[ohms++] = theirs[1];
    }
    qsort(room->median, medians, sizeof *room->median, by_value);
    facts->median_ohm = medians >= 3 ? room->median[medians / 2] : 0.0;
    lw_estimate prior, fused;
    lw_error err = {0};
    const lw_estimate mine = own[2 * i];
    if (capacities < 3 || !lw_estimate_of_crate(room->capacity, capacities, &prior, &err))
        return;
    if (lw_estimate_from(&mine.value, &mine.sd, mine.tests > 0 ? 1 : 0, &prior, &fused, &err)) {
        fused.tests = mine.tests;
        facts->capacity_ah = fused;
    }
}

static void join_reasons(const lw_judgement *judgement, char *out, size_t size)
{
    size_t used = 0;
    for (size_t i = 0; i < judgement->reason_count && used < size; i++) {
        const int written = snprintf(out + used, size - used, "%s%s (%s)", i ? "; " : "", judgement->reasons[i].text,
                                     judgement->reasons[i].source);
        used += written > 0 ? (size_t)written : 0;
    }
}

static bool store_standing(lw_store *store, lw_judged_cell *c, lw_error *err)
{
    lw_standing_record *s = &c->standing;
    const lw_cell_facts *f = &c->facts;
    const bool capacity = f->capacity_ah.sd > 0.0, ohm = f->resistance_ohm.tests > 0;
    memcpy(s->cell, c->cell.id, LW_ID);
    (void)snprintf(s->verdict, sizeof s->verdict, "%s", lw_verdict_text(c->judgement.verdict));
    s->capacity_ah = capacity ? f->capacity_ah.value : NAN;
    s->capacity_sd_ah = capacity ? f->capacity_ah.sd : NAN;
    s->resistance_ohm = ohm ? f->resistance_ohm.value : NAN;
    s->resistance_sd_ohm = ohm ? f->resistance_ohm.sd : NAN;
    join_reasons(&c->judgement, s->reasons, sizeof s->reasons);
    const lw_bench_cost *cost = lw_bench_cost_of(c->judgement.next);
    s->next_test[0] = '\0';
    if (c->judgement.verdict == LW_UNSURE && cost && c->judgement.next != LW_TEST_NONE)
        (void)snprintf(s->next_test, sizeof s->next_test, "%s: %s", cost->name, cost->what);
    lw_store_now(store, s->at);
    return lw_store_put(store, LW_STANDINGS, s, err);
}

typedef struct listing {
    lw_judged_cell *cells;
    size_t n, room;
} listing;

static bool list_cell(void *payload, const void *record)
{
    listing *l = payload;
    const lw_cell_view *view = record;
    if (l->n == l->room)
        return false;
    l->cells[l->n].cell = view->cell;
    l->cells[l->n++].standing = view->standing;
    return true;
}

static bool judge_all(lw_store *store, listing *l, lw_arena *arena, lw_error *err)
{
    lw_estimate *own = lw_arena_take(arena, 2 * l->n + 1, sizeof *own, err);
    lesson room = {lw_arena_take(arena, l->n + 1, sizeof *room.capacity, err),
                   lw_arena_take(arena, l->n + 1, sizeof *room.ohm, err),
                   lw_arena_take(arena, l->n + 1, sizeof *room.median, err)};
    if (!own || !room.capacity || !room.ohm || !room.median)
        return false;
    for (size_t i = 0; i < l->n; i++) {
        if (!own_tests(store, &l->cells[i], err))
            return false;
        own[2 * i] = l->cells[i].facts.capacity_ah;
        own[2 * i + 1] = l->cells[i].facts.resistance_ohm;
    }
    for (size_t i = 0; i < l->n; i++) {
        learn(l->cells, own, l->n, i, &room, &l->cells[i].facts);
        lw_judge_cell(&l->cells[i].facts, &lw_grading_default, &l->cells[i].judgement);
        if (!store_standing(store, &l->cells[i], err))
            return false;
    }
    return true;
}

bool lw_desk_judge(lw_store *store, const char *code, lw_arena *arena, lw_judged_cell **cells, size_t *n, lw_error *err)
{
    lw_crate_record crate;
    int64_t rows;
    if (!lw_desk_crate(store, code, &crate, err) || !lw_store_begin(store, "crate judge", err))
        return false;
    listing l = {0};
    bool done = lw_store_total(store, LW_CELLS, &rows, err);
    l.room = (size_t)rows;
    l.cells = done ? lw_arena_take(arena, l.room + 1, sizeof *l.cells, err) : NULL;
    done = l.cells && lw_store_cells(store, &(lw_cell_filter){.crate = crate.code}, list_cell, &l, err) &&
           judge_all(store, &l, arena, err);
    *cells = l.cells;
    *n = l.n;
    if (done)
        return lw_store_commit(store, err);
    lw_store_rollback(store);
    return false;
}

bool lw_desk_judge_cell(lw_store *store, const char *code, lw_error *err)
{
    bool found;
    lw_judged_cell *c = calloc(1, sizeof *c);
    if (!c)
        return lw_fail(err, LW_STORAGE, "", "Memory is out.");
    bool done = lw_desk_cell(store, code, &c->cell, err) &&
                lw_store_get(store, LW_STANDINGS, "cell", c->cell.id, &c->standing, &found, err) &&
                own_tests(store, c, err);
    if (done) {
        lw_judge_cell(&c->facts, &lw_grading_default, &c->judgement);
        done = store_standing(store, c, err);
    }
    free(c);
    return done;
}

/* Cells of the class that may be good and have no capacity yet. */
static size_t waiting(const lw_judged_cell *cells, size_t n, const char *voltage_class, lw_judgement *judgements,
                      size_t *which)
{
    size_t count = 0;
    for (size_t i = 0; i < n; i++) {
        if (strcmp(cells[i].cell.voltage_class, voltage_class) != 0 || cells[i].judgement.verdict == LW_SCRAP ||
            cells[i].facts.capacity_ah.tests > 0)
            continue;
        judgements[count] = cells[i].judgement;
        which[count++] = i;
    }
    return count;
}

bool lw_desk_bench_plan(const lw_judged_cell *cells, size_t n, const char *voltage_class, const lw_bench *bench,
                        lw_arena *arena, lw_bench_week *out, lw_error *err)
{
    lw_judgement *judgements = lw_arena_take(arena, n + 1, sizeof *judgements, err);
    size_t *which = lw_arena_take(arena, n + 1, sizeof *which, err);
    double *capacity = lw_arena_take(arena, n + 1, sizeof *capacity, err);
    *out = (lw_bench_week){.order = lw_arena_take(arena, n + 1, sizeof *out->order, err),
                           .charge_day = lw_arena_take(arena, n + 1, sizeof *out->charge_day, err),
                           .read_day = lw_arena_take(arena, n + 1, sizeof *out->read_day, err)};
    if (!judgements || !which || !capacity || !out->order || !out->charge_day || !out->read_day)
        return false;
    out->count = waiting(cells, n, voltage_class, judgements, which);
    if (out->count == 0)
        return lw_fail(err, LW_NOT_COMPUTABLE, "cells", "No cell of class %s waits for a capacity test.",
                       voltage_class);
    lw_bench_order(judgements, out->count, out->order);
    double all_ah = 0.0;
    for (size_t i = 0; i < out->count; i++) {
        out->order[i] = which[out->order[i]];
        const lw_estimate *known = &cells[out->order[i]].facts.capacity_ah;
        capacity[i] = known->sd > 0.0 ? known->value : 2.0; /* a usual reclaimed cell (from memory) */
        all_ah += capacity[i];
    }
    if (!lw_bench_plan(capacity, out->count, bench, lw_test_class_find(voltage_class), out->charge_day, out->read_day,
                       &out->days, err))
        return false;
    for (size_t i = 0; i < out->count; i++)
        capacity[i] *= out->days.energy_wh / all_ah; /* each cell's share */
    out->charge_wh = capacity;
    return true;
}
