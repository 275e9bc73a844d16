/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lane from above: bands of lux, numbers at the grid points, masts. See lanewick/sheet_light.h.
 */
#include "lanewick/sheet_light.h"

#include "lanewick/units.h"

#include <math.h>
#include <stdio.h>

/* Lower edges of the bands in lux, a factor of two to three apart as the eye counts light; the legend prints them. */
static const double band_lx[] = {0.0, 0.1, 0.3, 1.0, 2.0, 5.0, 10.0, 20.0};
enum { BANDS = sizeof band_lx / sizeof band_lx[0] };

typedef struct view {
    double scale, left_m, top_m, x, y, height; /* mm per m; the corner of the scene; the corner on paper */
} view;

/* Paper amber, from white with no light to a full amber whose lightness is that of a mid grey. */
static lw_ink band_ink(int band)
{
    const double share = (double)band / (BANDS - 1);
    return (lw_ink){1.0 - 0.02 * share, 1.0 - 0.45 * share, 1.0 - 0.88 * share};
}

static int band_of(double lux)
{
    int band = 0;
    while (band + 1 < BANDS && lux >= band_lx[band + 1])
        band++;
    return band;
}

static lw_point_mm on_paper(const view *v, double x_m, double y_m)
{
    return (lw_point_mm){v->x + (x_m - v->left_m) * v->scale, v->y + v->height - (y_m - v->top_m) * v->scale};
}

static void widen(double value, double *low, double *high)
{
    *low = fmin(*low, value);
    *high = fmax(*high, value);
}

static view fit(double x, double y, double width, double height, const lw_field *field, const lw_lamp *lamps,
                size_t lamp_count, const lw_field_point *points, size_t count)
{
    double left = INFINITY, right = -INFINITY, low = INFINITY, high = -INFINITY;
    for (size_t i = 0; i < count; i++) {
        widen(points[i].x_m, &left, &right);
        widen(points[i].y_m, &low, &high);
    }
    for (size_t i = 0; i < field->corner_count; i++) {
        widen(field->corners[i].x_m, &left, &right);
        widen(field->corners[i].y_m, &low, &high);
    }
    const double reach = 2.0; /* masts beside the field, not those of an endless row */
    for (size_t i = 0; i < lamp_count; i++)
        if (lamps[i].x_m >= left - reach && lamps[i].x_m <= right + reach)
            widen(lamps[i].y_m, &low, &high);
    const double margin = 0.8;
    view v = {.left_m = left - margin, .top_m = low - margin, .x = x, .y = y};
    v.scale = fmin(width / (right - left + 2.0 * margin), height / (high - low + 2.0 * margin));
    v.height = (high - low + 2.0 * margin) * v.scale;
    return v;
}

/* Nearest grid point's share of the plane: a rectangle as large as the spacing of the grid, turned with the lane. */
static void bands(lw_canvas *canvas, const view *v, const lw_field_point *points, size_t count, double along_m,
                  double across_m)
{
    for (size_t i = 0; i < count; i++) {
        const double turn = points[i].along_deg * lw_radian_per_degree;
        const double ax = 0.505 * along_m * cos(turn), ay = 0.505 * along_m * sin(turn);
        const double bx = -0.505 * across_m * sin(turn), by = 0.505 * across_m * cos(turn);
        const double px = points[i].x_m, py = points[i].y_m;
        const lw_point_mm cell[4] = {on_paper(v, px - ax - bx, py - ay - by), on_paper(v, px + ax - bx, py + ay - by),
                                     on_paper(v, px + ax + bx, py + ay + by), on_paper(v, px - ax + bx, py - ay + by)};
        lw_canvas_fill(canvas, cell, 4, band_ink(band_of(points[i].ahead.horizontal_lx)));
    }
}

static void numbers(lw_canvas *canvas, const view *v, const lw_field_point *points, size_t count, double along_m,
                    double across_m)
{
    const lw_type type = {.size_pt = fmin(8.0, fmin(along_m * v->scale * 1.05, across_m * v->scale * 2.0)),
                          .align = LW_ALIGN_CENTRE};
    for (size_t i = 0; i < count && type.size_pt >= 4.0; i++) {
        char text[16];
        const double lux = points[i].ahead.horizontal_lx;
        (void)snprintf(text, sizeof text, lux < 9.95 ? "%.1f" : "%.0f", lux);
        const lw_point_mm p = on_paper(v, points[i].x_m, points[i].y_m);
        (void)lw_canvas_text(canvas, p.x, p.y - 0.21 * type.size_pt, type, text);
    }
}

static void outline(lw_canvas *canvas, const view *v, const lw_field *field)
{
    lw_point_mm edge[LW_LANE_MAX_CORNERS];
    if (field->kind != LW_FIELD_POLYGON)
        return;
    for (size_t i = 0; i < field->corner_count; i++)
        edge[i] = on_paper(v, field->corners[i].x_m, field->corners[i].y_m);
    lw_canvas_pen(canvas, 0.4, lw_black);
    lw_canvas_polyline(canvas, edge, field->corner_count, true);
}

static void masts(lw_canvas *canvas, const view *v, const lw_lamp *lamps, size_t lamp_count, double width)
{
    int number = 0;
    for (size_t i = 0; i < lamp_count; i++) {
        const lw_point_mm p = on_paper(v, lamps[i].x_m, lamps[i].y_m);
        if (p.x < v->x - 0.1 || p.x > v->x + width + 0.1)
            continue;
        char text[16];
        (void)snprintf(text, sizeof text, "%d", ++number);
        lw_canvas_disc(canvas, p.x, p.y, 1.9, lw_black);
        lw_canvas_disc(canvas, p.x, p.y, 1.5, lw_white);
        (void)lw_canvas_text(canvas, p.x, p.y - 1.15, (lw_type){.size_pt = 5.5, .bold = true, .align = LW_ALIGN_CENTRE},
                             text);
    }
}

static void legend(lw_canvas *canvas, double x, double y, double width)
{
    const double step = fmin(16.0, width / (BANDS + 1));
    const lw_type type = {.size_pt = 7.0};
    lw_canvas_pen(canvas, 0.2, lw_black);
    for (int i = 0; i < BANDS; i++) {
        char text[24];
        (void)snprintf(text, sizeof text, i + 1 < BANDS ? "%g" : "%g lx or more", band_lx[i]);
        lw_canvas_fill_box(canvas, x + i * step, y, step, 3.0, band_ink(i));
        lw_canvas_box(canvas, x + i * step, y, step, 3.0);
        (void)lw_canvas_text(canvas, x + i * step, y + 3.4, type, text);
    }
}

void lw_picture_lane(lw_canvas *canvas, double x, double y, double width, double height, const lw_field *field,
                     const lw_lamp *lamps, size_t lamp_count, const lw_field_point *points, size_t count)
{
    const double legend_mm = 9.0;
    const view v = fit(x, y, width, height - legend_mm, field, lamps, lamp_count, points, count);
    double along_m = 1.0, across_m = 1.0;
    lw_field_steps(field, &along_m, &across_m);
    bands(canvas, &v, points, count, along_m, across_m);
    numbers(canvas, &v, points, count, along_m, across_m);
    outline(canvas, &v, field);
    masts(canvas, &v, lamps, lamp_count, width);
    legend(canvas, x, y + v.height + 1.5, width);
}
