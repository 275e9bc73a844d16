/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lane from above: bands of lux, numbers at the grid points, masts. See lanewick/sheet_light.h.
 */
#include "lux_bands.h"

#include "lanewick/units.h"

#include <math.h>
#include <stdio.h>

static const double margin_m = 0.8, legend_mm = 13.0, mast_reach_m = 2.0,
                    well_mm_m = 10.0; /* a scale at which all numbers read */
static const lw_ink ground_ink = {0.88, 0.88, 0.88};
enum { MOST_ROWS = 8 };

/* Everything in the scene; masts near it, not those of an endless row far away. */
typedef struct extent {
    double left_m, right_m, low_m, high_m;
} extent;

static void widen(double value, double *low, double *high)
{
    *low = fmin(*low, value);
    *high = fmax(*high, value);
}

static bool shown(const extent *e, const lw_lamp *lamp)
{
    return lamp->x_m >= e->left_m - mast_reach_m && lamp->x_m <= e->right_m + mast_reach_m;
}

static void widen_piece(const lw_field *field, size_t i, extent *e)
{
    lw_corner round[4];
    lw_field_piece(field, i, round);
    for (int k = 0; k < 4; k++) {
        widen(round[k].x_m, &e->left_m, &e->right_m);
        widen(round[k].y_m, &e->low_m, &e->high_m);
    }
}

static extent extent_of(const lw_lit_lane *lane)
{
    extent e = {INFINITY, -INFINITY, INFINITY, -INFINITY};
    for (size_t i = 0; i < lane->count; i++) {
        widen(lane->points[i].x_m, &e.left_m, &e.right_m);
        widen(lane->points[i].y_m, &e.low_m, &e.high_m);
    }
    for (size_t i = 0; i < lane->field->corner_count; i++) {
        widen(lane->field->corners[i].x_m, &e.left_m, &e.right_m);
        widen(lane->field->corners[i].y_m, &e.low_m, &e.high_m);
    }
    for (size_t i = 0; lane->field->kind == LW_FIELD_STRIP && i + 1 < lane->field->corner_count; i++)
        widen_piece(lane->field, i, &e);
    for (size_t i = 0; i < lane->lamp_count; i++) {
        if (lane->plan_only)
            widen(lane->lamps[i].x_m, &e.left_m, &e.right_m);
        if (shown(&e, &lane->lamps[i]))
            widen(lane->lamps[i].y_m, &e.low_m, &e.high_m);
    }
    return e;
}

/* A straight lane along x can be cut into rows. */
static bool can_be_cut(const lw_field *field)
{
    return field->kind == LW_FIELD_STRIP && field->corner_count == 2 &&
           field->corners[0].y_m == field->corners[1].y_m && field->corners[1].x_m > field->corners[0].x_m;
}

static double scale_with(const extent *e, int rows, double width, double height)
{
    const double wide_m = (e->right_m - e->left_m) / rows + 2.0 * margin_m;
    const double high_m = (e->high_m - e->low_m + 2.0 * margin_m) * rows;
    return fmin(width / wide_m, height / high_m);
}

static int rows_for(const lw_field *field, const extent *e, double width, double height)
{
    int best = 1;
    for (int rows = 2; can_be_cut(field) && rows <= MOST_ROWS && scale_with(e, best, width, height) < well_mm_m; rows++)
        if (scale_with(e, rows, width, height) > scale_with(e, best, width, height))
            best = rows;
    return best;
}

/* One row of the picture: what lies between from_m and to_m along x. */
typedef struct row {
    lw_ground_view view;
    double from_m, to_m;
} row;

static bool in_row(const row *r, double x_m)
{
    return x_m >= r->from_m - 1e-9 && x_m <= r->to_m + 1e-9;
}

/* The corners of a piece, of a lane that is cut into rows as far as it lies in the row. */
static void piece_in_row(const row *r, const lw_field *field, size_t i, lw_corner round[4])
{
    lw_field_piece(field, i, round);
    for (int k = 0; can_be_cut(field) && k < 4; k++)
        round[k].x_m = fmin(fmax(round[k].x_m, r->from_m), r->to_m);
}

