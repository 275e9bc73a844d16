/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A mast as its document, which format/mast_json.c reads: see lanewick/mast_json.h.
 */
#include "lanewick/mast_json.h"

#include "doc.h"
#include "json_help.h"

static void set_word(json_t *object, const char *key, const char *words, int i)
{
    json_object_set_new(object, key, lw_doc_word(words, i));
}

/* Left out where it is not so, as the readers take it. */
static void set_flag(json_t *object, const char *key, bool yes)
{
    if (yes)
        json_object_set_new(object, key, json_boolean(1));
}

static json_t *wind(const lw_mast_wish *wish)
{
    json_t *out = json_object();
    lw_json_set(out, "speed_m_s", wish->wind.speed_m_s);
    set_word(out, "speed_is", LW_WIND_LABEL_WORDS, (int)wish->wind.label);
    set_word(out, "terrain", LW_TERRAIN_WORDS, (int)wish->wind.terrain);
    lw_json_set(out, "air_kg_m3", wish->wind.air_kg_m3);
    lw_json_set(out, "directionality", wish->wind.directionality);
    lw_json_set(out, "topography", wish->wind.topography);
    lw_json_set(out, "return_years", wish->return_years);
    return out;
}

static json_t *part(const lw_mast_part *part)
{
    json_t *out = json_object();
    lw_json_set(out, "area_m2", part->area_m2);
    lw_json_set(out, "height_m", part->height_m);
    lw_json_set(out, "kg", part->kg);
    lw_json_set(out, "force_coefficient", part->coefficient);
    return out;
}

static json_t *panel(const lw_mast_wish *wish)
{
    json_t *out = part(&wish->panel);
    lw_json_set(out, "tilt_deg", wish->panel_tilt_deg);
    lw_json_set(out, "width_m", wish->panel_width_m);
    return out;
}

static json_t *head(const lw_mast_wish *wish)
{
    json_t *out = part(&wish->head);
    lw_json_set(out, "arm_m", wish->head_arm_m);
    return out;
}

static json_t *upper(const lw_mast_upper *upper)
{
    json_t *out = json_object();
    lw_json_set(out, "diameter_mm", upper->pipe.diameter_mm);
    lw_json_set(out, "wall_mm", upper->pipe.wall_mm);
    lw_json_set(out, "lap_m", upper->lap_m);
    lw_json_set(out, "lower_length_m", upper->lower_length_m);
    return out;
}

static json_t *pipe(const lw_mast_wish *wish)
{
    json_t *out = json_object();
    set_word(out, "material", LW_MAST_MATERIAL_WORDS, (int)wish->material);
    lw_json_set(out, "height_m", wish->height_m);
    lw_json_set(out, "diameter_mm", wish->pipe.diameter_mm);
    lw_json_set(out, "wall_mm", wish->pipe.wall_mm);
    if (wish->upper.pipe.diameter_mm > 0.0)
        json_object_set_new(out, "upper", upper(&wish->upper));
    lw_json_set(out, "hole_mm", wish->hole_mm);
    lw_json_set(out, "wall_temp_c", wish->wall_temp_c);
    lw_json_set(out, "age_years", wish->age_years);
    set_flag(out, "wall_measured", wish->wall_measured);
    set_flag(out, "welded", wish->welded);
    return out;
}

static void set_plate(json_t *out, const lw_plate_wish *plate)
{
    set_flag(out, "on_rock", plate->on_rock);
    lw_json_set(out, "block_m", plate->block_m);
    lw_json_set(out, "block_height_m", plate->thickness_m);
    lw_json_set(out, "bolt_mm", plate->bolt_mm);
    lw_json_set(out, "bolt_spacing_m", plate->bolt_spacing_m);
    set_word(out, "grade", LW_BOLT_GRADE_WORDS, (int)plate->grade);
    if (plate->bearing_pa > 0.0)
        lw_json_set(out, "bearing_pa", plate->bearing_pa);
}

static json_t *base(const lw_mast_wish *wish, int soil)
{
    json_t *out = json_object();
    set_word(out, "soil", LW_SOIL_WORDS "|other", soil);
    if (soil > (int)LW_SOIL_SOFT)
        lw_json_set(out, "soil_pa_per_m", wish->soil_pa_per_m);
    set_flag(out, "doubled", wish->doubled);
    set_flag(out, "paved", wish->paved);
    set_flag(out, "flooded", wish->flooded);
    set_word(out, "kind", LW_BASE_WORDS, (int)wish->base);
    if (wish->base == LW_BASE_COLLAR)
        lw_json_set(out, "collar_m", wish->collar_m);
    if (wish->base == LW_BASE_PLATE)
        set_plate(out, &wish->plate);
    lw_json_set(out, "loose_m", wish->loose_m);
    lw_json_set(out, "depth_m", wish->depth_m);
    return out;
}

static json_t *place(const lw_mast_wish *wish)
{
    json_t *out = json_object();
    set_flag(out, "hill", wish->hill);
    set_flag(out, "on_building", wish->on_building);
    set_flag(out, "people_below", wish->people_below);
    set_flag(out, "power_line_near", wish->power_line_near);
    set_flag(out, "guyed", wish->guyed);
    return out;
}

char *lw_mast_document(const lw_mast_wish *wish, int soil)
{
    json_t *out = json_object();
    json_object_set_new(out, "format", json_string("lanewick.mast/1"));
    if (wish->wind_given)
        json_object_set_new(out, "wind", wind(wish));
    json_object_set_new(out, "panel", panel(wish));
    json_object_set_new(out, "box", part(&wish->box));
    json_object_set_new(out, "head", head(wish));
    json_object_set_new(out, "pipe", pipe(wish));
    json_object_set_new(out, "base", base(wish, soil));
    json_object_set_new(out, "place", place(wish));
    return lw_json_line(out);
}
