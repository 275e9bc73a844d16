/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Answers about light as JSON: see lanewick/light_json.h.
 */
#include "lanewick/light_json.h"

#include "head_read.h"
#include "json_help.h"

#include <math.h>

static void set_defects(json_t *object, const lw_lm63 *file)
{
    static const char *const severities[] = {"told", "mended", "fatal"};
    json_t *list = json_array();
    for (size_t i = 0; i < file->defect_count; i++)
        json_array_append_new(list, json_pack("{s:I,s:s,s:o}", "line", (json_int_t)file->defects[i].line, "severity",
                                              severities[file->defects[i].severity], "text",
                                              lw_json_text(file->defects[i].text)));
    json_object_set_new(object, "defects", list);
    if (file->defects_left_out > 0)
        json_object_set_new(object, "defects_left_out", json_integer((json_int_t)file->defects_left_out));
}

char *lw_lm63_refused_to_json(const lw_lm63 *file, const lw_error *err)
{
    json_t *object = json_object();
    json_object_set_new(object, "error", lw_json_error(err));
    set_defects(object, file);
    return lw_json_line(object);
}

char *lw_lm63_to_json(const lw_lm63 *file)
{
    json_t *object = json_object();
    json_object_set_new(object, "lumens", lw_json_number(file->lumens));
    json_object_set_new(object, "stated_lumens", lw_json_number(file->stated_lumens > 0.0 ? file->stated_lumens : NAN));
    json_object_set_new(object, "max_cd", lw_json_number(lw_intensity_peak_cd(&file->table)));
    json_object_set_new(object, "symmetry",
                        json_string(file->type == 1 ? lw_symmetry_text(file->table.symmetry) : "not of type C"));
    json_object_set_new(object, "version", json_string(file->version));
    json_object_set_new(object, "year", json_integer(file->year));
    json_object_set_new(object, "type", json_stringn(&"CBA"[file->type - 1], 1));
    json_object_set_new(object, "watts", lw_json_number(file->watts));
    json_object_set_new(object, "width_m", lw_json_number(file->width_m));
    json_object_set_new(object, "length_m", lw_json_number(file->length_m));
    json_object_set_new(object, "height_m", lw_json_number(file->height_m));
    json_object_set_new(object, "vertical_count", json_integer((json_int_t)file->table.vertical_count));
    json_object_set_new(object, "horizontal_count", json_integer((json_int_t)file->table.horizontal_count));
    if (file->type == 1)
        lw_put_zones(object, &file->table);
    set_defects(object, file);
    char *text = json_dumps(object, JSON_COMPACT | JSON_REAL_PRECISION(LW_JSON_DIGITS));
    json_decref(object);
    return text;
}

char *lw_picture_to_json(const char *svg)
{
    json_t *object = json_object();
    json_object_set_new(object, "svg", json_string(svg));
    return lw_json_line(object);
}
