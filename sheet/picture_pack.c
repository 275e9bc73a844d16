/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pack from above and from below: every cell, the strips as they run, where sense wires and leads are joined. The
 * cells stand; every second group stands on its head, so that a short strip joins it to its neighbour.
 */
#include "sheet_list.h"

#include <math.h>

enum { MOST_IN_A_ROW = 14, MOST_BESIDE = 5 };
static const double label_mm = 22.0, margin_mm = 31.0, between_groups_mm = 2.0, title_mm = 8.0, most_high_mm = 200.0;

/* One side of the pack on paper. */
typedef struct face {
    lw_sheet *sheet;
    int series, parallel, columns, rows; /* rows, columns: of one group */
    double left, top, pitch, cell;       /* of the first cell's field; cell: its diameter */
    bool below;                          /* turned over like a page: right is left */
} face;

static double cell_x(const face *f, int k)
{
    const int column = k % f->columns;
    return f->left + ((f->below ? f->columns - 1 - column : column) + 0.5) * f->pitch;
}

static double row_y(const face *f, int group, int row)
{
    return f->top + group * (f->rows * f->pitch + between_groups_mm) + (row + 0.5) * f->pitch;
}

/* A strip lies across the lower part of its cells, below their names. */
static double strip_y(const face *f, int group, int row)
{
    return row_y(f, group, row) + 0.27 * f->cell;
}

static double strip_mm(const face *f)
{
    return fmax(0.9, 0.15 * f->cell);
}

static bool plus_here(const face *f, int group)
{
    return (group % 2 == 0) != f->below;
}

/* Whether a strip on this side joins the group to the next one: minus of this to plus of that. */
static bool joins_next(const face *f, int group)
{
    return !plus_here(f, group) && group + 1 < f->series;
}

static void one_cell(const face *f, int group, int k)
{
    char place[16], text[24];
    lw_canvas *c = f->sheet->canvas;
    const double x = cell_x(f, k), y = row_y(f, group, k / f->columns), radius = 0.5 * f->cell;
    const bool plus = plus_here(f, group);
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_circle(c, x, y, radius);
    if (plus)
        lw_canvas_circle(c, x, y, 0.87 * radius);
    const double size_pt = fmin(9.0, 0.72 * f->cell);
    (void)lw_canvas_text(
        c, x, y - 0.36 * size_pt, (lw_type){.size_pt = size_pt, .bold = true, .align = LW_ALIGN_CENTRE},
        lw_sheet_format(text, sizeof text, "%s %s", lw_cell_place(place, sizeof place, group, k), plus ? "+" : "−"));
}

static void pale_strip(lw_canvas *c, double x, double y, double wide, double high)
{
    lw_canvas_fill_box(c, x, y, wide, high, lw_pale);
    lw_canvas_pen(c, 0.3, lw_black);
    lw_canvas_box(c, x, y, wide, high);
}

/* How many cells a row of a group holds; the last one may hold fewer. */
static int in_row(const face *f, int row)
{
    const int left = f->parallel - row * f->columns;
    return left < f->columns ? left : f->columns;
}

/* Upright pieces between two rows, in the gaps beside the cells: black between groups, pale within one. */
static void uprights(const face *f, double from_y, double to_y, int count, bool black)
{
    const double half = 0.5 * strip_mm(f);
    for (int k = 0; k < count; k++) {
        const double x = cell_x(f, k) + (f->below ? -0.5 : 0.5) * f->pitch;
        if (black)
            lw_canvas_fill_box(f->sheet->canvas, x - half, from_y - half, 2.0 * half, to_y - from_y + 2.0 * half,
                               lw_black);
        else
            pale_strip(f->sheet->canvas, x - half, from_y - half, 2.0 * half, to_y - from_y + 2.0 * half);
    }
}

