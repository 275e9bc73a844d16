/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Lines and shapes on a canvas: see lanewick/canvas.h.
 */
#include "canvas_inside.h"

#include "lanewick/units.h"

#include <math.h>

static void use(lw_canvas *canvas, lw_ink ink)
{
    cairo_set_source_rgb(canvas->cairo, ink.red, ink.green, ink.blue);
}

void lw_canvas_pen(lw_canvas *canvas, double width_mm, lw_ink ink)
{
    canvas->ink = ink;
    cairo_set_line_width(canvas->cairo, width_mm);
    use(canvas, ink);
}

void lw_canvas_dashes(lw_canvas *canvas, double on_mm, double off_mm)
{
    const double dashes[2] = {on_mm, off_mm};
    cairo_set_dash(canvas->cairo, dashes, on_mm > 0.0 ? 2 : 0, 0.0);
}

void lw_canvas_line(lw_canvas *canvas, double x0, double y0, double x1, double y1)
{
    cairo_move_to(canvas->cairo, x0, y0);
    cairo_line_to(canvas->cairo, x1, y1);
    cairo_stroke(canvas->cairo);
}

void lw_canvas_add_segments(lw_canvas *canvas, const lw_point_mm *ends, size_t count)
{
    for (size_t i = 0; i + 1 < count; i += 2) {
        cairo_move_to(canvas->cairo, ends[i].x, ends[i].y);
        cairo_line_to(canvas->cairo, ends[i + 1].x, ends[i + 1].y);
    }
}

void lw_canvas_stroke(lw_canvas *canvas)
{
    cairo_stroke(canvas->cairo);
}

static void path(lw_canvas *canvas, const lw_point_mm *points, size_t count, bool closed)
{
    for (size_t i = 0; i < count; i++)
        cairo_line_to(canvas->cairo, points[i].x, points[i].y);
    if (closed)
        cairo_close_path(canvas->cairo);
}

void lw_canvas_polyline(lw_canvas *canvas, const lw_point_mm *points, size_t count, bool closed)
{
    path(canvas, points, count, closed);
    cairo_stroke(canvas->cairo);
}

void lw_canvas_fill(lw_canvas *canvas, const lw_point_mm *points, size_t count, lw_ink ink)
{
    path(canvas, points, count, true);
    use(canvas, ink);
    cairo_fill(canvas->cairo);
    use(canvas, canvas->ink);
}

void lw_canvas_box(lw_canvas *canvas, double x, double y, double width, double height)
{
    cairo_rectangle(canvas->cairo, x, y, width, height);
    cairo_stroke(canvas->cairo);
}

void lw_canvas_fill_box(lw_canvas *canvas, double x, double y, double width, double height, lw_ink ink)
{
    cairo_rectangle(canvas->cairo, x, y, width, height);
    use(canvas, ink);
    cairo_fill(canvas->cairo);
    use(canvas, canvas->ink);
}

void lw_canvas_circle(lw_canvas *canvas, double x, double y, double radius)
{
    lw_canvas_arc(canvas, x, y, radius, 0.0, 360.0);
}

void lw_canvas_disc(lw_canvas *canvas, double x, double y, double radius, lw_ink ink)
{
    cairo_new_sub_path(canvas->cairo);
    cairo_arc(canvas->cairo, x, y, radius, 0.0, 2.0 * lw_pi);
    use(canvas, ink);
    cairo_fill(canvas->cairo);
    use(canvas, canvas->ink);
}

void lw_canvas_arc(lw_canvas *canvas, double x, double y, double radius, double from_deg, double to_deg)
{
    cairo_new_sub_path(canvas->cairo);
    cairo_arc(canvas->cairo, x, y, radius, from_deg * lw_radian_per_degree, to_deg * lw_radian_per_degree);
    cairo_stroke(canvas->cairo);
}

void lw_canvas_hatch(lw_canvas *canvas, double x, double y, double width, double height, double spacing)
{
    cairo_save(canvas->cairo);
    cairo_rectangle(canvas->cairo, x, y, width, height);
    cairo_clip(canvas->cairo);
    const double step = spacing * sqrt(2.0);
    const int lines = (int)fmin((width + height) / step + 1.0, 10000.0);
    for (int i = 0; i <= lines; i++) {
        cairo_move_to(canvas->cairo, x + step * i, y);
        cairo_line_to(canvas->cairo, x + step * i - height, y + height);
    }
    cairo_stroke(canvas->cairo);
    cairo_restore(canvas->cairo);
    use(canvas, canvas->ink);
}

void lw_canvas_arrow(lw_canvas *canvas, double x0, double y0, double x1, double y1, double head_mm)
{
    const double along = atan2(y1 - y0, x1 - x0), half = 0.35;
    const lw_point_mm head[3] = {{x1, y1},
                                 {x1 - head_mm * cos(along - half), y1 - head_mm * sin(along - half)},
                                 {x1 - head_mm * cos(along + half), y1 - head_mm * sin(along + half)}};
    lw_canvas_line(canvas, x0, y0, x1 - 0.8 * head_mm * cos(along), y1 - 0.8 * head_mm * sin(along));
    lw_canvas_fill(canvas, head, 3, canvas->ink);
}

void lw_canvas_dimension(lw_canvas *canvas, double x0, double y0, double x1, double y1, const char *text,
                         double size_pt)
{
    const double x = 0.5 * (x0 + x1), y = 0.5 * (y0 + y1);
    lw_canvas_arrow(canvas, x, y, x0, y0, 2.0);
    lw_canvas_arrow(canvas, x, y, x1, y1, 2.0);
    double turn = atan2(y0 - y1, x1 - x0) * lw_degree_per_radian;
    if (turn > 90.0 || turn <= -90.0) /* never upside down */
        turn += turn > 0.0 ? -180.0 : 180.0;
    const lw_type type = {.size_pt = size_pt, .align = LW_ALIGN_CENTRE};
    double width = 0.0, height = 0.0;
    lw_canvas_measure(canvas, type, text, &width, &height);
    const double up = turn * lw_radian_per_degree;
    lw_canvas_text_turned(canvas, x - (height + 0.5) * sin(up), y - (height + 0.5) * cos(up), type, turn, text);
}
