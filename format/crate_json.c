/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Records of cells as JSON: see lanewick/records_json.h.
 */
#include "lanewick/records_json.h"

#include <jansson.h>
#include <math.h>

static void text(json_t *object, const char *key, const char *value)
{
    if (value[0])
        (void)json_object_set_new(object, key, json_string(value));
}

static void number(json_t *object, const char *key, double value)
{
    if (isfinite(value))
        (void)json_object_set_new(object, key, json_real(value));
}

static char *finish(json_t *object)
{
    char *out = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(12));
    json_decref(object);
    return out;
}

char *lw_cell_to_json(const lw_cell_record *cell, const lw_standing_record *standing, const char *crate,
                      const char *pack)
{
    json_t *object = json_object();
    text(object, "id", cell->id);
    text(object, "code", cell->code);
    text(object, "crate", crate);
    text(object, "pack", pack);
    text(object, "marking", cell->marking);
    text(object, "voltage_class", cell->voltage_class);
    text(object, "shape", cell->shape);
    text(object, "origin", cell->origin);
    text(object, "look", cell->look);
    number(object, "found_v", cell->found_v);
    text(object, "found_at", cell->found_at);
    text(object, "note", cell->note);
    number(object, "rated_ah", cell->rated_ah);
    text(object, "verdict", standing->verdict);
    number(object, "capacity_ah", standing->capacity_ah);
    number(object, "capacity_sd_ah", standing->capacity_sd_ah);
    /* of the stated capacity when new; without that there is no health to tell */
    number(object, "health_pct", 100.0 * standing->capacity_ah / cell->rated_ah);
    number(object, "health_sd_pct", 100.0 * standing->capacity_sd_ah / cell->rated_ah);
    number(object, "resistance_ohm", standing->resistance_ohm);
    number(object, "resistance_sd_ohm", standing->resistance_sd_ohm);
    number(object, "self_discharge_pct", standing->self_discharge_pct);
    number(object, "self_discharge_sd_pct", standing->self_discharge_sd_pct);
    text(object, "reasons", standing->reasons);
    text(object, "next_test", standing->next_test);
    return finish(object);
}

char *lw_crate_to_json(const lw_crate_record *crate)
{
    json_t *object = json_object();
    text(object, "id", crate->id);
    text(object, "code", crate->code);
    text(object, "name", crate->name);
    text(object, "origin", crate->origin);
    text(object, "received", crate->received);
    text(object, "note", crate->note);
    return finish(object);
}

static json_t *result_object(const lw_result_record *result)
{
    json_t *object = json_object();
    text(object, "kind", result->kind);
    number(object, "value", result->value);
    number(object, "sd", result->sd);
    text(object, "note", result->note);
    return object;
}

char *lw_result_to_json(const lw_result_record *result)
{
    return finish(result_object(result));
}

char *lw_results_to_json(const lw_result_record *results, size_t n)
{
    json_t *list = json_array();
    for (size_t i = 0; i < n; i++)
        (void)json_array_append_new(list, result_object(&results[i]));
    return finish(list);
}

char *lw_test_to_json(const lw_test_record *test, const char *meter, const char *resistor, const char *results)
{
    json_t *object = json_object();
    text(object, "id", test->id);
    text(object, "method", test->method);
    text(object, "at", test->at);
    text(object, "meter", meter);
    text(object, "resistor", resistor);
    number(object, "temp_c", test->temp_c);
    text(object, "note", test->note);
    (void)json_object_set_new(object, "readings", json_loads(test->readings, 0, NULL));
    (void)json_object_set_new(object, "results", json_loads(results, 0, NULL));
    return finish(object);
}

char *lw_instrument_to_json(const lw_instrument_record *tool)
{
    json_t *object = json_object();
    text(object, "name", tool->name);
    text(object, "kind", tool->kind);
    number(object, "percent", tool->percent);
    number(object, "digits", tool->digits);
    number(object, "step", tool->step);
    number(object, "ohm", tool->ohm);
    number(object, "tolerance_pct", tool->tolerance_pct);
    text(object, "note", tool->note);
    return finish(object);
}