static void strips(const face *f, int group)
{
    const double high = strip_mm(f);
    for (int row = 0; row + 1 < f->rows; row++)
        uprights(f, strip_y(f, group, row), strip_y(f, group, row + 1), in_row(f, row + 1), false);
    for (int row = 0; row < f->rows; row++) {
        const double first = cell_x(f, row * f->columns), last = cell_x(f, row * f->columns + in_row(f, row) - 1);
        const double beyond = 0.5 * f->pitch + 0.5 * high, within = 0.3 * f->cell;
        const double x0 = f->below ? last - beyond : first - within, x1 = f->below ? first + within : last + beyond;
        pale_strip(f->sheet->canvas, x0, strip_y(f, group, row) - 0.5 * high, x1 - x0, high);
    }
    if (joins_next(f, group))
        uprights(f, strip_y(f, group, f->rows - 1), strip_y(f, group + 1, 0), in_row(f, f->rows - 1), true);
}

/* The sense wire of a strip, by how many groups lie between it and the pack's minus; at its ends the main leads. */
static void taps(const face *f, int group)
{
    const bool first = group == 0 && plus_here(f, group), last = group + 1 == f->series && !plus_here(f, group);
    if (!first && !last && !joins_next(f, group))
        return;
    char number[8];
    lw_sheet *sheet = f->sheet;
    lw_canvas *c = sheet->canvas;
    const double y = strip_y(f, group, 0), end = f->left + f->columns * f->pitch, ring = end + 5.5;
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_line(c, f->below ? end - 0.5 * f->pitch + 0.3 * f->cell : end, y, ring, y);
    if (first || last) {
        lw_canvas_pen(c, 1.2, lw_black);
        lw_canvas_line(c, ring, y, ring + 6.0, y);
        (void)lw_canvas_text(c, ring + 7.0, y - 4.0, (lw_type){.size_pt = 9, .bold = true, .width_mm = 15.0},
                             first ? SAY("+ to the fuse") : SAY("− to the board"));
    }
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_disc(c, ring, y, 2.5, lw_white);
    lw_canvas_circle(c, ring, y, 2.5);
    (void)lw_canvas_text(c, ring, y - 2.0, (lw_type){.size_pt = 9.5, .bold = true, .align = LW_ALIGN_CENTRE},
                         lw_sheet_format(number, sizeof number, "%d", f->series - group - (first ? 0 : 1)));
}

static void draw_face(const face *f, const char *title)
{
    lw_canvas *c = f->sheet->canvas;
    (void)lw_canvas_text(c, f->left, f->top - title_mm, (lw_type){.size_pt = 10, .bold = true}, title);
    for (int g = 0; g < f->series; g++)
        for (int k = 0; k < f->parallel; k++)
            one_cell(f, g, k);
    for (int g = 0; g < f->series; g++)
        strips(f, g);
    for (int g = 0; g < f->series; g++)
        taps(f, g);
}

static void group_names(const face *f)
{
    lw_sheet *sheet = f->sheet;
    for (int g = 0; g < f->series; g++) {
        char text[32];
        (void)lw_canvas_text(sheet->canvas, lw_sheet_left_mm, row_y(f, g, 0) - 2.3, (lw_type){.size_pt = 11},
                             lw_sheet_format(text, sizeof text, SAY("group %d"), g + 1));
    }
}

void lw_sheet_pack_picture(lw_sheet *sheet, int series, int parallel)
{
    face f = {.sheet = sheet, .series = series, .parallel = parallel};
    f.rows = (parallel + MOST_IN_A_ROW - 1) / MOST_IN_A_ROW;
    f.columns = (parallel + f.rows - 1) / f.rows;
    const bool beside = f.columns <= MOST_BESIDE;
    const double room = (lw_sheet_width_mm - label_mm) / (beside ? 2.0 : 1.0) - margin_mm;
    f.pitch = fmin(fmin(13.0, room / f.columns), most_high_mm / (series * f.rows) - between_groups_mm);
    f.cell = f.pitch - 1.8;
    const double high = series * (f.rows * f.pitch + between_groups_mm) + title_mm + 2.0;
    lw_sheet_need(sheet, high);
    f.left = lw_sheet_left_mm + label_mm;
    f.top = sheet->y + title_mm;
    group_names(&f);
    draw_face(&f, SAY("From above"));
    sheet->y += high;
    if (beside) {
        f.left += room + margin_mm;
    } else {
        lw_sheet_need(sheet, high);
        f.top = sheet->y + title_mm;
        group_names(&f);
        sheet->y += high;
    }
    f.below = true;
    draw_face(&f, SAY("From below, turned over like a page"));
}
