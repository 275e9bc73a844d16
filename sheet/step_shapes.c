/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Shapes that the pictures of building steps share: see step_pictures.h.
 */
#include "step_pictures.h"

#include "lanewick/units.h"

#include <math.h>
#include <stdio.h>

static const double thin = 0.4, thick = 0.8;

static void middle(lw_canvas *c, double x, double y, double size_pt, const char *text)
{
    const lw_type type = {.size_pt = size_pt, .bold = true, .align = LW_ALIGN_CENTRE};
    double width = 0.0, height = 0.0;
    lw_canvas_measure(c, type, text, &width, &height);
    (void)lw_canvas_text(c, x, y - 0.5 * height, type, text);
}

void lw_draw_cell(lw_canvas *c, double x, double y, double width, double height)
{
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_box(c, x, y, width, height);
    lw_canvas_fill_box(c, x + 0.3 * width, y - 1.0, 0.4 * width, 1.0, lw_black);
    lw_canvas_line(c, x + 0.5 * width - 1.0, y + 2.6, x + 0.5 * width + 1.0, y + 2.6);
    lw_canvas_line(c, x + 0.5 * width, y + 1.6, x + 0.5 * width, y + 3.6);
}

void lw_draw_meter(lw_canvas *c, double x, double y, const char *unit)
{
    lw_canvas_pen(c, thick, lw_black);
    lw_canvas_box(c, x, y, 13.0, 17.0);
    lw_canvas_pen(c, thin, lw_black);
    lw_canvas_arc(c, x + 6.5, y + 9.0, 5.0, 215.0, 325.0);
    lw_canvas_arrow(c, x + 6.5, y + 9.0, x + 9.0, y + 4.6, 1.8);
    middle(c, x + 6.5, y + 13.0, 10, unit);
}

void lw_draw_charger(lw_canvas *c, double x, double y)
{
    const lw_point_mm bolt[] = {{x + 7.6, y + 1.6}, {x + 5.2, y + 5.4}, {x + 7.0, y + 5.4},
                                {x + 6.2, y + 8.4}, {x + 8.9, y + 4.4}, {x + 7.1, y + 4.4}};
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_box(c, x, y, 14.0, 10.0);
    lw_canvas_fill(c, bolt, sizeof bolt / sizeof bolt[0], lw_black);
}

void lw_draw_fuse(lw_canvas *c, double x, double y)
{
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_box(c, x - 4.0, y - 1.5, 8.0, 3.0);
    lw_canvas_line(c, x - 4.0, y, x + 4.0, y);
    lw_canvas_fill_box(c, x - 4.0, y - 1.5, 1.6, 3.0, lw_black);
    lw_canvas_fill_box(c, x + 2.4, y - 1.5, 1.6, 3.0, lw_black);
}

/* Rays around a middle, every `step_deg` from `from_deg` to `to_deg`. */
static void rays(lw_canvas *c, double x, double y, double radius, double from_deg, double to_deg)
{
    for (double a = from_deg; a <= to_deg; a += 45.0) {
        const double dx = cos(a * lw_radian_per_degree), dy = sin(a * lw_radian_per_degree);
        lw_canvas_line(c, x + 1.35 * radius * dx, y + 1.35 * radius * dy, x + 1.9 * radius * dx, y + 1.9 * radius * dy);
    }
}

void lw_draw_lamp(lw_canvas *c, double x, double y, double radius, bool lit)
{
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_circle(c, x, y, radius);
    lw_canvas_fill_box(c, x - 0.5 * radius, y - 1.5 * radius, radius, 0.5 * radius, lw_black);
    lw_canvas_line(c, x - 0.5 * radius, y, x, y + 0.4 * radius);
    lw_canvas_line(c, x, y + 0.4 * radius, x + 0.5 * radius, y);
    if (lit)
        rays(c, x, y, radius, 0.0, 180.0);
}

void lw_draw_sun(lw_canvas *c, double x, double y, double radius)
{
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_circle(c, x, y, radius);
    rays(c, x, y, radius, 0.0, 315.0);
}

