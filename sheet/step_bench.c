/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pictures of the steps at the bench: see step_pictures.h.
 */
#include "step_pictures.h"

/* A cell at the meter, and three trays: good, unsure, scrap. */
void lw_step_sort_cells(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    static const double tray_y[] = {1.0, 11.0, 21.0};
    (void)input;
    lw_draw_meter(c, x + 1.0, y + 6.0, "V");
    lw_draw_cell(c, x + 21.0, y + 7.0, 7.0, 18.0);
    lw_canvas_pen(c, 0.5, lw_black);
    const lw_point_mm plus[] = {
        {x + 14.0, y + 12.0}, {x + 17.0, y + 12.0}, {x + 17.0, y + 3.5}, {x + 24.5, y + 3.5}, {x + 24.5, y + 6.0}};
    const lw_point_mm minus[] = {
        {x + 14.0, y + 20.0}, {x + 17.0, y + 20.0}, {x + 17.0, y + 28.0}, {x + 24.5, y + 28.0}, {x + 24.5, y + 25.0}};
    lw_canvas_polyline(c, plus, 5, false);
    lw_canvas_polyline(c, minus, 5, false);
    for (int i = 0; i < 3; i++) {
        lw_canvas_pen(c, 0.5, lw_black);
        lw_canvas_arrow(c, x + 29.5, y + 15.0, x + 37.5, y + tray_y[i] + 4.0, 2.0);
        const lw_point_mm tray[] = {{x + 39.0, y + tray_y[i]},
                                    {x + 39.0, y + tray_y[i] + 8.0},
                                    {x + 55.0, y + tray_y[i] + 8.0},
                                    {x + 55.0, y + tray_y[i]}};
        lw_canvas_polyline(c, tray, 4, false);
    }
    lw_draw_tick(c, x + 47.0, y + 5.0);
    (void)lw_canvas_text(c, x + 47.0, y + 12.0, (lw_type){.size_pt = 14, .bold = true, .align = LW_ALIGN_CENTRE}, "?");
    lw_draw_cross(c, x + 47.0, y + 25.0, 2.0);
}

/* The plan's groups in series, each with its cells side by side (no more than can be told apart), fuse at the plus. */
void lw_step_build_pack(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    enum { MOST = 8 };
    const lw_design *design = &input->kind->design;
    const int series = design->series < MOST ? design->series : MOST;
    const double pitch = 30.0 / series, wide = pitch > 9.0 ? 7.0 : pitch - 1.2;
    lw_draw_sign(c, x + 5.0, y + 5.0, "1");
    lw_draw_fuse(c, x + 12.5, y + 5.0);
    lw_canvas_line(c, x + 16.5, y + 5.0, x + 21.0 + 0.5 * wide, y + 5.0);
    lw_canvas_line(c, x + 21.0 + 0.5 * wide, y + 5.0, x + 21.0 + 0.5 * wide, y + 8.0);
    for (int i = 0; i < series; i++) {
        const double left = x + 21.0 + i * pitch;
        if (i % 2 == 0) {
            lw_draw_cell(c, left, y + 9.0, wide, 15.0);
        } else { /* upside down: minus above, so that a short strip joins it to its neighbour */
            lw_canvas_pen(c, 0.5, lw_black);
            lw_canvas_box(c, left, y + 9.0, wide, 15.0);
            lw_canvas_fill_box(c, left + 0.3 * wide, y + 24.0, 0.4 * wide, 1.0, lw_black);
            lw_canvas_line(c, left + 0.5 * wide - 1.0, y + 11.6, left + 0.5 * wide + 1.0, y + 11.6);
        }
        lw_canvas_pen(c, 1.2, lw_black);
        if (i + 1 < series) {
            const double at = i % 2 == 0 ? y + 26.0 : y + 7.4;
            lw_canvas_line(c, left + 0.2 * wide, at, left + pitch + 0.8 * wide, at);
        }
    }
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_box(c, x + 2.0, y + 13.0, 13.0, 12.0);
    lw_canvas_fill_box(c, x + 6.0, y + 17.0, 5.0, 4.0, lw_black);
    for (int i = 0; i < 3; i++) {
        lw_canvas_pen(c, 0.4, lw_black);
        lw_canvas_line(c, x + 15.0, y + 15.0 + 4.0 * i, x + 19.0, y + 15.0 + 4.0 * i);
    }
    lw_draw_sign(c, x + 2.6, y + 13.4, "2");
}

/* The board with its metal back to the air, the bottle 2 cm before it. */
void lw_step_build_head(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    (void)input;
    lw_canvas_pen(c, 0.5, lw_black);
    for (int i = 0; i < 4; i++)
        lw_canvas_arrow(c, x + 14.0 + 9.0 * i, y + 4.0, x + 14.0 + 9.0 * i, y + 0.4, 1.6);
    lw_canvas_fill_box(c, x + 8.0, y + 5.0, 40.0, 1.8, lw_black);
    lw_canvas_pen(c, 0.5, lw_black);
    for (int i = 0; i < 5; i++)
        lw_canvas_box(c, x + 11.0 + 7.5 * i, y + 6.8, 3.5, 1.6);
    const lw_point_mm bottle[] = {{x + 8.0, y + 7.0},   {x + 8.0, y + 24.0},  {x + 12.0, y + 28.5},
                                  {x + 44.0, y + 28.5}, {x + 48.0, y + 24.0}, {x + 48.0, y + 7.0}};
    lw_canvas_pen(c, 0.7, lw_black);
    lw_canvas_polyline(c, bottle, 6, false);
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_arrow(c, x + 24.0, y + 17.0, x + 24.0, y + 8.8, 2.0);
    lw_canvas_arrow(c, x + 24.0, y + 18.0, x + 24.0, y + 28.0, 2.0);
    (void)lw_canvas_text(c, x + 27.0, y + 15.2, (lw_type){.size_pt = 11, .bold = true}, "2 cm");
}

