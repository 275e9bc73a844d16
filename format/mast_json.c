/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Document of a mast and the result of its check: see lanewick/mast_json.h.
 */
#include "lanewick/mast_json.h"

#include "doc.h"
#include "json_help.h"
#include "mast_read.h"
#include "plan_json.h"

#include <math.h>

static double number(lw_doc *doc, const char *key, double low, double high, const char *unit, double fallback)
{
    return lw_doc_number_or(doc, key, low, high, (lw_doc_or){fallback, unit, NULL});
}

static void read_wind(lw_doc *mast, lw_mast_wish *out)
{
    if (!lw_doc_has(mast, "wind"))
        return;
    lw_doc doc = lw_doc_part(mast, "wind", true);
    out->wind_given = true;
    out->wind.speed_m_s = lw_doc_number(&doc, "speed_m_s", 5.0, 90.0, "m/s");
    out->wind.label = (lw_wind_label)lw_doc_choice(&doc, "speed_is", LW_WIND_LABEL_WORDS, -1, NULL);
    out->wind.terrain = (lw_terrain)lw_doc_choice(&doc, "terrain", LW_TERRAIN_WORDS, -1, NULL);
    out->wind.air_kg_m3 = number(&doc, "air_kg_m3", 0.7, 1.25, "kg/m3", 1.25);
    out->wind.directionality = number(&doc, "directionality", 0.8, 1.0, "", 0.85);
    out->wind.topography = number(&doc, "topography", 1.0, 3.0, "", 1.0);
    out->return_years = number(&doc, "return_years", 2.0, 1000.0, "years", 50.0);
    (void)lw_doc_done(&doc);
}

static void read_part(lw_doc *mast, const char *key, lw_mast_part *part, lw_mast_wish *out)
{
    if (!lw_doc_has(mast, key))
        return;
    lw_doc doc = lw_doc_part(mast, key, true);
    part->area_m2 = lw_doc_number(&doc, "area_m2", 0.0, 3.0, "m2");
    part->height_m = lw_doc_number(&doc, "height_m", 0.1, 14.0, "m");
    part->kg = number(&doc, "kg", 0.0, 200.0, "kg", 0.0);
    part->coefficient = number(&doc, "force_coefficient", 0.4, 2.5, "", part->coefficient);
    if (part == &out->panel) {
        out->panel_tilt_deg = lw_doc_number(&doc, "tilt_deg", 0.0, 90.0, "degree");
        out->panel_width_m = number(&doc, "width_m", 0.0, 3.0, "m", 0.0);
    }
    if (part == &out->head)
        out->head_arm_m = number(&doc, "arm_m", 0.0, 3.0, "m", 0.0);
    (void)lw_doc_done(&doc);
}

static void read_pipe(lw_doc *mast, lw_mast_wish *out)
{
    lw_doc doc = lw_doc_part(mast, "pipe", true);
    out->material = (size_t)lw_doc_choice(&doc, "material", LW_MAST_MATERIAL_WORDS, 0, NULL);
    out->height_m = lw_doc_number(&doc, "height_m", 0.5, 12.0, "m");
    out->pipe.diameter_mm = lw_doc_number(&doc, "diameter_mm", 15.0, 400.0, "mm");
    out->pipe.wall_mm = lw_doc_number(&doc, "wall_mm", 0.5, 200.0, "mm");
    if (lw_doc_has(&doc, "upper"))
        lw_doc_upper(&doc, &out->upper, NULL);
    out->hole_mm = number(&doc, "hole_mm", 0.0, 200.0, "mm", 0.0);
    out->wall_temp_c = number(&doc, "wall_temp_c", -40.0, 80.0, "degC", out->wall_temp_c);
    out->age_years = number(&doc, "age_years", 0.0, 50.0, "years", 0.0);
    out->wall_measured = lw_doc_flag_or(&doc, "wall_measured", false, NULL);
    out->welded = lw_doc_flag_or(&doc, "welded", false, NULL);
    (void)lw_doc_done(&doc);
}

/* base.kind left out: a collar where its width is given, else buried. */
static void read_base_kind(lw_doc *base, lw_mast_wish *out)
{
    const bool collar = lw_doc_has(base, "collar_m");
    const double pipe_m = out->pipe.diameter_mm / 1000.0;
    out->base =
        (lw_base_kind)lw_doc_choice(base, "kind", LW_BASE_WORDS, collar ? LW_BASE_COLLAR : LW_BASE_BURIED, NULL);
    out->collar_m = pipe_m;
    if (out->base == LW_BASE_COLLAR)
        out->collar_m = number(base, "collar_m", 0.015, 1.5, "m", fmax(0.3, 0.2 + pipe_m));
    else if (collar)
        lw_doc_fail(base, "collar_m", "goes with the kind \"collar\" only.");
    if (out->base == LW_BASE_PLATE)
        lw_doc_plate(base, &out->plate);
}

