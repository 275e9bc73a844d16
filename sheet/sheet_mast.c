/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Mast and base, only for a mast that was checked for the place's wind and stands: the pipe, the hole, the forces.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

/* Where the mast stands on paper; scale in mm a metre. */
typedef struct shaft {
    double x, top, ground, foot, scale;
} shaft;

/* One pipe, or two: the upper one thinner, seen through the lower one as far as it reaches into it. */
static void pipes(lw_canvas *c, const lw_plan_mast *mast, shaft s)
{
    const lw_mast_upper *upper = &mast->wish.upper;
    if (!(upper->pipe.diameter_mm > 0.0)) {
        lw_canvas_pen(c, 1.4, lw_black);
        lw_canvas_line(c, s.x, s.top, s.x, s.foot);
        return;
    }
    const double mouth = s.ground - mast->result.joint.mouth_m * s.scale, end = mouth + upper->lap_m * s.scale;
    char text[24];
    lw_canvas_pen(c, 1.2, lw_black);
    lw_canvas_line(c, s.x, s.top, s.x, mouth);
    lw_canvas_pen(c, 2.6, lw_black);
    lw_canvas_line(c, s.x, mouth, s.x, s.foot);
    lw_canvas_pen(c, 1.4, lw_white);
    lw_canvas_line(c, s.x, mouth, s.x, end);
    lw_canvas_pen(c, 1.0, lw_black);
    lw_canvas_line(c, s.x, mouth, s.x, end - 0.4);
    lw_canvas_disc(c, s.x, 0.5 * (mouth + end), 0.9, lw_black); /* the bolt */
    lw_canvas_pen(c, 0.3, lw_black);
    lw_canvas_dimension(c, s.x + 5.0, mouth, s.x + 5.0, end, "", 10);
    (void)lw_canvas_text(c, s.x + 8.0, 0.5 * (mouth + end) - 2.0, (lw_type){.size_pt = 10},
                         lw_sheet_format(text, sizeof text, "%.2f m", upper->lap_m));
}

/* What the picture holds for, and what is filled in. */
static void beside(lw_sheet *sheet, lw_base_kind base, bool dug)
{
    lw_canvas *c = sheet->canvas;
    const double tx = lw_sheet_left_mm + 92.0;
    const lw_type side = {.size_pt = 10.5, .width_mm = 82.0};
    double ty = sheet->y + 12.0;
    ty += lw_canvas_text(c, tx, ty, side,
                         SAY("This sheet holds for the wind, the terrain and the ground that are written above. Soft "
                             "or flooded ground, a hill, a roof: it does not hold unless it says so.")) +
          4.0;
    if (base == LW_BASE_BURIED)
        (void)lw_canvas_text(c, tx, ty, side,
                             SAY("Hatched: stones, rammed hard in layers of 15 cm around the foot over the full depth. "
                                 "Look at it after the first storm."));
    else if (dug)
        (void)lw_canvas_text(
            c, tx, ty, side,
            base == LW_BASE_PLATE
                ? SAY("Hatched: concrete against undisturbed earth over the full depth, its top sloped so that "
                      "water runs off. It sets seven days before the plate is set on it.")
                : SAY("Hatched: concrete against undisturbed earth over the full depth, its top sloped so that "
                      "water runs off. It sets seven days; until then ropes hold the mast."));
}

