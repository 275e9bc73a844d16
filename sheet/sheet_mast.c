/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Mast and base, only for a mast that was checked for the place's wind and stands: the pipe, the hole, the forces.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

static void picture(lw_sheet *sheet, const lw_mast_wish *wish, const lw_mast_result *mast)
{
    const double high_mm = 84.0, scale = (high_mm - 18.0) / (wish->height_m + mast->depth_m);
    char text[60];
    lw_sheet_need(sheet, high_mm + 4.0);
    lw_canvas *c = sheet->canvas;
    const double x = lw_sheet_left_mm + 40.0, ground = sheet->y + 12.0 + wish->height_m * scale;
    const double top = ground - wish->height_m * scale, foot = ground + mast->depth_m * scale;
    const double half = fmax(0.5 * wish->collar_m * scale, 3.0);
    lw_canvas_pen(c, 0.3, lw_black);
    lw_canvas_hatch(c, x - half, ground, 2.0 * half, foot - ground, 2.0);
    lw_canvas_box(c, x - half, ground, 2.0 * half, foot - ground);
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_line(c, x - 34.0, ground, x - half, ground);
    lw_canvas_line(c, x + half, ground, x + 34.0, ground);
    lw_canvas_pen(c, 1.4, lw_black);
    lw_canvas_line(c, x, top, x, foot - 1.0);
    lw_canvas_pen(c, 1.6, lw_black);
    lw_canvas_line(c, x - 8.0, top + 1.0, x + 8.0, top - 3.0);
    lw_canvas_fill_box(c, x, top + 0.35 * scale, 0.5 * scale, 0.7, lw_black);
    lw_canvas_pen(c, 0.3, lw_black);
    lw_canvas_dimension(c, x - 26.0, top, x - 26.0, ground,
                        lw_sheet_format(text, sizeof text, "%.1f m", wish->height_m), 10);
    lw_canvas_dimension(c, x - 26.0, ground, x - 26.0, foot,
                        lw_sheet_format(text, sizeof text, "%.2f m", mast->depth_m), 10);
    lw_canvas_dimension(c, x - half, foot + 3.0, x + half, foot + 3.0, "", 10);
    (void)lw_canvas_text(c, x + half + 2.0, foot + 0.5, (lw_type){.size_pt = 10},
                         lw_sheet_format(text, sizeof text, "%.2f m", wish->collar_m));
    const double tx = lw_sheet_left_mm + 92.0;
    const lw_type side = {.size_pt = 10.5, .width_mm = 82.0};
    double ty = sheet->y + 12.0;
    ty +=
        lw_canvas_text(c, tx, ty, side,
                       SAY("Wind is taken as over open water or flat open land on all sides; ground as firm sand. Soft "
                           "or flooded ground, a hill, a roof: this sheet does not hold.")) +
        4.0;
    (void)lw_canvas_text(c, tx, ty, side,
                         SAY("Hatched: concrete against undisturbed earth over the full depth, its top sloped so that "
                             "water runs off. It sets seven days before anything is fixed to the mast."));
    sheet->y += high_mm + 4.0;
}

static void values(lw_sheet *sheet, const lw_plan *plan, const lw_mast_wish *wish, const lw_mast_result *mast)
{
    char text[120];
    lw_sheet_value(sheet, SAY("Strongest gust in fifty years"),
                   lw_sheet_format(text, sizeof text, "%.0f m/s", plan->brief.place.gust_m_s));
    lw_sheet_value(sheet, SAY("Steel tube (S235), diameter x wall"),
                   lw_sheet_format(text, sizeof text, "%g x %g mm", wish->pipe.diameter_mm, wish->pipe.wall_mm));
    lw_sheet_value(sheet, SAY("Length of the tube, with the part in the ground"),
                   lw_sheet_format(text, sizeof text, "%.2f m", wish->height_m + mast->depth_m));
    lw_sheet_value(sheet, SAY("Hole: depth, diameter"),
                   lw_sheet_format(text, sizeof text, "%.2f m, %.2f m", mast->depth_m, wish->collar_m));
    lw_sheet_value(
        sheet, SAY("Concrete"),
        lw_sheet_format(text, sizeof text, "%.2f m³", 0.785 * wish->collar_m * wish->collar_m * mast->depth_m));
    lw_sheet_value(sheet, SAY("Wind on panel, box, head, tube"),
                   lw_sheet_format(text, sizeof text, "%.0f, %.0f, %.0f, %.0f N", mast->panel_n, mast->box_n,
                                   mast->head_n, mast->pipe_n));
    lw_sheet_value(sheet, SAY("Strength over load (1.0 or more stands)"),
                   lw_sheet_format(text, sizeof text, "%.2f", mast->bending.reserve));
    lw_sheet_value(sheet, SAY("The top moves in that gust"),
                   lw_sheet_format(text, sizeof text, "%.0f mm", mast->bending.sway_mm));
    lw_sheet_value(sheet, SAY("Weight of all that is raised"),
                   lw_sheet_format(text, sizeof text, "%.0f kg", mast->total_kg));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_mast_wish *wish = &input->build->mast_wish;
    const lw_mast_result *mast = &input->build->mast;
    int n = 0;
    lw_sheet_caution(sheet, mast->verdict == LW_MAST_ENGINEER
                                ? SAY("It stands by these numbers, but they are at the edge of what this check may "
                                      "decide: a licensed engineer decides before it is built.")
                                : SAY("A mast that falls can kill. This check is a screening; a licensed engineer "
                                      "decides where local rules ask for it."));
    values(sheet, input->plan, wish, mast);
    picture(sheet, wish, mast);
    lw_sheet_heading(sheet, SAY("Build it"));
    lw_sheet_step(sheet, ++n,
                  SAY("Measure diameter and wall of the tube with a calliper: not below these numbers. New or "
                      "unbent tube, no welds, no rust holes."));
    lw_sheet_step(sheet, ++n,
                  SAY("Look up: no overhead line within twice the mast's height. Look down: no pipes or cables "
                      "where you dig."));
    lw_sheet_step(sheet, ++n, SAY("Dig to the full depth. If the sides fall in or water comes, stop: another place."));
    lw_sheet_step(sheet, ++n, SAY("Drill the cable hole no wider than 10 mm, above the lowest metre."));
    lw_sheet_step(sheet, ++n,
                  SAY("Raise it with a rope and three people in no wind, nobody within its height; plumb it on "
                      "two sides and pour."));
    lw_sheet_step(sheet, ++n,
                  SAY("Bolts with lock nuts carry panel, box and head: never glue, tape or a bottle's neck."));
}

static bool wanted(const lw_sheet_input *input)
{
    return input->build->mast_stands;
}

const lw_sheet_kind lw_sheet_mast = {
    .name = "mast",
    .group = "mast",
    .title = "Mast and base",
    .each_kind = true,
    .wanted = wanted,
    .draw = draw,
};
