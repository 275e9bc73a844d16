/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lamp as planned, from the side, to scale: mast, panel at its tilt, box, head, a person of 1.7 m for size.
 */
#include "sheet_list.h"

#include "lanewick/units.h"

#include <math.h>

static void person(lw_canvas *c, double x, double ground, double scale)
{
    const double head = 0.115 * scale, top = ground - 1.7 * scale;
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_circle(c, x, top + head, head);
    lw_canvas_line(c, x, top + 2.0 * head, x, ground - 0.8 * scale);
    lw_canvas_line(c, x, ground - 0.8 * scale, x - 0.16 * scale, ground);
    lw_canvas_line(c, x, ground - 0.8 * scale, x + 0.16 * scale, ground);
    lw_canvas_line(c, x, ground - 1.35 * scale, x - 0.25 * scale, ground - 0.9 * scale);
    lw_canvas_line(c, x, ground - 1.35 * scale, x + 0.25 * scale, ground - 0.9 * scale);
}

static void label(lw_canvas *c, double from_x, double from_y, double x, double y, const char *text)
{
    lw_canvas_pen(c, 0.2, lw_black);
    lw_canvas_line(c, from_x, from_y, x - 1.0, y + 2.0);
    (void)lw_canvas_text(c, x, y, (lw_type){.size_pt = 10, .width_mm = 62.0}, text);
}

/* A panel seen from its edge, its middle at (x, y), tilted. */
static void panel(lw_canvas *c, double x, double y, double length_mm, double tilt_deg)
{
    const double dx = 0.5 * length_mm * cos(tilt_deg * lw_radian_per_degree);
    const double dy = 0.5 * length_mm * sin(tilt_deg * lw_radian_per_degree);
    lw_canvas_pen(c, 1.6, lw_black);
    lw_canvas_line(c, x - dx, y + dy, x + dx, y - dy);
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_line(c, x, y, x, y + 4.0);
}

void lw_sheet_portrait(lw_sheet *sheet, const lw_plan *plan, const lw_plan_kind *kind, double height_mm)
{
    const double mast_m = lw_plan_mast_height_m(plan, kind), scale = (height_mm - 14.0) / (mast_m + 0.5);
    lw_sheet_need(sheet, height_mm + 4.0);
    lw_canvas *c = sheet->canvas;
    const double foot = lw_sheet_left_mm + 45.0, ground = sheet->y + height_mm - 6.0, top = ground - mast_m * scale;
    const double area_m2 = lw_design_panel_w(&plan->brief.shelf, &kind->design) / 170.0; /* W per m2 of common panels */
    char text[240], design[160], name[LW_NAME + 16];
    const double head_y = top + lw_light_below_top_m * scale, box_y = ground - 0.65 * mast_m * scale;
    lw_canvas_pen(c, 1.2, lw_black);
    lw_canvas_line(c, foot, ground + 5.0, foot, top);
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_line(c, lw_sheet_left_mm, ground, lw_sheet_left_mm + 100.0, ground);
    lw_canvas_hatch(c, lw_sheet_left_mm, ground, 100.0, 1.5, 1.3);
    panel(c, foot, top - 4.0, sqrt(area_m2) * scale, plan->tilt_deg);
    lw_canvas_fill_box(c, foot, head_y, 0.6 * scale, 0.7, lw_black);
    lw_canvas_fill_box(c, foot + 0.35 * scale, head_y, 0.3 * scale, 0.12 * scale, lw_black);
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_box(c, foot - 0.32 * scale, box_y - 0.175 * scale, 0.3 * scale, 0.35 * scale);
    person(c, foot + 1.4 * scale, ground, scale);
    const double x = lw_sheet_left_mm + 108.0;
    (void)lw_sheet_design(sheet, &plan->brief.shelf, &kind->design, design, sizeof design);
    label(c, foot + 0.5 * sqrt(area_m2) * scale, top - 4.0, x, sheet->y,
          lw_sheet_format(text, sizeof text, SAY("panel, tilted %.0f degrees"), plan->tilt_deg));
    label(c, foot + 0.65 * scale, head_y + 0.07 * scale, x, sheet->y + 0.17 * height_mm,
          lw_sheet_format(text, sizeof text, SAY("head, %.1f W"), plan->brief.want.lamp[kind->kind].head_w));
    label(c, foot - 0.02 * scale, box_y, x, sheet->y + 0.34 * height_mm,
          SAY("vented box with pack, charger and fuse, in the panel's shade, out of reach"));
    label(c, foot, ground - 0.9 * scale, x, sheet->y + 0.59 * height_mm,
          lw_sheet_format(text, sizeof text, SAY("mast, %.3g m above the ground"), mast_m));
    (void)lw_sheet_format(text, sizeof text, SAY("Drawn: %s, %s"),
                          lw_sheet_kind_name(sheet, plan, (size_t)(kind - plan->kind), name, sizeof name), design);
    (void)lw_canvas_text(c, x, sheet->y + 0.77 * height_mm, (lw_type){.size_pt = 10, .bold = true, .width_mm = 62.0},
                         text);
    sheet->y += height_mm + 4.0;
}
