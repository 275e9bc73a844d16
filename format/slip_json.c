/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Slips from JSON: see lanewick/slip_json.h.
 */
#include "lanewick/slip_json.h"

#include "doc.h"
#include "json_help.h"
#include "lanewick/utc.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const char kinds[] = "crate|cell|change|test|remove|run|reading";

/* Lower-case hexadecimal with dashes, version 7, variant 10 (RFC 9562, sections 4 and 5.7). */
static bool is_uuid7(const char *id)
{
    static const char shape[] = "xxxxxxxx-xxxx-7xxx-vxxx-xxxxxxxxxxxx";
    for (size_t i = 0; i < sizeof shape; i++) {
        const bool hex = id[i] != '\0' && strchr("0123456789abcdef", id[i]) != NULL;
        const bool variant = id[i] != '\0' && strchr("89ab", id[i]) != NULL;
        if (shape[i] == 'x' ? !hex : shape[i] == 'v' ? !variant : id[i] != shape[i])
            return false;
    }
    return true;
}

static void take_id(lw_doc *doc, const char *key, char out[LW_ID])
{
    lw_doc_text(doc, key, NULL, out, LW_ID);
    if (!doc->root->failed && !is_uuid7(out))
        lw_doc_fail(doc, key, "is \"%.40s\"; it must be a UUID of version 7 in small letters (RFC 9562).", out);
}

static void take_time(lw_doc *doc, char out[LW_STAMP])
{
    char text[40] = "";
    double days;
    lw_doc_text(doc, "at", NULL, text, sizeof text);
    if (!doc->root->failed && !lw_utc_parse("at", text, &days, doc->root->err))
        doc->root->failed = true;
    else if (!doc->root->failed)
        lw_utc_text(days, out);
}

static void take_crate(lw_doc *doc, lw_slip *slip)
{
    lw_crate_record *c = &slip->crate;
    lw_doc_text(doc, "code", NULL, c->code, sizeof c->code);
    lw_doc_text(doc, "name", "", c->name, sizeof c->name);
    lw_doc_text(doc, "origin", "", c->origin, sizeof c->origin);
    lw_doc_text(doc, "note", "", c->note, sizeof c->note);
    memcpy(c->id, slip->id, LW_ID);
    memcpy(c->received, slip->at, LW_STAMP);
}

static void tidy_cell(lw_doc *doc, lw_cell_record *cell, const char *class, const char *look)
{
    lw_error *err = doc->root->err;
    if (!doc->root->failed && (!lw_class_read(class, cell->voltage_class, err) || !lw_look_read(look, cell->look, err)))
        doc->root->failed = true;
}

/* The fields of lw_slip_field. */
static void take_fields(lw_doc *doc, lw_cell_record *cell)
{
    char class[LW_WORD], look[LW_WORD];
    lw_doc_text(doc, "code", "", cell->code, sizeof cell->code);
    lw_doc_text(doc, "marking", "", cell->marking, sizeof cell->marking);
    lw_doc_text(doc, "voltage_class", "unknown", class, sizeof class);
    lw_doc_text(doc, "shape", "", cell->shape, sizeof cell->shape);
    lw_doc_text(doc, "origin", "", cell->origin, sizeof cell->origin);
    lw_doc_text(doc, "look", "", look, sizeof look);
    lw_doc_text(doc, "note", "", cell->note, sizeof cell->note);
    lw_doc_set(doc, "found_v", -1e6, 1e6, "V", &cell->found_v); /* judged with the cell: 42.0 gets a guess */
    lw_doc_set(doc, "rated_ah", 0.05, 400.0, "Ah", &cell->rated_ah);
    tidy_cell(doc, cell, class, look);
}

static void take_cell(lw_doc *doc, lw_slip *slip)
{
    lw_cell_record *c = &slip->cell;
    lw_doc_text(doc, "crate", NULL, slip->crate.code, sizeof slip->crate.code);
    take_fields(doc, c);
    memcpy(c->id, slip->id, LW_ID);
    if (!isnan(c->found_v))
        memcpy(c->found_at, slip->at, LW_STAMP);
    if (!doc->root->failed && !lw_cell_check(c, doc->root->err))
        doc->root->failed = true;
}

/* One side of a change. A number that is null is not known. */
static void side(lw_doc *doc, const char *key, lw_cell_record *cell)
{
    lw_doc part = lw_doc_part(doc, key, true);
    json_t *plain = json_is_object(part.object) ? json_copy((json_t *)part.object) : NULL;
    for (int i = 0; plain && i < LW_SLIP_FIELDS; i++)
        if (json_is_null(json_object_get(plain, lw_slip_field(i))))
            (void)json_object_del(plain, lw_slip_field(i));
    if (plain)
        part.object = plain;
    take_fields(&part, cell);
    (void)lw_doc_done(&part);
    json_decref(plain);
}