static void piece_bands(lw_canvas *canvas, const row *r, const lw_lit_lane *lane, size_t i)
{
    lw_field piece = {.kind = LW_FIELD_POLYGON, .corner_count = 4};
    piece_in_row(r, lane->field, i, piece.corners);
    const lw_corner a = piece.corners[0], b = piece.corners[1];
    const double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m, length = hypot(dx, dy);
    double from = 0.0, to = length;
    for (int k = 2; k < 4; k++)
        widen(((piece.corners[k].x_m - a.x_m) * dx + (piece.corners[k].y_m - a.y_m) * dy) / length, &from, &to);
    const lw_ground_patch patch = {.x_m = a.x_m + from * dx / length,
                                   .y_m = a.y_m + from * dy / length,
                                   .cos_d = dx / length,
                                   .sin_d = dy / length,
                                   .length_m = to - from,
                                   .width_m = lane->field->width_m,
                                   .inside = lane->field->corner_count > 2 ? &piece : NULL};
    (void)lw_lux_bands(canvas, &r->view, &patch, lane->lamps, lane->lamp_count);
}

/* The bands of two pieces end in steps at the line where they meet; a narrow strip along it lies under both. */
static void bend_bands(lw_canvas *canvas, const row *r, const lw_lit_lane *lane, size_t i)
{
    static const double strip_mm = 1.2;
    lw_corner round[4];
    lw_field_piece(lane->field, i, round);
    const lw_corner a = round[1], b = round[2];
    const double dx = b.x_m - a.x_m, dy = b.y_m - a.y_m, length = hypot(dx, dy),
                 half_m = 0.5 * strip_mm / r->view.scale;
    if (!(length > 0.0))
        return;
    const lw_ground_patch patch = {.x_m = a.x_m + half_m * dy / length,
                                   .y_m = a.y_m - half_m * dx / length,
                                   .cos_d = dx / length,
                                   .sin_d = dy / length,
                                   .length_m = length,
                                   .width_m = 2.0 * half_m};
    (void)lw_lux_bands(canvas, &r->view, &patch, lane->lamps, lane->lamp_count);
}

static void bands(lw_canvas *canvas, const row *r, const lw_lit_lane *lane, const extent *e)
{
    const lw_field *f = lane->field;
    if (f->kind == LW_FIELD_POLYGON) {
        const lw_ground_patch patch = {.x_m = e->left_m,
                                       .y_m = e->low_m,
                                       .cos_d = 1.0,
                                       .length_m = e->right_m - e->left_m,
                                       .width_m = e->high_m - e->low_m,
                                       .inside = f};
        (void)lw_lux_bands(canvas, &r->view, &patch, lane->lamps, lane->lamp_count);
        return;
    }
    for (size_t i = 0; i + 2 < f->corner_count; i++)
        bend_bands(canvas, r, lane, i);
    for (size_t i = 0; i + 1 < f->corner_count; i++)
        piece_bands(canvas, r, lane, i);
}

static void numbers(lw_canvas *canvas, const row *r, const lw_lit_lane *lane)
{
    double along_m = 1.0, across_m = 1.0;
    lw_field_steps(lane->field, lw_field_bay_m(lane->field, lane->lamps, lane->lamp_count), &along_m, &across_m);
    const double scale = r->view.scale;
    const lw_type type = {.size_pt = fmin(8.0, fmin(along_m * scale * 1.05, across_m * scale * 2.0)),
                          .align = LW_ALIGN_CENTRE};
    for (size_t i = 0; i < lane->count && type.size_pt >= 4.0; i++) {
        char text[16];
        const double lux = lane->points[i].ahead.horizontal_lx;
        if (!in_row(r, lane->points[i].x_m))
            continue;
        (void)snprintf(text, sizeof text, lux < 9.95 ? "%.1f" : "%.0f", lux);
        const lw_point_mm p = lw_on_paper(&r->view, lane->points[i].x_m, lane->points[i].y_m);
        (void)lw_canvas_text(canvas, p.x, p.y - 0.21 * type.size_pt, type, text);
    }
}