static void picture(lw_sheet *sheet, const lw_plan_mast *mast)
{
    const lw_mast_wish *wish = &mast->wish;
    const double high_mm = 84.0, scale = (high_mm - 18.0) / (wish->height_m + mast->depth_m);
    char text[60];
    lw_sheet_need(sheet, high_mm + 4.0);
    lw_canvas *c = sheet->canvas;
    const double x = lw_sheet_left_mm + 40.0, ground = sheet->y + 12.0 + wish->height_m * scale;
    const double top = ground - wish->height_m * scale, foot = ground + mast->depth_m * scale;
    const bool plate = wish->base == LW_BASE_PLATE;
    const double hole_m = lw_plan_mast_hole_m(mast), half = fmax(0.5 * hole_m * scale, 3.0);
    lw_canvas_pen(c, 0.3, lw_black);
    lw_canvas_hatch(c, x - half, ground, 2.0 * half, foot - ground, 2.0);
    lw_canvas_box(c, x - half, ground, 2.0 * half, foot - ground);
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_line(c, x - 34.0, ground, x - half, ground);
    lw_canvas_line(c, x + half, ground, x + 34.0, ground);
    pipes(c, mast, (shaft){x, top, ground, plate ? ground : foot - 1.0, scale});
    if (plate) {
        lw_canvas_fill_box(c, x - 3.0, ground - 0.8, 6.0, 0.8, lw_black);
        lw_canvas_pen(c, 0.5, lw_black);
        for (int side = -1; side <= 1; side += 2)
            lw_canvas_line(c, x + 2.2 * side, ground - 2.0, x + 2.2 * side,
                           fmin(foot, ground + fmax(3.0, mast->result.foot.anchor_m * scale)));
    }
    lw_canvas_pen(c, 1.6, lw_black);
    lw_canvas_line(c, x - 8.0, top + 1.0, x + 8.0, top - 3.0);
    lw_canvas_fill_box(c, x, top + 0.35 * scale, 0.5 * scale, 0.7, lw_black);
    lw_canvas_pen(c, 0.3, lw_black);
    lw_canvas_dimension(c, x - 26.0, top, x - 26.0, ground,
                        lw_sheet_format(text, sizeof text, "%.1f m", wish->height_m), 10);
    if (foot > ground) {
        const char *deep = lw_sheet_format(text, sizeof text, "%.2f m", mast->depth_m);
        const bool room = foot - ground > 14.0; /* for the text along the arrow */
        lw_canvas_dimension(c, x - 26.0, ground, x - 26.0, foot, room ? deep : "", 10);
        if (!room)
            (void)lw_canvas_text(c, x - 22.0, foot - 3.5, (lw_type){.size_pt = 10}, deep);
        lw_canvas_dimension(c, x - half, foot + 3.0, x + half, foot + 3.0, "", 10);
        (void)lw_canvas_text(c, x + half + 2.0, foot + 0.5, (lw_type){.size_pt = 10},
                             lw_sheet_format(text, sizeof text, "%.2f m", hole_m));
    }
    beside(sheet, wish->base, foot > ground);
    sheet->y += high_mm + 4.0;
}

static const char *wind_text(const lw_sheet *sheet, const lw_place *place, char *out, size_t size)
{
    static const char *const terrains[] = {"0", "I", "II", "III", "IV", "B", "C", "D"};
    const char *terrain = terrains[place->wind.terrain];
    const double speed = place->wind.speed_m_s;
    switch (place->wind.label) {
    case LW_WIND_MEAN_10MIN:
        return lw_sheet_format(out, size, SAY("%.0f m/s for ten minutes, terrain %s"), speed, terrain);
    case LW_WIND_GUST_DESIGN:
        return lw_sheet_format(out, size, SAY("%.0f m/s for three seconds, exposure %s"), speed, terrain);
    case LW_WIND_GUST_OBSERVED:
        break;
    }
    return lw_sheet_format(out, size, SAY("%.0f m/s, an observed gust"), speed);
}

static const char *soil_text(const lw_sheet *sheet, int soil)
{
    switch (soil) {
    case LW_SOIL_ROCK:
        return SAY("layered rock");
    case LW_SOIL_GRAVEL:
        return SAY("firm gravel");
    case LW_SOIL_SAND:
        return SAY("firm sand");
    case LW_SOIL_CLAY:
        return SAY("firm clay or silt");
    default:
        return SAY("as tested");
    }
}

static const char *material_text(const lw_sheet *sheet, size_t material)
{
    switch (material) {
    case 0:
        return SAY("steel, marked S235");
    case 1:
        return SAY("steel water pipe without a mark");
    case 2:
        return SAY("aluminium 6063");
    case 3:
        return SAY("PVC-U pipe");
    case 7:
        return SAY("bamboo");
    default:
        return SAY("timber");
    }
}

/* A second pipe in the top of the first. */
static void upper_values(lw_sheet *sheet, const lw_plan_mast *mast)
{
    char text[160];
    const lw_mast_joint *joint = &mast->result.joint;
    lw_sheet_value(sheet, SAY("Upper pipe: diameter x wall, length"),
                   lw_sheet_format(text, sizeof text, "%g x %g mm, %.2f m", mast->wish.upper.pipe.diameter_mm,
                                   mast->wish.upper.pipe.wall_mm, joint->upper_length_m));
    lw_sheet_value(sheet, SAY("Lap inside the lower pipe; its mouth above ground"),
                   lw_sheet_format(text, sizeof text, "%.2f m; %.2f m", mast->wish.upper.lap_m, joint->mouth_m));
    lw_sheet_value(sheet, SAY("Strength over load of the upper pipe; share of the joint's walls"),
                   lw_sheet_format(text, sizeof text, "%.2f; %.2f", joint->bending.reserve, joint->wall_use));
}