static void take_change(lw_doc *doc, const json_t *json, lw_slip *slip)
{
    const json_t *was = json_object_get(json, "was"), *set = json_object_get(json, "set");
    take_id(doc, "cell", slip->target);
    side(doc, "was", &slip->was);
    side(doc, "set", &slip->cell);
    size_t named = 0;
    for (int i = 0; i < LW_SLIP_FIELDS && !doc->root->failed; i++) {
        const char *field = lw_slip_field(i);
        slip->named[i] = json_object_get(set, field) != NULL;
        named += slip->named[i];
        if (slip->named[i] != (json_object_get(was, field) != NULL))
            lw_doc_fail(doc, "was", "and set must name the same fields; %s stands in one of them only.", field);
    }
    if (!doc->root->failed && named == 0)
        lw_doc_fail(doc, "set",
                    "names no field; it may name code, marking, voltage_class, shape, origin, look, note "
                    "and found_v.");
}

static const double *take_list(lw_doc *doc, const char *key, size_t *n, lw_arena *arena)
{
    const json_t *list = lw_doc_has(doc, key) ? lw_doc_list(doc, key, 1, LW_SLIP_READINGS) : NULL;
    const size_t count = json_array_size(list);
    if (doc->root->failed || !list)
        return NULL;
    if (*n != 0 && *n != count) {
        lw_doc_fail(doc, key, "has %zu values, the list before it %zu.", count, *n);
        return NULL;
    }
    *n = count;
    double *values = lw_arena_take(arena, count, sizeof *values, doc->root->err);
    if (!values)
        doc->root->failed = true;
    else
        (void)lw_doc_numbers(doc, key, -1e9, 1e9, "", values, count);
    return values;
}

static void take_test(lw_doc *doc, lw_slip *slip, lw_arena *arena)
{
    lw_slip_test *t = &slip->test;
    const struct {
        const char *key;
        double *x;
    } numbers[] = {{"load_ohm", &t->load_ohm},
                   {"lead_ohm", &t->lead_ohm},
                   {"end_v", &t->end_v},
                   {"temp_c", &t->temp_c},
                   {"clock_s", &t->clock_s},
                   {"open_before_v", &t->open_before_v},
                   {"open_after_v", &t->open_after_v},
                   {"open_after_s", &t->open_after_s},
                   {"capacity_ah", &t->capacity_ah},
                   {"current_a", &t->current_a}};
    take_id(doc, "cell", slip->target);
    if (lw_doc_has(doc, "run"))
        take_id(doc, "run", slip->run.id);
    lw_doc_text(doc, "method", NULL, t->method, sizeof t->method);
    lw_doc_text(doc, "meter", "", t->meter, sizeof t->meter);
    lw_doc_text(doc, "resistor", "", t->resistor, sizeof t->resistor);
    lw_doc_text(doc, "flag", "", t->flag, sizeof t->flag);
    lw_doc_text(doc, "note", "", t->note, sizeof t->note);
    for (size_t i = 0; i < sizeof numbers / sizeof numbers[0]; i++) {
        *numbers[i].x = NAN;
        lw_doc_set(doc, numbers[i].key, -1e9, 1e9, "", numbers[i].x);
    }
    t->times_s = take_list(doc, "times_s", &t->n, arena);
    t->volts_v = take_list(doc, "volts_v", &t->n, arena);
    t->amps_a = take_list(doc, "amps_a", &t->n, arena);
    t->pulse_v[0] = t->pulse_v[1] = t->pulse_a[0] = t->pulse_a[1] = NAN;
    (void)lw_doc_numbers(doc, "pulse_v", 0.0, 5.0, "V", t->pulse_v, 2);
    (void)lw_doc_numbers(doc, "pulse_a", 0.0, 1000.0, "A", t->pulse_a, 2);
}

