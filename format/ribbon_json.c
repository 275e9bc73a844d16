/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The night ribbon as question and answer: see lanewick/ribbon_json.h.
 */
#include "lanewick/ribbon_json.h"

#include "doc.h"
#include "json_help.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

/* The place of the part with the name under `key` in a list of parts that begin with their names. */
static int named(lw_doc *doc, const char *key, const void *parts, size_t size, size_t count)
{
    char name[LW_NAME];
    lw_doc_text(doc, key, NULL, name, sizeof name);
    if (doc->root->failed)
        return 0;
    for (size_t i = 0; i < count; i++)
        if (strcmp((const char *)parts + i * size, name) == 0)
            return (int)i;
    lw_doc_fail(doc, key, "is \"%s\"; the brief has none of that name.", name);
    return 0;
}

static bool no_files(const lw_brief *brief, lw_error *err)
{
    bool named = brief->place.weather_file[0] != '\0';
    for (size_t i = 0; i < brief->shelf.cell_count; i++)
        named = named || ((brief->shelf.cell[i].cells_file[0] || brief->shelf.cell[i].crate[0]) &&
                          brief->shelf.cell[i].listed == 0);
    return !named ||
           lw_fail(err, LW_WRONG_INPUT, "brief",
                   "brief names a file or a crate (weather_file, cells_file, crate); here it gives the numbers "
                   "themselves.");
}

/* The brief has a reader of its own. */
static bool read_brief(const json_t *part, lw_brief *out, lw_error *err)
{
    char *text = json_dumps(part, JSON_COMPACT);
    if (!text)
        return lw_fail(err, LW_STORAGE, "", "Memory is out.");
    const bool done = lw_brief_from_json(text, strlen(text), out, err);
    free(text);
    return done && no_files(out, err);
}

/* The lane's lamp is found by the plan, so its watts and late level are told from there (lane.chosen). */
static void read_lane_lamp(lw_doc *doc, lw_brief *brief, size_t kind)
{
    const lw_lane_want *lane = &brief->want.lane;
    lw_lamp_kind *lamp = &brief->want.lamp[kind];
    if (!lane->given || lane->kind != kind || doc->root->failed)
        return;
    lamp->head_w = lw_doc_number(doc, "head_w", 0.05, 150.0, "W");
    lamp->lumens = lamp->head_w * lamp->efficacy_lm_w;
    const double level = lw_doc_number_or(doc, "late_level", 0.0, 1.0, (lw_doc_or){NAN, "", NULL});
    lw_span spans[LW_BRIEF_STEPS];
    lamp->span_count = lw_lane_spans(brief, level, spans);
    memcpy(lamp->span, spans, lamp->span_count * sizeof spans[0]);
}

static bool read(const json_t *value, lw_ribbon_request *out, lw_error *err)
{
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, value, "");
    const lw_doc brief = lw_doc_part(&doc, "brief", true);
    if (root.failed || !read_brief(brief.object, &out->brief, err))
        return false;
    const lw_shelf *shelf = &out->brief.shelf;
    lw_design *design = &out->design;
    const lw_want *want = &out->brief.want;
    out->kind = (size_t)named(&doc, "kind", want->lamp, sizeof want->lamp[0], want->lamp_count);
    read_lane_lamp(&doc, &out->brief, out->kind);
    design->panel = named(&doc, "panel", shelf->panel, sizeof shelf->panel[0], shelf->panel_count);
    design->cell = named(&doc, "cell", shelf->cell, sizeof shelf->cell[0], shelf->cell_count);
    design->charger = named(&doc, "charger", shelf->charger, sizeof shelf->charger[0], shelf->charger_count);
    design->driver = named(&doc, "driver", shelf->driver, sizeof shelf->driver[0], shelf->driver_count);
    /* its low stop ends the night where the driver has none above it */
    design->board =
        lw_doc_has(&doc, "board") ? named(&doc, "board", shelf->board, sizeof shelf->board[0], shelf->board_count) : -1;
    design->panels = lw_doc_integer_or(&doc, "panels", 1, 6, (lw_doc_or){1.0, "", NULL});
    design->series = (int)lw_doc_number(&doc, "series", 1.0, 16.0, "groups");
    design->parallel = (int)lw_doc_number(&doc, "parallel", 1.0, 40.0, "cells");
    design->trimmed = lw_doc_flag_or(&doc, "trimmed", false, NULL);
    out->seed = (uint64_t)lw_doc_number_or(&doc, "seed", 0.0, 9007199254740992.0, (lw_doc_or){1.0, "", NULL});
    return lw_doc_done(&doc);
}