/* Panel, charger, meter; the pack is away. */
void lw_step_set_charger(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    (void)input;
    lw_draw_panel(c, x, y + 2.0, 13.0, 10.0);
    lw_draw_charger(c, x + 20.0, y + 2.0);
    lw_draw_meter(c, x + 42.0, y + 1.0, "V");
    lw_canvas_pen(c, 0.5, lw_black);
    for (int i = 0; i < 2; i++) {
        lw_canvas_line(c, x + 13.0, y + 5.0 + 4.0 * i, x + 20.0, y + 5.0 + 4.0 * i);
        lw_canvas_line(c, x + 34.0, y + 5.0 + 4.0 * i, x + 42.0, y + 5.0 + 4.0 * i);
    }
    lw_draw_cell(c, x + 19.0, y + 17.0, 7.0, 11.5);
    lw_draw_cell(c, x + 28.0, y + 17.0, 7.0, 11.5);
    lw_draw_cross(c, x + 27.0, y + 22.5, 6.0);
}

/* Head, driver, pack without its fuse, charger: numbered in the order of joining. */
void lw_step_join(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    (void)input;
    lw_draw_lamp(c, x + 7.0, y + 18.0, 4.5, false);
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_box(c, x + 16.0, y + 13.0, 9.0, 10.0);
    lw_canvas_line(c, x + 18.0, y + 20.0, x + 20.5, y + 16.0);
    lw_canvas_line(c, x + 20.5, y + 16.0, x + 23.0, y + 20.0);
    lw_draw_cell(c, x + 30.0, y + 13.0, 5.5, 11.0);
    lw_draw_charger(c, x + 41.0, y + 13.0);
    lw_canvas_pen(c, 0.5, lw_black);
    for (int i = 0; i < 2; i++) {
        const double at = y + 16.5 + 3.5 * i;
        lw_canvas_line(c, x + 11.5, at, x + 16.0, at);
        lw_canvas_line(c, x + 25.0, at, x + 30.0, at);
        lw_canvas_line(c, x + 35.5, at, x + 41.0, at);
    }
    lw_draw_fuse(c, x + 33.0, y + 28.0);
    lw_canvas_arrow(c, x + 27.0, y + 24.5, x + 27.0, y + 29.0, 1.8);
    lw_draw_sign(c, x + 7.0, y + 5.0, "1");
    lw_draw_sign(c, x + 20.5, y + 5.0, "2");
    lw_draw_sign(c, x + 32.8, y + 5.0, "3");
    lw_draw_sign(c, x + 48.0, y + 5.0, "4");
}

/* The fuse goes in; a cap over the sensor makes night; the lamp lights. */
void lw_step_first_light(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    (void)input;
    lw_canvas_pen(c, 0.6, lw_black);
    const lw_point_mm holder[] = {{x + 2.0, y + 20.0}, {x + 2.0, y + 26.0}, {x + 14.0, y + 26.0}, {x + 14.0, y + 20.0}};
    lw_canvas_polyline(c, holder, 4, false);
    lw_draw_fuse(c, x + 8.0, y + 6.0);
    lw_canvas_arrow(c, x + 8.0, y + 10.0, x + 8.0, y + 21.0, 2.4);
    const double s = x + 27.0;
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_disc(c, s, y + 21.5, 2.2, lw_black);
    lw_canvas_line(c, s - 7.0, y + 25.0, s + 7.0, y + 25.0);
    const lw_point_mm cap[] = {{s - 5.0, y + 23.5}, {s - 5.0, y + 13.0}, {s + 5.0, y + 13.0}, {s + 5.0, y + 23.5}};
    lw_canvas_pen(c, 0.9, lw_black);
    lw_canvas_polyline(c, cap, 4, false);
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_arrow(c, s, y + 4.0, s, y + 11.5, 2.2);
    lw_draw_lamp(c, x + 46.0, y + 16.0, 5.0, true);
}

/* A paper with rows and ticks, by sun and by moon. */
void lw_step_fill_sheet(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    (void)input;
    lw_draw_sun(c, x + 7.0, y + 9.0, 3.2);
    lw_draw_moon(c, x + 7.0, y + 23.0, 4.0);
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_box(c, x + 19.0, y + 1.0, 22.0, 28.0);
    for (int i = 0; i < 4; i++) {
        lw_canvas_pen(c, 0.4, lw_black);
        lw_canvas_line(c, x + 22.0, y + 7.0 + 6.0 * i, x + 31.0, y + 7.0 + 6.0 * i);
        lw_draw_tick(c, x + 36.0, y + 6.0 + 6.0 * i);
    }
    const lw_point_mm pencil[] = {
        {x + 42.0, y + 25.0}, {x + 43.0, y + 21.0}, {x + 52.0, y + 9.0}, {x + 54.6, y + 11.0}, {x + 45.6, y + 23.0}};
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_polyline(c, pencil, 5, true);
    lw_canvas_line(c, x + 43.0, y + 21.0, x + 45.6, y + 23.0);
}
