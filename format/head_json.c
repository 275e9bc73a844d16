/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reader and answer of the head document: see lanewick/head_json.h and docs/head.md.
 */
#include "lanewick/head_json.h"

#include "head_read.h"
#include "json_help.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double usual_meter_pct = 10.0;

static void read_numbers(lw_doc *doc, const char *key, double high, const char *unit, double *out, size_t *count)
{
    const json_t *list = lw_doc_list(doc, key, 3, LW_HEAD_READINGS);
    *count = json_array_size(list);
    if (!list)
        lw_doc_fail(doc, key, "is missing: a list of at least 3 numbers.");
    else
        (void)lw_doc_numbers(doc, key, 0.0, high, unit, out, *count);
}

static void read_readings(lw_doc *head, lw_head *out)
{
    size_t lux_count = 0;
    if (!lw_doc_has(head, "readings"))
        return;
    lw_doc doc = lw_doc_part(head, "readings", true);
    read_numbers(&doc, "angle_deg", 180.0, "degree", out->angle_deg, &out->reading_count);
    read_numbers(&doc, "lux_lx", 1e6, "lx", out->lux_lx, &lux_count);
    out->distance_m = lw_doc_number(&doc, "distance_m", 0.05, 50.0, "m");
    out->meter_share = lw_doc_number_or(&doc, "meter_pct", 0.0, 100.0, (lw_doc_or){usual_meter_pct, "%", NULL}) / 100.0;
    out->dark_lx = lw_doc_number_or(&doc, "dark_lx", 0.0, 1e5, (lw_doc_or){0.0, "lx", NULL});
    out->as_read = lw_doc_choice(&doc, "shape", "cosine|as_read", 0, NULL) == 1;
    if (lux_count != out->reading_count)
        lw_doc_fail(&doc, "lux_lx", "has %zu values and angle_deg %zu; they must be as many.", lux_count,
                    out->reading_count);
    (void)lw_doc_done(&doc);
}

static void read_diffuser(lw_doc *head, lw_head *out)
{
    if (!lw_doc_has(head, "diffuser"))
        return;
    lw_doc doc = lw_doc_part(head, "diffuser", true);
    const int kind = lw_doc_choice(&doc, "kind", LW_DIFFUSER_WORDS, -1, NULL);
    const int material = lw_doc_choice(&doc, "material", LW_DIFFUSER_MATERIAL_WORDS, 0, NULL);
    const double years = lw_doc_number_or(&doc, "years", 0.0, 30.0, (lw_doc_or){0.0, "year", NULL});
    const double measured = lw_doc_number_or(&doc, "transmittance", 0.01, 1.0, (lw_doc_or){NAN, "", NULL});
    const double scattered = lw_doc_number_or(&doc, "scattered", 0.0, 1.0, (lw_doc_or){NAN, "", NULL});
    if (!lw_doc_done(&doc))
        return;
    out->has_diffuser = true;
    out->diffuser = lw_diffuser_of((size_t)kind, (size_t)material, years, measured);
    if (!isnan(scattered))
        out->diffuser.scattered = scattered;
    out->change_from_y = lw_diffuser_material_at((size_t)material)->change_from_y;
    (void)snprintf(out->diffuser_kind, sizeof out->diffuser_kind, "%s", lw_diffuser_kind_at((size_t)kind)->name);
    (void)snprintf(out->diffuser_material, sizeof out->diffuser_material, "%s",
                   lw_diffuser_material_at((size_t)material)->name);
}

void lw_head_read_shape(lw_doc *doc, lw_head *out)
{
    lw_doc_text(doc, "intensity_file", "", out->intensity_file, sizeof out->intensity_file);
    read_readings(doc, out);
    if (out->intensity_file[0] && out->reading_count)
        lw_doc_fail(doc, "readings", "and intensity_file are both given; give one of them.");
    out->cos_power = lw_doc_number_or(doc, "cos_power", 0.0, 1000.0, (lw_doc_or){1.0, "", NULL});
    out->round = lw_doc_flag_or(doc, "round", false, NULL);
    out->street_plane_deg = lw_doc_number_or(doc, "street_plane_deg", 0.0, 360.0, (lw_doc_or){0.0, "degree", NULL});
    read_diffuser(doc, out);
}

double lw_head_read_colour(lw_doc *doc)
{
    return lw_doc_number_or(doc, "colour_k", 1800.0, 10000.0, (lw_doc_or){0.0, "K", NULL});
}