static void read_base(lw_doc *mast, lw_mast_wish *out, lw_error *err)
{
    lw_doc doc = lw_doc_part(mast, "base", true);
    const int soil = lw_doc_choice(&doc, "soil", LW_SOIL_WORDS "|other", -1, NULL);
    if (soil >= 0 && soil <= (int)LW_SOIL_SOFT && !lw_soil_lateral_pa_per_m((lw_soil)soil, &out->soil_pa_per_m, err))
        doc.root->failed = true;
    out->plate.bearing_pa = soil >= 0 && soil <= (int)LW_SOIL_SOFT ? lw_soil_bearing_pa((lw_soil)soil) : 0.0;
    if (soil == (int)LW_SOIL_SOFT + 1)
        out->soil_pa_per_m = lw_doc_number(&doc, "soil_pa_per_m", 1000.0, 200000.0, "Pa/m");
    read_base_kind(&doc, out);
    out->doubled = lw_doc_flag_or(&doc, "doubled", false, NULL);
    out->paved = lw_doc_flag_or(&doc, "paved", false, NULL);
    out->flooded = lw_doc_flag_or(&doc, "flooded", false, NULL);
    out->loose_m = number(&doc, "loose_m", 0.0, 1.0, "m", out->loose_m);
    out->depth_m = number(&doc, "depth_m", 0.0, 4.0, "m", 0.0);
    (void)lw_doc_done(&doc);
}

static void read_place(lw_doc *mast, lw_mast_wish *out)
{
    lw_doc doc = lw_doc_part(mast, "place", false);
    out->hill = lw_doc_flag_or(&doc, "hill", false, NULL);
    out->on_building = lw_doc_flag_or(&doc, "on_building", false, NULL);
    out->people_below = lw_doc_flag_or(&doc, "people_below", false, NULL);
    out->power_line_near = lw_doc_flag_or(&doc, "power_line_near", false, NULL);
    out->guyed = lw_doc_flag_or(&doc, "guyed", false, NULL);
    (void)lw_doc_done(&doc);
}

bool lw_mast_from_json(const char *text, size_t length, lw_mast_wish *out, lw_error *err)
{
    lw_doc_file file;
    if (!lw_doc_file_open(&file, text, length, "lanewick.mast/1", err))
        return false;
    *out = lw_mast_wish_default();
    read_wind(&file.doc, out);
    read_part(&file.doc, "panel", &out->panel, out);
    read_part(&file.doc, "box", &out->box, out);
    read_part(&file.doc, "head", &out->head, out);
    read_pipe(&file.doc, out);
    read_base(&file.doc, out, err);
    read_place(&file.doc, out);
    return lw_doc_file_close(&file);
}

static json_t *notes(const lw_mast_result *r, size_t first, size_t last)
{
    json_t *list = json_array();
    char text[LW_MAST_NOTE_BYTES];
    for (size_t i = first; i < last; i++) {
        lw_mast_note_say(&r->notes[i], r->notes[i].text, text, sizeof text);
        json_array_append_new(list, json_string(text));
    }
    return list;
}

static void set_numbers(json_t *object, const lw_mast_result *r)
{
    lw_json_set(object, "mean_m_s", r->wind.mean_m_s);
    lw_json_set(object, "peak_pressure_pa", r->wind.peak_pressure_pa);
    lw_json_set(object, "panel_n", r->panel_n);
    lw_json_set(object, "box_n", r->box_n);
    lw_json_set(object, "head_n", r->head_n);
    lw_json_set(object, "pipe_n", r->pipe_n);
    lw_json_set(object, "lift_n", r->lift_n);
    lw_json_set(object, "twist_nm", r->twist_nm);
    lw_json_set(object, "shear_n", r->bending.shear_n);
    lw_json_set(object, "arm_m", r->arm_m);
    lw_json_set(object, "moment_nm", r->bending.moment_nm);
    lw_json_set(object, "stress_mpa", r->bending.stress_mpa);
    lw_json_set(object, "factored_stress_mpa", r->bending.factored_mpa);
    lw_json_set(object, "allowed_mpa", r->bending.allowed_mpa);
    lw_json_set(object, "reserve", r->bending.reserve);
    lw_json_set(object, "bending_reserve", r->bending.bends);
    lw_json_set(object, "buckling_reserve", r->bending.buckles);
    lw_json_set(object, "alpha_cr", r->bending.column.alpha_cr);
    lw_json_set(object, "critical_kg", r->bending.column.critical_kg);
    lw_json_set(object, "on_top_kg", r->bending.column.on_top_kg);
    lw_json_set(object, "sway_mm", r->bending.sway_mm);
    lw_json_set(object, "frequency_hz", r->vibration.frequency_hz);
    lw_json_set(object, "shedding_m_s", r->vibration.critical_m_s);
    lw_json_set(object, "shedding_amplitude_mm", r->shedding.amplitude_mm);
    lw_json_set(object, "shedding_stress_mpa", r->shedding.stress_mpa);
    lw_json_set(object, "clamp_slips_nm", r->clamp_nm);
    lw_json_set(object, "base_depth_m", r->depth_m);
}

