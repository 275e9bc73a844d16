/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The whole mast step by step: wind, forces, bending, swing, base. Load factor 1.5 for EN 1991-1-4 and observed gusts
 * (EN 1990); forces of ASCE 7 hold their factor already (1.0 in strength, 0.6 in allowable stress and soil; gust effect
 * factor 0.85 for rigid masts), all from memory.
 */
#include "lanewick/mast_check.h"
#include "lanewick/units.h"
#include "mast_base.h"
#include "mast_joint.h"
#include "mast_notes.h"
#include "mast_weights.h"

#include <math.h>

static const double pipe_coefficient = 1.2;

lw_mast_wish lw_mast_wish_default(void)
{
    return (lw_mast_wish){
        .wind = {.label = LW_WIND_MEAN_10MIN,
                 .terrain = LW_TERRAIN_II,
                 .air_kg_m3 = 1.25,
                 .directionality = 0.85,
                 .topography = 1.0},
        .return_years = 50.0,
        .panel = {.coefficient = 1.8},
        .box = {.coefficient = 1.4},
        .head = {.coefficient = 0.8},
        .wall_temp_c = 45.0,
        .loose_m = 0.15,
        .base = LW_BASE_COLLAR,
        .collar_m = 0.3,
        .plate = {.thickness_m = 0.5, .bolt_mm = 16.0, .bearing_pa = 72e3},
    };
}

static bool check_part(const lw_mast_part *part, const char *name, double height_m, lw_error *err)
{
    if (!lw_in_range(err, name, part->area_m2, 0.0, 3.0, "m2") || !lw_in_range(err, name, part->kg, 0.0, 200.0, "kg"))
        return false;
    return (part->area_m2 == 0.0 && part->kg == 0.0) ||
           lw_in_range(err, name, part->height_m, 0.1, height_m + 2.0, "m high");
}

static bool check(const lw_mast_wish *w, lw_error *err)
{
    return lw_in_range(err, "pipe.height_m", w->height_m, 0.5, 12.0, "m") &&
           lw_in_range(err, "pipe.diameter_mm", w->pipe.diameter_mm, 15.0, 400.0, "mm") &&
           lw_in_range(err, "pipe.wall_mm", w->pipe.wall_mm, 0.5, 200.0, "mm") &&
           lw_in_range(err, "pipe.hole_mm", w->hole_mm, 0.0, 0.5 * w->pipe.diameter_mm, "mm") &&
           check_part(&w->panel, "panel", w->height_m, err) && check_part(&w->box, "box", w->height_m, err) &&
           check_part(&w->head, "head", w->height_m, err) &&
           lw_in_range(err, "base.soil_pa_per_m", w->soil_pa_per_m, 1000.0, 200000.0, "Pa/m") &&
           lw_in_range(err, "base.collar_m", w->collar_m, w->pipe.diameter_mm / 1000.0, 1.5, "m") &&
           (!w->wind_given || lw_in_range(err, "wind.speed_m_s", w->wind.speed_m_s, 5.0, 90.0, "m/s"));
}

/* Horizontal force on a part; the panel's by the sine of its tilt. */
static bool force_on(const lw_mast_wish *w, const lw_mast_part *part, double share, lw_wind *wind, double *force_n,
                     lw_error *err)
{
    *force_n = 0.0;
    if (part->area_m2 == 0.0)
        return true;
    lw_wind_site site = w->wind;
    if (site.label == LW_WIND_MEAN_10MIN)
        site.speed_m_s *= lw_wind_return_factor(w->return_years);
    if (!lw_wind_at(&site, part->height_m, wind, err))
        return false;
    const double gust = site.label == LW_WIND_GUST_DESIGN ? 0.85 : 1.0;
    *force_n = gust * part->coefficient * part->area_m2 * wind->peak_pressure_pa * share;
    return true;
}