/* Group by group, in the order of the places. */
char *lw_pack_to_json(const lw_pack_record *pack, const char *plan, const lw_pack_place *places, size_t n)
{
    json_t *object = json_object(), *groups = json_array();
    text(object, "id", pack->id);
    text(object, "code", pack->code);
    text(object, "plan", plan);
    text(object, "state", pack->state);
    (void)json_object_set_new(object, "series", json_integer(pack->series));
    text(object, "voltage_class", pack->voltage_class);
    number(object, "weakest_ah", pack->weakest_ah);
    number(object, "guaranteed_ah", pack->guaranteed_ah);
    text(object, "at", pack->at);
    text(object, "apart_at", pack->apart_at);
    text(object, "note", pack->note);
    for (int g = 1; g <= pack->series; g++)
        (void)json_array_append_new(groups, json_array());
    for (size_t i = 0; i < n; i++)
        (void)json_array_append_new(json_array_get(groups, (size_t)places[i].group - 1), json_string(places[i].cell));
    (void)json_object_set_new(object, "groups", groups);
    return finish(object);
}

char *lw_run_to_json(const lw_run_record *run, const char *cell, const char *resistor,
                     const lw_run_reading_record *readings, size_t n)
{
    json_t *object = json_object(), *list = json_array();
    text(object, "id", run->id);
    text(object, "cell", run->cell);
    text(object, "code", cell);
    text(object, "at", run->at);
    text(object, "resistor", resistor);
    number(object, "load_ohm", run->load_ohm);
    number(object, "every_s", run->every_s);
    number(object, "temp_c", run->temp_c);
    number(object, "open_before_v", run->open_before_v);
    text(object, "ended", run->ended);
    for (size_t i = 0; i < n; i++)
        (void)json_array_append_new(
            list, json_pack("{s:s,s:s,s:f}", "id", readings[i].id, "at", readings[i].at, "volts", readings[i].volts));
    (void)json_object_set_new(object, "readings", list);
    return finish(object);
}

char *lw_apart_to_json(const char *pack, int cells)
{
    json_t *object = json_object();
    text(object, "pack", pack);
    (void)json_object_set_new(object, "cells", json_integer(cells));
    return finish(object);
}

char *lw_refused_to_json(int line, const char *reason)
{
    json_t *object = json_object();
    (void)json_object_set_new(object, "line", json_integer(line));
    text(object, "reason", reason);
    return finish(object);
}

/* Numbers that are NAN stay away; lists that are NULL too. */
char *lw_readings_to_json(const lw_readings *r)
{
    json_t *object = json_object();
    const struct {
        const char *key;
        const double *values;
    } lists[] = {{"times_s", r->times_s}, {"volts_v", r->volts_v}, {"amps_a", r->amps_a}};
    for (size_t i = 0; i < sizeof lists / sizeof lists[0]; i++) {
        if (!lists[i].values || r->n == 0)
            continue;
        json_t *list = json_array();
        for (size_t k = 0; k < r->n; k++)
            (void)json_array_append_new(list, json_real(lists[i].values[k]));
        (void)json_object_set_new(object, lists[i].key, list);
    }
    for (size_t i = 0; i < r->count; i++)
        number(object, r->names[i], r->values[i]);
    return finish(object);
}

bool lw_readings_rest_from_json(const char *json, double *time_s, double *volts_v, size_t room, size_t *n)
{
    json_t *object = json_loads(json, 0, NULL);
    const json_t *times = json_object_get(object, "times_s"), *volts = json_object_get(object, "volts_v");
    *n = 0;
    for (size_t i = 0; i < json_array_size(volts) && i < json_array_size(times) && *n < room; i++, (*n)++) {
        time_s[*n] = json_number_value(json_array_get(times, i));
        volts_v[*n] = json_number_value(json_array_get(volts, i));
    }
    json_decref(object);
    return *n > 0;
}