void lw_draw_moon(lw_canvas *c, double x, double y, double radius)
{
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_disc(c, x, y, radius, lw_black);
    lw_canvas_disc(c, x + 0.5 * radius, y - 0.2 * radius, 0.85 * radius, lw_white);
}

void lw_draw_panel(lw_canvas *c, double x, double y, double wide, double high)
{
    lw_canvas_pen(c, 0.7, lw_black);
    lw_canvas_box(c, x, y, wide, high);
    lw_canvas_pen(c, thin, lw_black);
    for (int i = 1; i < 4; i++)
        lw_canvas_line(c, x + 0.25 * i * wide, y, x + 0.25 * i * wide, y + high);
    lw_canvas_line(c, x, y + 0.5 * high, x + wide, y + 0.5 * high);
}

void lw_draw_ground(lw_canvas *c, double x, double y, double width)
{
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_line(c, x, y, x + width, y);
    lw_canvas_pen(c, thin, lw_black);
    lw_canvas_hatch(c, x, y, width, 1.8, 1.3);
}

void lw_draw_person(lw_canvas *c, double x, double ground, double high, double reach)
{
    const double head = 0.08 * high, hip = ground - 0.47 * high, shoulder = ground - 0.78 * high;
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_circle(c, x, ground - high + head, head);
    lw_canvas_line(c, x, ground - high + 2.0 * head, x, hip);
    lw_canvas_line(c, x, hip, x - 0.12 * high, ground);
    lw_canvas_line(c, x, hip, x + 0.12 * high, ground);
    lw_canvas_line(c, x, shoulder, x + reach, shoulder - 0.15 * high);
}

void lw_draw_sign(lw_canvas *c, double x, double y, const char *sign)
{
    lw_canvas_disc(c, x, y, 2.6, lw_white);
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_circle(c, x, y, 2.6);
    middle(c, x, y, 10, sign);
}

void lw_draw_tick(lw_canvas *c, double x, double y)
{
    lw_canvas_pen(c, thick, lw_black);
    lw_canvas_line(c, x - 2.0, y, x - 0.6, y + 1.8);
    lw_canvas_line(c, x - 0.6, y + 1.8, x + 2.2, y - 2.2);
}

void lw_draw_cross(lw_canvas *c, double x, double y, double half)
{
    lw_canvas_pen(c, thick, lw_black);
    lw_canvas_line(c, x - half, y - half, x + half, y + half);
    lw_canvas_line(c, x - half, y + half, x + half, y - half);
}

void lw_sheet_step_with(lw_sheet *sheet, int number, const char *text, lw_step_picture *picture,
                        const lw_sheet_input *input)
{
    const double text_mm = 16.0, picture_x = lw_sheet_left_mm + lw_sheet_width_mm - LW_STEP_WIDE;
    const lw_type type = {.size_pt = 11.5, .width_mm = lw_sheet_width_mm - text_mm - LW_STEP_WIDE - 5.0};
    double width = 0.0, high = 0.0;
    char label[16];
    lw_canvas_measure(sheet->canvas, type, text, &width, &high);
    const double height = fmax(high, LW_STEP_HIGH + 2.0);
    lw_sheet_need(sheet, height + 3.0);
    lw_canvas *c = sheet->canvas;
    (void)snprintf(label, sizeof label, "%d", number);
    lw_canvas_pen(c, thin, lw_black);
    lw_canvas_box(c, lw_sheet_left_mm, sheet->y + 1.4, 5.0, 5.0);
    (void)lw_canvas_text(c, lw_sheet_left_mm + 13.0, sheet->y + 1.0,
                         (lw_type){.size_pt = 11.5, .bold = true, .align = LW_ALIGN_RIGHT}, label);
    (void)lw_canvas_text(c, lw_sheet_left_mm + text_mm, sheet->y + 1.0, type, text);
    picture(c, picture_x, sheet->y + 1.0, input);
    lw_canvas_pen(c, 0.2, lw_black);
    lw_canvas_line(c, lw_sheet_left_mm, sheet->y + height + 1.0, lw_sheet_left_mm + lw_sheet_width_mm,
                   sheet->y + height + 1.0);
    sheet->y += height + 2.2;
}