static bool forces(const lw_mast_wish *w, lw_mast_result *out, lw_mast_load *load, lw_error *err)
{
    const double tilt = w->panel_tilt_deg * lw_radian_per_degree;
    const lw_mast_part pipe = {.area_m2 = w->pipe.diameter_mm / 1000.0 * w->height_m,
                               .height_m = w->height_m,
                               .coefficient = pipe_coefficient};
    lw_wind other;
    double normal_n;
    if (!force_on(w, &pipe, 1.0, &out->wind, &out->pipe_n, err) ||
        !force_on(w, &w->panel, 1.0, &out->wind, &normal_n, err) ||
        !force_on(w, &w->box, 1.0, &other, &out->box_n, err) || !force_on(w, &w->head, 1.0, &other, &out->head_n, err))
        return false;
    out->panel_n = normal_n * sin(tilt);
    out->lift_n = normal_n * cos(tilt);
    out->twist_nm = 0.25 * w->panel_width_m * out->panel_n;
    const double sum = out->panel_n + out->box_n + out->head_n;
    const double moment =
        out->panel_n * w->panel.height_m + out->box_n * w->box.height_m + out->head_n * w->head.height_m;
    *load = (lw_mast_load){.height_m = w->height_m,
                           .head_force_n = sum,
                           .head_height_m = sum > 0.0 ? moment / sum : w->height_m,
                           .line_n_m = out->pipe_n / w->height_m,
                           .head_kg = w->panel.kg + w->head.kg};
    lw_mast_weigh(w, 0.0, load);
    out->arm_m = (moment + 0.5 * out->pipe_n * w->height_m) / (sum + out->pipe_n);
    return true;
}

/* Logarithmic decrement: plain metal tube 0.012 (EN 1991-1-4 Table F.2, from memory), wood, bamboo, plastic 0.06. */
static double damping(size_t material)
{
    return material <= 2 ? 0.012 : 0.06;
}

/* A metal or plastic wall thinner than the limit of its material: its strength is that of a thin shell of normal shape
 * (EN 1993-1-6, from memory), up to diameter over wall of 200, where a hand dents it. Wood and bamboo split: no. */
static void thin_wall(size_t material, const lw_tube *pipe, lw_mast_strength *strength, lw_wall_buckling *thin)
{
    const double slender = pipe->diameter_mm / pipe->wall_mm;
    if (material > 3 || slender <= strength->thickness_limit || slender > 200.0)
        return;
    *thin = lw_wall_buckle(pipe, strength->allowed_mpa, strength->stiffness_mpa, 16.0);
    strength->allowed_mpa = thin->design_mpa;
    strength->standing_mpa *= thin->reduction / 1.1;
    strength->thickness_limit = slender;
}

bool lw_mast_wish_strength(const lw_mast_wish *w, const lw_tube *pipe, lw_wall_buckling *thin, lw_mast_strength *out,
                           lw_error *err)
{
    const lw_mast_conditions conditions = {w->wall_temp_c, w->age_years, pipe->wall_mm};
    if (!lw_mast_material_at(w->material)->strength(&conditions, out, err))
        return false;
    if (w->wind.label == LW_WIND_GUST_DESIGN)
        out->load_factor = out->load_factor > 1.0 ? 1.0 : 0.6;
    thin_wall(w->material, pipe, out, thin);
    return true;
}

/* Its weight stays; only what the wind does to it shrinks with it. */
static double panel_that_stands(const lw_mast_wish *w, const lw_mast_result *r)
{
    const lw_mast_bending *b = &r->bending;
    const double panel_nm = r->panel_n * w->panel.height_m * b->column.gust_grows;
    const double squeezed = b->column.compression_mpa;
    if (panel_nm <= 0.0 || b->buckles < 1.0)
        return 0.0;
    const double most_nm = b->moment_nm * (b->allowed_mpa - squeezed) / (b->factored_mpa - squeezed);
    const double spare_nm = fmin(most_nm, b->moment_nm * b->bends) - b->moment_nm + panel_nm;
    return fmax(0.0, w->panel.area_m2 * spare_nm / panel_nm);
}