bool lw_ribbon_request_from_json(const char *text, size_t length, lw_ribbon_request *out, lw_error *err)
{
    json_t *value = lw_json_parse(text, length, err);
    if (!value)
        return false;
    const bool done = read(value, out, err);
    json_decref(value);
    return done;
}

/* The page draws these: five digits are more than it can show. */
static json_t *list(const double *x, size_t n)
{
    json_t *array = json_array();
    for (size_t i = 0; i < n; i++)
        json_array_append_new(array, json_real((double)(long)(x[i] * 1e5 + 0.5) / 1e5));
    return array;
}

static json_t *pair(double until_h, double level)
{
    const double values[2] = {until_h, level};
    return list(values, 2);
}

/* What is wanted in a night, as [until, level]: a slot in which the level changes belongs to neither and is left to
 * the step after it. */
static json_t *steps(const lw_ribbon *ribbon, int night)
{
    json_t *found = json_array();
    const lw_dark_part *part = &ribbon->night[night];
    const int first = (int)(part->dusk_h * LW_RIBBON_SLOTS), last = (int)(part->dawn_h * LW_RIBBON_SLOTS);
    double level = -1.0;
    for (int s = first + 1; s < last; s++) {
        const int hours = LW_HOURS * LW_RIBBON_SLOTS, at = (night * 24 * LW_RIBBON_SLOTS + s) % hours;
        const double now = ribbon->level_h[at] * LW_RIBBON_SLOTS,
                     next = ribbon->level_h[(at + 1) % hours] * LW_RIBBON_SLOTS;
        const bool between = s + 1 < last && fabs(next - now) > 1e-6;
        if (fabs(now - level) > 1e-6 && !between) {
            if (level >= 0.0)
                json_array_append_new(found, pair((double)s / LW_RIBBON_SLOTS, level));
            level = now;
        }
    }
    json_array_append_new(found, pair(part->dawn_h, fmax(level, 0.0)));
    return found;
}

static json_t *all_steps(const lw_ribbon *ribbon)
{
    json_t *nights = json_array();
    for (int d = 0; d < LW_DAYS; d++)
        json_array_append_new(nights, steps(ribbon, d));
    return nights;
}

static json_t *year(const lw_ribbon_year *y, const char *kind)
{
    json_t *object = json_object();
    json_object_set_new(object, "kind", json_string(kind));
    json_object_set_new(object, "draw", json_integer((json_int_t)y->draw));
    json_object_set_new(object, "dark_nights", json_integer(y->dark_nights));
    json_object_set_new(object, "missing_share", list(y->missing_share, LW_DAYS));
    json_object_set_new(object, "lowest_share", list(y->lowest_share, LW_DAYS));
    return object;
}

char *lw_ribbon_to_json(const lw_ribbon *ribbon)
{
    double dusk[LW_DAYS], dawn[LW_DAYS];
    for (int d = 0; d < LW_DAYS; d++) {
        dusk[d] = ribbon->night[d].dusk_h;
        dawn[d] = ribbon->night[d].dawn_h;
    }
    json_t *object = json_object(), *shown = json_array();
    json_object_set_new(object, "years", json_integer((json_int_t)ribbon->years));
    json_object_set_new(object, "dark_per_year",
                        json_pack("{s:o,s:o,s:o}", "mean", lw_json_number(ribbon->dark.mean), "low",
                                  lw_json_number(ribbon->dark.low), "high", lw_json_number(ribbon->dark.high)));
    json_object_set_new(object, "dusk_h", list(dusk, LW_DAYS));
    json_object_set_new(object, "dawn_h", list(dawn, LW_DAYS));
    json_object_set_new(object, "steps", all_steps(ribbon));
    json_object_set_new(object, "dark_share", list(ribbon->dark_share, LW_DAYS));
    json_array_append_new(shown, year(&ribbon->middle, "middle"));
    json_array_append_new(shown, year(&ribbon->worst, "worst"));
    json_object_set_new(object, "shown", shown);
    char *text = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(7));
    json_decref(object);
    return text;
}