/* The edge of a polygon. */
static void polygon_edge(lw_canvas *canvas, const row *r, const lw_field *field, bool ground)
{
    lw_point_mm edge[LW_LANE_MAX_CORNERS];
    for (size_t i = 0; i < field->corner_count; i++)
        edge[i] = lw_on_paper(&r->view, field->corners[i].x_m, field->corners[i].y_m);
    if (ground)
        lw_canvas_fill(canvas, edge, field->corner_count, ground_ink);
    lw_canvas_polyline(canvas, edge, field->corner_count, true);
}

/* Both edges of a lane; ground: what lies between them is grey. */
static void lane_edges(lw_canvas *canvas, const row *r, const lw_field *field, bool ground)
{
    for (size_t i = 0; i + 1 < field->corner_count; i++) {
        lw_corner round[4];
        lw_point_mm at[4];
        piece_in_row(r, field, i, round);
        for (int k = 0; k < 4; k++)
            at[k] = lw_on_paper(&r->view, round[k].x_m, round[k].y_m);
        if (ground)
            lw_canvas_fill(canvas, at, 4, ground_ink);
        lw_canvas_add_segments(canvas, at, 4);
        lw_canvas_stroke(canvas);
    }
}

static void outline(lw_canvas *canvas, const row *r, const lw_lit_lane *lane)
{
    lw_canvas_pen(canvas, 0.3, lw_black);
    if (lane->field->kind == LW_FIELD_POLYGON)
        polygon_edge(canvas, r, lane->field, lane->plan_only);
    else
        lane_edges(canvas, r, lane->field, lane->plan_only);
}

/* A lane cut into rows: how far along it a row begins and ends, at the far edge, clear of the marks of masts. */
static void row_ends(lw_canvas *canvas, const row *r, const lw_field *field)
{
    const double ends_m[2] = {r->from_m, r->to_m}, far_m = field->corners[0].y_m + field->width_m;
    for (int i = 0; can_be_cut(field) && i < 2; i++) {
        char text[24];
        const lw_point_mm p =
            lw_on_paper(&r->view, fmin(fmax(ends_m[i], field->corners[0].x_m), field->corners[1].x_m), far_m);
        (void)snprintf(text, sizeof text, "%.0f m", ends_m[i]);
        (void)lw_canvas_text(canvas, p.x + (i ? -1.0 : 1.0), p.y + 0.2,
                             (lw_type){.size_pt = 11, .align = i ? LW_ALIGN_RIGHT : LW_ALIGN_LEFT}, text);
    }
}

/* A numbered dot; large: to be read at arm's length, with a line to where the head looks. */
static void mark(lw_canvas *canvas, lw_point_mm p, const lw_lamp *lamp, bool large, const char *number)
{
    const double radius = large ? 3.3 : 1.9, turn = lamp->turn_deg * lw_radian_per_degree;
    const lw_type type = {.size_pt = large ? 11.0 : 5.5, .bold = true, .align = LW_ALIGN_CENTRE};
    if (large) {
        lw_canvas_pen(canvas, 0.6, lw_black);
        lw_canvas_line(canvas, p.x, p.y, p.x + 1.6 * radius * cos(turn), p.y - 1.6 * radius * sin(turn));
    }
    lw_canvas_disc(canvas, p.x, p.y, radius, lw_black);
    lw_canvas_disc(canvas, p.x, p.y, radius - 0.4, lw_white);
    (void)lw_canvas_text(canvas, p.x, p.y - 0.21 * type.size_pt, type, number);
}