static bool bend(const lw_mast_wish *w, const lw_mast_load *load, lw_mast_result *out, lw_error *err)
{
    lw_mast_strength strength = {0};
    if (!lw_mast_wish_strength(w, &w->pipe, &out->thin_wall, &strength, err))
        return false;
    /* a hole where the stress is greatest takes its part of the section */
    const double left = 1.0 - 1.3 * w->hole_mm / w->pipe.diameter_mm;
    strength.allowed_mpa *= left;
    strength.standing_mpa *= left;
    if (!lw_mast_bend(&w->pipe, &strength, load, &out->bending, err) ||
        !lw_mast_vibrate(&w->pipe, &strength, w->height_m, load->head_kg, &out->vibration, err) ||
        !lw_shedding_of(&w->pipe, &strength, w->height_m, load->head_kg, damping(w->material), &out->shedding, err))
        return false;
    lw_mast_load on_steel = *load; /* the search counts load factor 1.5, which ASCE 7 forces hold already */
    if (w->wind.label == LW_WIND_GUST_DESIGN) {
        on_steel.head_force_n /= 1.5;
        on_steel.line_n_m /= 1.5;
    }
    if (!lw_mast_steel_that_stands(&on_steel, w->pipe.diameter_mm, &out->steel_that_stands))
        out->steel_that_stands = (lw_tube){0};
    out->panel_that_stands_m2 = panel_that_stands(w, out);
    return true;
}

static void lifting(const lw_mast_wish *w, lw_mast_result *out)
{
    const lw_mast_conditions conditions = {20.0, 0.0, w->pipe.wall_mm};
    lw_mast_strength strength = {0};
    lw_tube_section section = {0};
    if (!lw_mast_material_at(w->material)->strength(&conditions, &strength, NULL) ||
        !lw_tube_section_of(&w->pipe, &section, NULL))
        return;
    const double foot_m = w->base == LW_BASE_PLATE ? 0.0 : fmax(w->depth_m, out->depth_m),
                 length_m = w->height_m + foot_m; /* below ground; in all */
    const double pipe_kg = strength.density_kg_m3 * section.area_mm2 * 1e-6 * length_m;
    out->total_kg = pipe_kg + w->panel.kg + w->box.kg + w->head.kg;
    out->tilting_nm =
        lw_gravity_m_s2 * (0.5 * pipe_kg * length_m + w->panel.kg * (foot_m + w->panel.height_m) +
                           w->box.kg * (foot_m + w->box.height_m) + w->head.kg * (foot_m + w->head.height_m));
    out->raising = lw_raise(length_m, lw_gravity_m_s2 * out->total_kg, out->tilting_nm, 2.0);
    out->clamp_nm = lw_clamp_band(1000.0, 0.2, w->pipe.diameter_mm / 1000.0).turn_nm;
    double clear_m;
    if (lw_line_clearance_m(50.0, &clear_m, NULL))
        out->line_clear_m = fmax(length_m, foot_m + w->panel.height_m) + clear_m;
}

bool lw_mast_check(const lw_mast_wish *wish, lw_mast_result *out, lw_error *err)
{
    lw_mast_load load;
    *out = (lw_mast_result){.verdict = LW_MAST_NOT_CHECKED};
    if (!check(wish, err))
        return false;
    if (wish->wind_given && (!forces(wish, out, &load, err) || !bend(wish, &load, out, err)))
        return false;
    lifting(wish, out); /* a plate is held down by that weight */
    if (wish->wind_given && !lw_mast_base(wish, out, err))
        return false;
    if (wish->base != LW_BASE_PLATE)
        lifting(wish, out); /* again, with the part in the ground */
    if (wish->wind_given && wish->upper.pipe.diameter_mm > 0.0 && !lw_mast_join(wish, &load, out, err))
        return false;
    lw_mast_write_notes(wish, out);
    return true;
}