/* Block, plate and bolts. */
static void plate_values(lw_sheet *sheet, const lw_plan_mast *mast)
{
    char text[160];
    const lw_mast_foot *foot = &mast->result.foot;
    if (foot->block_m > 0.0)
        lw_sheet_value(sheet, SAY("Block of concrete: side, side, height"),
                       lw_sheet_format(text, sizeof text, "%.2f x %.2f x %.2f m", foot->block_m, foot->block_m,
                                       foot->thickness_m));
    lw_sheet_value(sheet, SAY("Steel plate: side, side, thickness"),
                   lw_sheet_format(text, sizeof text, "%.0f x %.0f x %.0f mm", 1000.0 * foot->plate_m,
                                   1000.0 * foot->plate_m, foot->plate_mm));
    lw_sheet_value(
        sheet, SAY("Four anchor bolts; side of their square"),
        lw_sheet_format(text, sizeof text, "M%g; %.0f mm", mast->wish.plate.bolt_mm, 1000.0 * foot->spacing_m));
    if (foot->anchor_m > 0.0)
        lw_sheet_value(sheet, SAY("Bolts in the concrete, at least, with a nut and washer at the lower end"),
                       lw_sheet_format(text, sizeof text, "%.0f mm", 1000.0 * foot->anchor_m));
    lw_sheet_value(sheet, SAY("Pull of one bolt in that wind; share of its strength (a licensed engineer decides)"),
                   lw_sheet_format(text, sizeof text, "%.0f N; %.2f", foot->bolt_n, foot->bolt_use));
}

static void pole_values(lw_sheet *sheet, const lw_plan *plan, const lw_plan_mast *mast)
{
    char text[160], wind[120];
    const lw_mast_wish *wish = &mast->wish;
    const lw_place *place = &plan->brief.place;
    lw_sheet_value(sheet, SAY("Wind that it stands"), wind_text(sheet, place, wind, sizeof wind));
    lw_sheet_value(sheet, SAY("Who says so"), place->wind_source[0] ? place->wind_source : SAY("not told: ask"));
    lw_sheet_value(sheet, SAY("Pole"), mast->pole_name);
    lw_sheet_value(sheet, SAY("Diameter x wall, material"),
                   lw_sheet_format(text, sizeof text, "%g x %g mm, %s", wish->pipe.diameter_mm, wish->pipe.wall_mm,
                                   material_text(sheet, wish->material)));
    lw_sheet_value(sheet, SAY("Length of the pole, with the part in the ground"),
                   lw_sheet_format(text, sizeof text, "%.2f m", mast->length_m));
    if (mast->result.joint.mouth_m > 0.0)
        upper_values(sheet, mast);
    lw_sheet_value(sheet, SAY("Ground"), soil_text(sheet, plan->brief.build.mast.soil));
    if (wish->base == LW_BASE_PLATE)
        plate_values(sheet, mast);
    else
        lw_sheet_value(sheet, SAY("Hole: depth, diameter"),
                       lw_sheet_format(text, sizeof text, "%.2f m, %.2f m", mast->depth_m, lw_plan_mast_hole_m(mast)));
    if (mast->concrete_m3 > 0.0)
        lw_sheet_value(sheet, SAY("Concrete; bags of cement of 50 kg"),
                       lw_sheet_format(text, sizeof text, "%.2f m³; %.1f", mast->concrete_m3, 6.4 * mast->concrete_m3));
}

static void force_values(lw_sheet *sheet, const lw_mast_result *r)
{
    char text[120];
    lw_sheet_value(
        sheet, SAY("Wind on panel, box, head, pole"),
        lw_sheet_format(text, sizeof text, "%.0f, %.0f, %.0f, %.0f N", r->panel_n, r->box_n, r->head_n, r->pipe_n));
    lw_sheet_value(sheet, SAY("Strength over load (1.0 or more stands; a licensed engineer decides)"),
                   lw_sheet_format(text, sizeof text, "%.2f", r->bending.reserve));
    if (r->foot.block_m > 0.0)
        lw_sheet_value(sheet, SAY("What holds the block over what tips it (1.5 is wanted)"),
                       lw_sheet_format(text, sizeof text, "%.2f", r->foot.overturning));
    else if (r->foot.plate_m <= 0.0)
        lw_sheet_value(sheet, SAY("Force that overturns the base over that of the wind (2.5 is wanted)"),
                       lw_sheet_format(text, sizeof text, "%.1f", r->base_margin));
    lw_sheet_value(sheet, SAY("The top moves in that wind"),
                   lw_sheet_format(text, sizeof text, "%.0f mm", r->bending.sway_mm));
    lw_sheet_value(sheet, SAY("Weight of all that is raised; hardest push on the way up"),
                   lw_sheet_format(text, sizeof text, "%.0f kg; %.0f N", r->total_kg, r->raising.most_n));
    lw_sheet_value(sheet, SAY("Foot to an overhead line up to 50 kV, at least; its owner decides"),
                   lw_sheet_format(text, sizeof text, "%.1f m", r->line_clear_m));
    lw_sheet_value(
        sheet, SAY("Lift and twist of the panel in that wind; a hose clamp slips at, and is trusted with half of it"),
        lw_sheet_format(text, sizeof text, "%.0f N, %.0f N m; %.0f N m, %.0f N m", r->lift_n, r->twist_nm, r->clamp_nm,
                        0.5 * r->clamp_nm));
}

