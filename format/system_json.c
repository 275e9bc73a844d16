/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The system document, format lanewick.system/1: every key with its range and meaning in
 * docs/schema/system-1.schema.json. Keys left out keep the usual values of lanewick/system.h.
 */
#include "lanewick/system.h"

#include "json_help.h"
#include "system_read.h"

#include <stdio.h>
#include <string.h>

void lw_system_number(lw_doc *doc, const char *key, double low, double high, const char *unit, double *value)
{
    *value = lw_doc_number_or(doc, key, low, high, (lw_doc_or){*value, unit, NULL});
}

int lw_system_pairs(lw_doc *doc, const char *key, int most, double *x, double *y)
{
    const json_t *list = lw_doc_list(doc, key, 0, (size_t)most);
    for (size_t i = 0; i < json_array_size(list); i++) {
        const json_t *pair = json_array_get(list, i);
        const json_t *first = json_array_get(pair, 0), *second = json_array_get(pair, 1);
        if (json_array_size(pair) != 2 || !json_is_number(first) || !json_is_number(second)) {
            lw_doc_fail(doc, key, "must be a list of pairs of numbers such as [[0, 3.0], [1, 4.2]]; entry %zu is not.",
                        i + 1);
            return 0;
        }
        x[i] = json_number_value(first);
        y[i] = json_number_value(second);
    }
    return (int)json_array_size(list);
}

static void read_plane(lw_doc *system, lw_system *out)
{
    lw_doc doc = lw_doc_part(system, "plane", false);
    lw_plane *p = &out->plane;
    lw_system_number(&doc, "tilt_deg", 0.0, 90.0, "degree", &p->tilt_deg);
    const json_t *facing = doc.object ? json_object_get(doc.object, "facing_deg") : NULL;
    out->facing_equator = !facing || json_is_string(facing);
    if (out->facing_equator)
        (void)lw_doc_choice(&doc, "facing_deg", "equator", 0, NULL);
    else
        lw_system_number(&doc, "facing_deg", -180.0, 360.0, "degree from north", &p->facing_deg);
    lw_system_number(&doc, "albedo", 0.0, 1.0, "", &p->albedo);
    p->sky = (lw_sky)lw_doc_choice(&doc, "sky", "isotropic|hay_davies|perez", (int)p->sky, NULL);
    lw_system_number(&doc, "glass_b0", 0.0, 0.3, "", &p->glass_b0);
    lw_system_number(&doc, "faiman_u0", 5.0, 60.0, "W/m2K", &p->faiman_u0);
    lw_system_number(&doc, "faiman_u1", 0.0, 20.0, "W s/m3K", &p->faiman_u1);
    lw_system_number(&doc, "wind_factor", 0.0, 1.5, "", &p->wind_factor);
    (void)lw_doc_numbers(&doc, "horizon_deg", 0.0, 89.0, "degree", p->horizon_deg, LW_SKYLINE);
    (void)lw_doc_done(&doc);
}

static void read_tolerances(lw_doc *system, lw_tolerances *out)
{
    lw_doc doc = lw_doc_part(system, "tolerances", false);
    lw_system_number(&doc, "panel_pct", 0.0, 50.0, "%", &out->panel_pct);
    lw_system_number(&doc, "capacity_pct", 0.0, 50.0, "%", &out->capacity_pct);
    lw_system_number(&doc, "resistance_pct", 0.0, 100.0, "%", &out->resistance_pct);
    lw_system_number(&doc, "load_pct", 0.0, 50.0, "%", &out->load_pct);
    (void)lw_doc_done(&doc);
}

static void read_system(lw_doc *doc, lw_system *out)
{
    char format[40], note[4000];
    lw_doc_text(doc, "format", NULL, format, sizeof format);
    if (strcmp(format, "lanewick.system/1") != 0)
        lw_doc_fail(doc, "format", "is \"%s\"; this program reads \"lanewick.system/1\".", format);
    lw_doc_text(doc, "name", out->name, out->name, sizeof out->name);
    lw_doc_text(doc, "note", "", note, sizeof note);
    out->sun_method = (lw_sun_method)lw_doc_choice(doc, "sun_method", "daily|almanac", (int)out->sun_method, NULL);
    read_plane(doc, out);
    lw_system_read_panel(doc, &out->panel);
    lw_system_read_charger(doc, &out->charger);
    lw_system_read_battery(doc, &out->battery);
    lw_system_read_box(doc, &out->box);
    lw_system_read_load(doc, &out->load);
    read_tolerances(doc, &out->tolerances);
    lw_system_number(doc, "dark_limit", 0.0, 1.0, "", &out->dark_limit);
    out->steps_per_hour = lw_doc_integer_or(doc, "steps_per_hour", 1, 12, (lw_doc_or){1.0, "", NULL});
    (void)lw_doc_done(doc);
}

bool lw_system_from_value(const json_t *value, lw_system *out, lw_error *err)
{
    lw_doc_root root = {.err = err};
    lw_doc doc = lw_doc_open(&root, value, "");
    *out = lw_system_default();
    read_system(&doc, out);
    return !root.failed && lw_system_check(out, err);
}

bool lw_system_from_json(const char *text, size_t length, lw_system *out, lw_error *err)
{
    json_t *value = lw_json_parse(text, length, err);
    if (!value)
        return false;
    const bool done = lw_system_from_value(value, out, err);
    json_decref(value);
    return done;
}