static void masts(lw_canvas *canvas, const row *r, const lw_lit_lane *lane, const extent *e)
{
    int number = 0;
    for (size_t i = 0; i < lane->lamp_count; i++) {
        if (!shown(e, &lane->lamps[i]))
            continue;
        number++;
        if (lane->lamps[i].x_m < r->from_m - margin_m || lane->lamps[i].x_m > r->to_m + margin_m)
            continue;
        char text[16];
        const lw_point_mm p = lw_on_paper(&r->view, lane->lamps[i].x_m, lane->lamps[i].y_m);
        (void)snprintf(text, sizeof text, "%d", number);
        mark(canvas, p, &lane->lamps[i], lane->plan_only, text);
    }
}

/* A bar of 1, 2, 5, 10 ... metres, at most a fifth of the width. */
static void scale_bar(lw_canvas *canvas, double right, double y, double scale, double width, double size_pt)
{
    static const double steps_m[] = {100.0, 50.0, 20.0, 10.0, 5.0, 2.0, 1.0};
    size_t i = 0;
    while (i + 1 < sizeof steps_m / sizeof steps_m[0] && steps_m[i] * scale > 0.2 * width)
        i++;
    const double length = steps_m[i] * scale;
    char text[16];
    (void)snprintf(text, sizeof text, "%g m", steps_m[i]);
    lw_canvas_pen(canvas, 0.3, lw_black);
    lw_canvas_line(canvas, right - length, y + 3.0, right, y + 3.0);
    lw_canvas_line(canvas, right - length, y + 1.5, right - length, y + 3.0);
    lw_canvas_line(canvas, right, y + 1.5, right, y + 3.0);
    (void)lw_canvas_text(canvas, right - 0.5 * length, y + 3.6, (lw_type){.size_pt = size_pt, .align = LW_ALIGN_CENTRE},
                         text);
}

static void legend(lw_canvas *canvas, double x, double y, double width, const lw_words *words)
{
    const double step = fmin(16.0, 0.7 * width / (LW_LUX_BANDS + 1));
    const lw_type type = {.size_pt = 7.0};
    lw_canvas_pen(canvas, 0.2, lw_black);
    for (int i = 0; i < LW_LUX_BANDS; i++) {
        char text[40];
        if (i + 1 < LW_LUX_BANDS)
            (void)snprintf(text, sizeof text, "%g", lw_lux_band_lx(i));
        else
            (void)snprintf(text, sizeof text, lw_say(words, "%g lx or more"), lw_lux_band_lx(i));
        lw_canvas_fill_box(canvas, x + i * step, y, step, 3.0, lw_lux_band_ink(i));
        lw_canvas_box(canvas, x + i * step, y, step, 3.0);
        (void)lw_canvas_text(canvas, x + i * step, y + 3.6, type, text);
    }
}

double lw_picture_lane(lw_canvas *canvas, double x, double y, double width, double height, const lw_lit_lane *lane,
                       const lw_words *words)
{
    const extent e = extent_of(lane);
    const int rows = rows_for(lane->field, &e, width, height - legend_mm);
    const double scale = scale_with(&e, rows, width, height - legend_mm);
    const double row_mm = (e.high_m - e.low_m + 2.0 * margin_m) * scale, part_m = (e.right_m - e.left_m) / rows;
    for (int i = 0; i < rows; i++) {
        const row r = {.from_m = e.left_m + i * part_m,
                       .to_m = e.left_m + (i + 1) * part_m,
                       .view = {.scale = scale,
                                .left_m = e.left_m + i * part_m - margin_m,
                                .low_m = e.low_m - margin_m,
                                .x = x,
                                .bottom = y + (i + 1) * row_mm}};
        if (!lane->plan_only)
            bands(canvas, &r, lane, &e);
        outline(canvas, &r, lane);
        if (lane->plan_only)
            row_ends(canvas, &r, lane->field);
        numbers(canvas, &r, lane);
        masts(canvas, &r, lane, &e);
    }
    const double below = y + rows * row_mm + 1.5;
    if (!lane->plan_only)
        legend(canvas, x, below, width, words);
    scale_bar(canvas, x + width - 1.0, below, scale, width, lane->plan_only ? 11.0 : 7.0);
    return rows * row_mm + legend_mm;
}