static void set_joint(json_t *object, const lw_mast_wish *wish, const lw_mast_joint *joint)
{
    lw_json_set(object, "upper_diameter_mm", wish->upper.pipe.diameter_mm);
    lw_json_set(object, "upper_wall_mm", wish->upper.pipe.wall_mm);
    lw_json_set(object, "upper_length_m", joint->upper_length_m);
    lw_json_set(object, "lap_m", wish->upper.lap_m);
    lw_json_set(object, "joint_height_m", joint->mouth_m);
    lw_json_set(object, "joint_moment_nm", joint->bending.moment_nm);
    lw_json_set(object, "joint_reserve", joint->bending.reserve);
    lw_json_set(object, "joint_contact_n_mm", joint->contact_n_mm);
    lw_json_set(object, "joint_wall_use", joint->wall_use);
    lw_json_set(object, "joint_bolt_n", joint->bolt_n);
    lw_json_set(object, "joint_bolt_use", joint->bolt_use);
}

/* What the base needs: its margin, or block, plate and bolts. */
static void set_base(json_t *object, const lw_mast_wish *wish, const lw_mast_result *r)
{
    const lw_mast_foot *foot = &r->foot;
    if (wish->base != LW_BASE_PLATE) {
        lw_json_set(object, "base_margin", r->base_margin);
        return;
    }
    if (!wish->plate.on_rock) {
        lw_json_set(object, "block_m", foot->block_m);
        lw_json_set(object, "block_height_m", foot->thickness_m);
        lw_json_set(object, "overturning", foot->overturning);
        if (foot->overturning > 1.0) /* else it tips and presses on nothing */
            lw_json_set(object, "bearing_pa", foot->pressure_pa);
        lw_json_set(object, "bearing_allowed_pa", foot->allowed_pa);
        lw_json_set(object, "anchor_m", foot->anchor_m);
    }
    lw_json_set(object, "bolt_mm", wish->plate.bolt_mm);
    lw_json_set(object, "bolt_spacing_m", foot->spacing_m);
    lw_json_set(object, "bolt_n", foot->bolt_n);
    lw_json_set(object, "bolt_use", foot->bolt_use);
    lw_json_set(object, "plate_m", foot->plate_m);
    lw_json_set(object, "plate_mm", foot->plate_mm);
}

json_t *lw_json_mast_check(const lw_mast_wish *wish, const lw_mast_result *result)
{
    static const char *const verdicts[] = {"stands", "engineer", "not_checked", "falls"};
    json_t *object = json_object();
    json_object_set_new(object, "verdict", json_string(verdicts[result->verdict]));
    json_object_set_new(object, "verdict_text", json_string(lw_mast_verdict_text(result->verdict)));
    static const char *const bases[] = {"buried", "collar", "plate"};
    json_object_set_new(object, "base", json_string(bases[wish->base]));
    if (wish->wind_given) {
        set_numbers(object, result);
        set_base(object, wish, result);
        if (result->joint.mouth_m > 0.0)
            set_joint(object, wish, &result->joint);
    }
    lw_json_set(object, "total_kg", result->total_kg);
    lw_json_set(object, "raising_n", result->raising.most_n);
    lw_json_set(object, "raising_people", result->raising.people);
    lw_json_set(object, "clear_m", result->raising.clear_m);
    lw_json_set(object, "line_clear_m", result->line_clear_m);
    json_object_set_new(object, "reasons", notes(result, 0, result->reasons));
    json_object_set_new(object, "cautions", notes(result, result->reasons, result->note_count));
    return object;
}

char *lw_mast_to_json(const lw_mast_wish *wish, const lw_mast_result *result)
{
    return lw_json_line(lw_json_mast_check(wish, result));
}
