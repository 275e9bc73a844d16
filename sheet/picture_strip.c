/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A strip board, true size or larger: strips, holes, cuts, parts.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

/* Where a hole lies on paper. */
typedef struct view {
    lw_canvas *canvas;
    double x, y, grid; /* mm */
    bool names;
} view;

static double column_x(const view *v, int column)
{
    return v->x + (column + 0.5) * v->grid;
}

static double row_y(const view *v, int row)
{
    return v->y + (row + 0.5) * v->grid;
}

static void strips(const view *v, const lw_strip_board *board)
{
    lw_canvas *c = v->canvas;
    const double width = board->columns * v->grid;
    for (int row = 0; row < board->rows; row++) {
        lw_canvas_fill_box(c, v->x, row_y(v, row) - 0.36 * v->grid, width, 0.72 * v->grid, lw_pale);
        for (int column = 0; column < board->columns; column++)
            lw_canvas_disc(c, column_x(v, column), row_y(v, row), 0.13 * v->grid, lw_white);
    }
    for (size_t i = 0; i < board->cuts; i++) {
        const double x = column_x(v, board->cut[i].column), y = row_y(v, board->cut[i].row), r = 0.34 * v->grid;
        lw_canvas_disc(c, x, y, 0.45 * v->grid, lw_white);
        lw_canvas_pen(c, 0.13 * v->grid, lw_black);
        lw_canvas_line(c, x - r, y - r, x + r, y + r);
        lw_canvas_line(c, x - r, y + r, x + r, y - r);
    }
    lw_canvas_pen(c, 0.25, lw_black);
    lw_canvas_box(c, v->x, v->y, width, board->rows * v->grid);
}

static void name(const view *v, const char *text, double x, double y)
{
    if (v->names)
        (void)lw_canvas_text(v->canvas, x, y - 1.6, (lw_type){.size_pt = 8, .bold = true, .align = LW_ALIGN_CENTRE},
                             text);
}

/* Two holes of one column: a wire, with a body in the middle unless it is a link. */
static void upright(const view *v, const lw_strip_part *part)
{
    lw_canvas *c = v->canvas;
    const int first = part->pin[0].row, second = part->pin[1].row;
    const double x = column_x(v, part->pin[0].column), y0 = row_y(v, first < second ? first : second);
    const double y1 = row_y(v, first < second ? second : first);
    const double middle = 0.5 * (y0 + y1), half = 0.5 * (y1 - y0) - 0.35 * v->grid;
    lw_canvas_pen(c, (part->link ? 0.2 : 0.1) * v->grid, lw_black);
    lw_canvas_line(c, x, y0, x, y1);
    if (part->link)
        return;
    lw_canvas_fill_box(c, x - 0.36 * v->grid, middle - half, 0.72 * v->grid, 2.0 * half, lw_white);
    lw_canvas_box(c, x - 0.36 * v->grid, middle - half, 0.72 * v->grid, 2.0 * half);
    if (part->name[0] == 'D') { /* its ring, at the cathode */
        const double ring_y = middle + (second > first ? 0.7 : -0.7) * half;
        lw_canvas_line(c, x - 0.36 * v->grid, ring_y, x + 0.36 * v->grid, ring_y);
    }
    name(v, part->name, x, middle);
    if (part->letters && part->letters[0] == '+') /* which way round */
        name(v, "+", x + 0.8 * v->grid, row_y(v, first) + (second > first ? 0.25 : -0.25) * v->grid);
}

static void letter(const view *v, char text, double x, double y)
{
    const char one[2] = {text, 0};
    if (v->names)
        (void)lw_canvas_text(v->canvas, x, y - 1.3, (lw_type){.size_pt = 7, .align = LW_ALIGN_RIGHT}, one);
}

/* The case of a chip, its notch upwards; the transistor with the letters of its legs. */
static void cased(const view *v, const lw_strip_part *part)
{
    lw_canvas *c = v->canvas;
    const lw_strip_hole *first = &part->pin[0], *last = &part->pin[part->pins - 1];
    const int top = first->row < last->row ? first->row : last->row;
    const bool chip = part->pins >= 8;
    const double x = column_x(v, first->column) + (chip ? 0.3 : 0.15) * v->grid;
    const int rows = chip ? part->pins / 2 : 3;
    const double y = row_y(v, top) - 0.5 * v->grid, height = rows * v->grid;
    const double width = (chip ? 2.4 : 1.2) * v->grid;
    lw_canvas_pen(c, 0.1 * v->grid, lw_black);
    if (chip)
        lw_canvas_arc(c, x + 0.5 * width, y, 0.4 * v->grid, 0.0, 180.0);
    lw_canvas_box(c, x, y, width, height);
    name(v, part->name, x + 0.5 * width + (chip ? 0.5 * v->grid : 0.0), y + 0.5 * height);
    for (int i = 0; i < part->pins; i++)
        lw_canvas_disc(c, column_x(v, part->pin[i].column), row_y(v, part->pin[i].row), 0.2 * v->grid, lw_black);
    for (int i = 0; i < part->pins && part->letters; i++)
        letter(v, part->letters[i], column_x(v, part->pin[i].column) - 0.3 * v->grid, row_y(v, part->pin[i].row));
}

static void terminals(const view *v, const lw_strip_part *part)
{
    for (int i = 0; i < part->pins; i++) {
        const double x = column_x(v, part->pin[i].column), y = row_y(v, part->pin[i].row);
        lw_canvas_pen(v->canvas, 0.12 * v->grid, lw_black);
        lw_canvas_disc(v->canvas, x, y, 0.36 * v->grid, lw_white);
        lw_canvas_circle(v->canvas, x, y, 0.36 * v->grid);
        const char one[2] = {part->letters ? part->letters[i] : '+', 0};
        name(v, one[0] == '-' ? "−" : one, x, y);
    }
}

static void draw_board(const view *v, const lw_strip_board *board)
{
    strips(v, board);
    for (size_t i = 0; i < board->parts; i++) {
        const lw_strip_part *part = &board->part[i];
        if (part->name[0] == 'X')
            terminals(v, part);
        else if (part->pins == 2)
            upright(v, part);
        else
            cased(v, part);
    }
}

void lw_sheet_strip_board(lw_sheet *sheet, const lw_strip_board *board)
{
    static const double larger = 2.2, least = 1.6, gap_mm = 12.0, page_mm = 174.0;
    const double true_mm = board->columns * lw_strip_grid_mm, true_high_mm = board->rows * lw_strip_grid_mm;
    const double left_over = (page_mm - gap_mm) / true_mm - 1.0;
    const bool beside = left_over >= least;
    const double scale = fmin(larger, beside ? left_over : page_mm / true_mm);
    const double below_mm = beside ? 0.0 : true_high_mm + 16.0;
    lw_sheet_need(sheet, below_mm + scale * true_high_mm + 14.0);
    const view small = {sheet->canvas, lw_sheet_left_mm, sheet->y, lw_strip_grid_mm, false};
    const view large = {sheet->canvas, lw_sheet_left_mm + (beside ? true_mm + gap_mm : 0.0), sheet->y + below_mm,
                        scale * lw_strip_grid_mm, true};
    char text[24];
    draw_board(&small, board);
    draw_board(&large, board);
    (void)snprintf(text, sizeof text, "%.2f mm", true_mm);
    const double y = sheet->y + true_high_mm + 8.0;
    lw_canvas_pen(sheet->canvas, 0.2, lw_black);
    lw_canvas_dimension(sheet->canvas, small.x, y, small.x + true_mm, y, text, 10);
    sheet->y += below_mm + scale * true_high_mm + 4.0;
}