static void take_run(lw_doc *doc, lw_slip *slip)
{
    lw_run_record *r = &slip->run;
    *r = (lw_run_record){.load_ohm = NAN, .temp_c = NAN, .open_before_v = NAN};
    take_id(doc, "cell", slip->target);
    lw_doc_text(doc, "resistor", "", slip->test.resistor, sizeof slip->test.resistor);
    lw_doc_set(doc, "load_ohm", 0.1, 1000.0, "ohm", &r->load_ohm);
    lw_doc_set(doc, "temp_c", -20.0, 60.0, "degC", &r->temp_c);
    lw_doc_set(doc, "open_before_v", 0.0, 4.6, "V", &r->open_before_v);
    r->every_s = lw_doc_number_or(doc, "every_s", 1.0, 86400.0, (lw_doc_or){600.0, "s", NULL});
    if (!doc->root->failed && isnan(r->load_ohm) == (slip->test.resistor[0] == '\0'))
        lw_doc_fail(doc, "load_ohm", "or resistor is needed: one of the two.");
    memcpy(r->id, slip->id, LW_ID);
    memcpy(r->at, slip->at, LW_STAMP);
    memcpy(r->cell, slip->target, LW_ID);
}

static void take_reading(lw_doc *doc, lw_slip *slip)
{
    take_id(doc, "run", slip->target);
    const bool ends = lw_doc_flag_or(doc, "disconnected", false, NULL);
    slip->volts = NAN;
    lw_doc_set(doc, "volts", 0.0, 4.6, "V", &slip->volts);
    if (!doc->root->failed && ends != isnan(slip->volts))
        lw_doc_fail(doc, "volts", "or disconnected is needed: one of the two.");
}

bool lw_slip_from_json(const char *text, size_t length, lw_arena *arena, lw_slip *out, lw_error *err)
{
    json_t *json = lw_json_parse(text, length, err);
    if (!json)
        return false;
    *out = (lw_slip){.cell = lw_cell_blank(), .was = lw_cell_blank()};
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, json, "");
    take_id(&doc, "id", out->id);
    take_time(&doc, out->at);
    const int kind = lw_doc_choice(&doc, "kind", kinds, -1, NULL);
    out->kind = kind < 0 ? LW_SLIP_CRATE : (lw_slip_kind)kind;
    if (root.failed)
        (void)kind;
    else if (out->kind == LW_SLIP_CRATE)
        take_crate(&doc, out);
    else if (out->kind == LW_SLIP_CELL)
        take_cell(&doc, out);
    else if (out->kind == LW_SLIP_CHANGE)
        take_change(&doc, json, out);
    else if (out->kind == LW_SLIP_TEST)
        take_test(&doc, out, arena);
    else if (out->kind == LW_SLIP_RUN)
        take_run(&doc, out);
    else if (out->kind == LW_SLIP_READING)
        take_reading(&doc, out);
    else
        take_id(&doc, "row", out->target);
    const bool done = lw_doc_done(&doc);
    json_decref(json);
    return done;
}

char *lw_slip_document(const char *text, size_t length)
{
    json_t *json = json_loadb(text, length, JSON_REJECT_DUPLICATES, NULL);
    char *out = json ? json_dumps(json, JSON_COMPACT | JSON_SORT_KEYS | JSON_REAL_PRECISION(LW_JSON_DIGITS)) : NULL;
    json_decref(json);
    return out;
}

bool lw_slips_each(const char *text, size_t length,
                   bool (*each)(void *payload, size_t i, const char *slip, size_t length), void *payload, lw_error *err)
{
    lw_doc_file file;
    if (!lw_doc_file_open(&file, text, length, "lanewick.slips/1", err))
        return false;
    const json_t *list = lw_doc_list(&file.doc, "slips", 0, LW_SLIPS_MOST);
    if (!list && !file.root.failed)
        lw_doc_fail(&file.doc, "slips", "is missing: the list of what was written down.");
    bool more = lw_doc_done(&file.doc);
    for (size_t i = 0; more && i < json_array_size(list); i++) {
        char *slip = json_dumps(json_array_get(list, i), JSON_COMPACT | JSON_ENCODE_ANY);
        more = slip && each(payload, i, slip, strlen(slip));
        free(slip);
    }
    return lw_doc_file_close(&file);
}

static json_t *parsed(char *text)
{
    json_t *value = text ? json_loads(text, JSON_DECODE_ANY, NULL) : NULL;
    free(text);
    return value;
}

char *lw_slip_answer_to_json(const lw_slip *slip, char *crate, char *cell, char *run, const char *results)
{
    json_t *object = json_pack("{s:s,s:s}", "id", slip->id, "kind", lw_slip_kind_text(slip->kind));
    json_t *of_crate = parsed(crate), *of_cell = parsed(cell), *of_run = parsed(run);
    if (of_crate)
        (void)json_object_set_new(object, "crate", of_crate);
    if (of_cell)
        (void)json_object_set_new(object, "cell", of_cell);
    if (of_run)
        (void)json_object_set_new(object, "run", of_run);
    if (results)
        (void)json_object_set_new(object, "results", json_loads(results, 0, NULL));
    return lw_json_line(object);
}