/* Why a licensed engineer decides on this very mast, in the person's language. */
static void reasons(lw_sheet *sheet, const lw_mast_result *r)
{
    char text[LW_MAST_NOTE_BYTES], line[LW_MAST_NOTE_BYTES + 8];
    lw_sheet_caution(sheet, SAY("It stands by these numbers, but they are at the edge of what this check may decide: a "
                                "licensed engineer decides before it is built."));
    for (size_t i = 0; i < r->reasons; i++) {
        lw_mast_note_say(&r->notes[i], lw_say(sheet->words, r->notes[i].text), text, sizeof text);
        lw_sheet_text(sheet, lw_sheet_format(line, sizeof line, "•  %s", text));
    }
}

static const char *plate_step(const lw_sheet *sheet, const lw_plan_mast *mast)
{
    if (mast->wish.plate.on_rock)
        return SAY("Bolt the plate to sound rock only, on an even bed of mortar. Pull each bolt with one and a half "
                   "times its load before anything is raised.");
    return SAY("Hold the bolts upright with the plate as template while the block is poured. Seven days later set the "
               "plate on mortar, two nuts on every bolt.");
}

/* A clamp is trusted with half of what it slips at. */
static void fixing(lw_sheet *sheet, const lw_mast_result *r, int *n)
{
    char text[300];
    lw_sheet_step(sheet, ++*n,
                  SAY("On the ground fix panel, box and head with bolts and lock nuts: never glue, tape or a bottle's "
                      "neck. Shear "
                      "nuts or a burred thread against theft."));
    if (2.0 * r->twist_nm > r->clamp_nm)
        lw_sheet_caution(
            sheet, lw_sheet_format(text, sizeof text,
                                   SAY("The wind twists the panel with %.0f N m. A hose clamp slips at %.0f N m and is "
                                       "trusted with half of that, %.0f N m: drill one bolt through the pole, or take "
                                       "two U-bolts."),
                                   r->twist_nm, r->clamp_nm, 0.5 * r->clamp_nm));
}

/* In the order of the work: pole, place, base, parts on the ground, up. */
static void build(lw_sheet *sheet, const lw_plan_mast *mast)
{
    char text[500];
    int n = 0;
    lw_sheet_heading(sheet, SAY("Build it"));
    lw_sheet_step(sheet, ++n,
                  SAY("Measure diameter and wall of the pole with a calliper: not below these numbers. New or "
                      "unbent, no welds, no rust holes, no rot."));
    lw_sheet_caution(sheet, lw_say(sheet->words, lw_mast_material_at(mast->wish.material)->caution));
    lw_sheet_step(sheet, ++n, lw_sheet_look_up(sheet, mast->result.line_clear_m, text, sizeof text));
    if (mast->depth_m > 0.0)
        lw_sheet_step(sheet, ++n,
                      SAY("Dig to the full depth. If the sides fall in or water comes, stop: another place."));
    if (mast->wish.base == LW_BASE_PLATE)
        lw_sheet_step(sheet, ++n, plate_step(sheet, mast));
    if (mast->result.joint.mouth_m > 0.0)
        lw_sheet_step(
            sheet, ++n,
            SAY("Join the two pipes on the ground: rolled sheet where they are loose, one bolt M10 with a lock "
                "nut through both at half of the lap, a drain hole under the upper pipe."));
    lw_sheet_step(sheet, ++n, SAY("Drill the cable hole no wider than 10 mm, above the lowest metre."));
    fixing(sheet, &mast->result, &n);
    lw_sheet_need(sheet, 46.0); /* the caution stands with its step */
    lw_sheet_raise_caution(sheet);
    lw_sheet_step(sheet, ++n, lw_sheet_raise_text(sheet, mast, text, sizeof text));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_plan_mast *mast = &input->kind->mast;
    lw_sheet_caution(sheet, SAY("A mast that falls can kill. This check is a screening; a licensed engineer "
                                "decides where local rules ask for it."));
    if (mast->result.verdict == LW_MAST_ENGINEER)
        reasons(sheet, &mast->result);
    pole_values(sheet, input->plan, mast);
    force_values(sheet, &mast->result);
    picture(sheet, mast);
    build(sheet, mast);
}

static bool wanted(const lw_sheet_input *input)
{
    return input->kind->mast.checked;
}

const lw_sheet_kind lw_sheet_mast = {
    .name = "mast",
    .group = "mast",
    .title = "Mast and base",
    .each_kind = true,
    .wanted = wanted,
    .draw = draw,
};