void lw_head_read(lw_doc *doc, lw_head *out)
{
    lw_head_read_shape(doc, out);
    const bool known = out->intensity_file[0] != '\0' || out->reading_count > 0;
    out->lumens = known ? lw_doc_number_or(doc, "lumens", 0.0, 1e7, (lw_doc_or){0.0, "lm", NULL})
                        : lw_doc_number(doc, "lumens", 0.001, 1e7, "lm");
    out->colour_k = lw_head_read_colour(doc);
}

/* YYYY-MM-DD, or nothing. */
static bool is_date(const char *text)
{
    static const char model[] = "0000-00-00";
    if (!text[0])
        return true;
    if (strlen(text) != sizeof model - 1)
        return false;
    for (size_t i = 0; model[i]; i++)
        if (model[i] == '-' ? text[i] != '-' : text[i] < '0' || text[i] > '9')
            return false;
    const int month = (text[5] - '0') * 10 + text[6] - '0', day = (text[8] - '0') * 10 + text[9] - '0';
    return month >= 1 && month <= 12 && day >= 1 && day <= 31;
}

bool lw_head_from_json(const char *text, size_t length, lw_head *out, lw_error *err)
{
    lw_doc_file file;
    *out = (lw_head){0};
    if (!lw_doc_file_open(&file, text, length, "lanewick.head/1", err))
        return false;
    lw_doc_text(&file.doc, "name", "head made by hand", out->name, sizeof out->name);
    lw_doc_text(&file.doc, "date", "", out->date, sizeof out->date);
    if (!is_date(out->date))
        lw_doc_fail(&file.doc, "date", "is \"%s\"; write it as 2026-03-09.", out->date);
    out->watts = lw_doc_number_or(&file.doc, "watts", 0.0, 1e4, (lw_doc_or){0.0, "W", NULL});
    lw_head_read(&file.doc, out);
    return lw_doc_file_close(&file);
}

static void put_diffuser(json_t *object, const lw_head *head, const lw_head_light *light)
{
    if (!head->has_diffuser)
        return;
    json_t *one = json_object();
    json_object_set_new(one, "kind", json_string(head->diffuser_kind));
    json_object_set_new(one, "material", json_string(head->diffuser_material));
    json_object_set_new(one, "years", lw_json_number(head->diffuser.years));
    json_object_set_new(one, "through", lw_json_number(light->through.usual));
    json_object_set_new(one, "through_low", lw_json_number(light->through.low));
    json_object_set_new(one, "through_high", lw_json_number(light->through.high));
    json_object_set_new(one, "change_from_y", lw_json_number(head->change_from_y > 0.0 ? head->change_from_y : NAN));
    json_object_set_new(object, "diffuser", one);
}

void lw_put_zones(json_t *object, const lw_intensity *table)
{
    static const char *const zones[] = {"zone_0_30_lm", "zone_30_60_lm", "zone_60_80_lm", "zone_80_90_lm",
                                        "zone_90_180_lm"};
    const lw_beam_numbers n = lw_beam_numbers_of(table);
    for (int i = 0; i < 5; i++)
        json_object_set_new(object, zones[i], lw_json_number(n.zone_lm[i]));
    json_object_set_new(object, "upward_share", lw_json_number(n.upward_share));
    json_object_set_new(object, "glare_class", n.glare_class ? json_integer(n.glare_class) : json_null());
}

char *lw_head_to_json(const lw_head *head, const lw_head_light *light)
{
    const lw_beam_numbers *n = &light->numbers;
    json_t *object = json_object();
    json_object_set_new(object, "name", lw_json_text(head->name));
    json_object_set_new(object, "lumens", lw_json_number(n->lumens));
    json_object_set_new(object, "lumens_sd", lw_json_number(light->lumens_sd_share * n->lumens));
    json_object_set_new(object, "max_cd", lw_json_number(n->peak_cd));
    json_object_set_new(object, "half_deg", lw_json_number(n->half_deg));
    lw_put_zones(object, &light->table);
    json_object_set_new(object, "cos_power", lw_json_number(light->fitted ? light->fit.cos_power : NAN));
    json_object_set_new(object, "cos_power_sd", lw_json_number(light->fitted ? light->fit.cos_power_sd : NAN));
    json_object_set_new(object, "misfit", lw_json_number(light->fitted ? light->fit.misfit : NAN));
    json_object_set_new(object, "lumens_per_w", lw_json_number(head->watts > 0.0 ? n->lumens / head->watts : NAN));
    if (head->colour_k > 0.0) {
        const lw_light_colour colour = lw_head_colour(head, light);
        json_object_set_new(object, "white", json_string(colour.grade));
        json_object_set_new(object, "advice", json_string(colour.advice));
    }
    put_diffuser(object, head, light);
    return lw_json_line(object);
}
