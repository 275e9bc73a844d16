/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What stands on a sheet: headings, sentences, steps, tables, cautions. See lanewick/sheet.h.
 */
#include "lanewick/sheet.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static double height_of(const lw_sheet *sheet, lw_type type, const char *text)
{
    double width = 0.0, height = 0.0;
    lw_canvas_measure(sheet->canvas, type, text, &width, &height);
    return height;
}

double lw_sheet_space(const lw_sheet *sheet, double mm)
{
    return sheet->tight ? 0.5 * mm : mm;
}

void lw_sheet_gap(lw_sheet *sheet, double mm)
{
    sheet->y += lw_sheet_space(sheet, mm);
}

void lw_sheet_heading(lw_sheet *sheet, const char *text)
{
    const lw_type type = {.size_pt = 13, .bold = true, .width_mm = lw_sheet_width_mm};
    const double height = height_of(sheet, type, text);
    lw_sheet_need(sheet, height + 20.0); /* never alone at the foot of a page */
    sheet->table = NULL;
    sheet->y += sheet->y > lw_sheet_top_mm ? lw_sheet_space(sheet, 4.0) : 0.0;
    sheet->y += lw_canvas_text(sheet->canvas, lw_sheet_left_mm, sheet->y, type, text) + lw_sheet_space(sheet, 2.0);
}

static double text_pt(const lw_sheet *sheet)
{
    return sheet->text_pt > 0.0 ? sheet->text_pt : 11.0;
}

void lw_sheet_text(lw_sheet *sheet, const char *text)
{
    sheet->table = NULL;
    const lw_type type = {.size_pt = text_pt(sheet), .width_mm = lw_sheet_width_mm};
    lw_sheet_need(sheet, height_of(sheet, type, text));
    sheet->y += lw_canvas_text(sheet->canvas, lw_sheet_left_mm, sheet->y, type, text) + lw_sheet_space(sheet, 2.0);
}

void lw_sheet_caution(lw_sheet *sheet, const char *text)
{
    sheet->table = NULL;
    const double sign_mm = 13.0;
    const lw_type type = {.size_pt = 11, .width_mm = lw_sheet_width_mm - sign_mm - 4.0};
    const double high = height_of(sheet, type, text), inner = fmax(high, 9.0);
    sheet->y += sheet->y > lw_sheet_top_mm ? lw_sheet_space(sheet, 1.0) : 0.0;
    lw_sheet_need(sheet, inner + 5.0);
    lw_canvas *c = sheet->canvas;
    const double x = lw_sheet_left_mm, y = sheet->y, middle = y + 0.5 * (inner + 4.0);
    const lw_point_mm triangle[3] = {{x + 7.0, middle - 4.5}, {x + 2.5, middle + 3.5}, {x + 11.5, middle + 3.5}};
    lw_canvas_pen(c, 0.7, lw_black);
    lw_canvas_box(c, x, y, lw_sheet_width_mm, inner + 4.0);
    lw_canvas_fill(c, triangle, 3, lw_black);
    lw_canvas_pen(c, 0.9, lw_white);
    lw_canvas_line(c, x + 7.0, middle - 1.6, x + 7.0, middle + 1.1);
    lw_canvas_disc(c, x + 7.0, middle + 2.5, 0.45, lw_white);
    lw_canvas_pen(c, 0.3, lw_black);
    (void)lw_canvas_text(c, x + sign_mm, y + 2.0 + 0.5 * (inner - high), type, text);
    sheet->y += inner + 4.0 + lw_sheet_space(sheet, 3.0);
}

void lw_sheet_step(lw_sheet *sheet, int number, const char *text)
{
    sheet->table = NULL;
    const double text_mm = 16.0;
    const lw_type type = {.size_pt = 11.5, .width_mm = lw_sheet_width_mm - text_mm};
    const double height = fmax(height_of(sheet, type, text), 6.0);
    lw_sheet_need(sheet, height + 2.0);
    char label[16];
    (void)snprintf(label, sizeof label, "%d", number);
    lw_canvas_pen(sheet->canvas, 0.4, lw_black);
    lw_canvas_box(sheet->canvas, lw_sheet_left_mm, sheet->y + 0.4, 5.0, 5.0);
    (void)lw_canvas_text(sheet->canvas, lw_sheet_left_mm + 13.0, sheet->y,
                         (lw_type){.size_pt = 11.5, .bold = true, .align = LW_ALIGN_RIGHT}, label);
    (void)lw_canvas_text(sheet->canvas, lw_sheet_left_mm + text_mm, sheet->y, type, text);
    sheet->y += height + lw_sheet_space(sheet, 2.5);
}

void lw_sheet_value(lw_sheet *sheet, const char *name, const char *value)
{
    sheet->table = NULL;
    const lw_type left = {.size_pt = text_pt(sheet), .width_mm = 84.0};
    const lw_type right = {.size_pt = text_pt(sheet), .bold = true, .width_mm = lw_sheet_width_mm - 88.0};
    const double height = fmax(height_of(sheet, left, name), height_of(sheet, right, value));
    lw_sheet_need(sheet, height + 1.0);
    (void)lw_canvas_text(sheet->canvas, lw_sheet_left_mm, sheet->y, left, name);
    (void)lw_canvas_text(sheet->canvas, lw_sheet_left_mm + 88.0, sheet->y, right, value);
    sheet->y += height + lw_sheet_space(sheet, 1.2);
}

/* A number stays in one line, in smaller letters where it must. */
static lw_type cell_type(const lw_sheet *sheet, const lw_sheet_table *table, size_t column, bool bold, const char *text)
{
    const double least_pt = 7.0;
    lw_type type = {.size_pt = 11,
                    .bold = bold,
                    .align = table->right[column] ? LW_ALIGN_RIGHT : LW_ALIGN_LEFT,
                    .width_mm = table->width_mm[column] - (table->right[column] ? 4.0 : 2.0)};
    double wide = 0.0, high = 0.0;
    for (; table->right[column] && !strchr(text, ' ') && type.size_pt > least_pt; type.size_pt -= 0.5) {
        const lw_type line = {.size_pt = type.size_pt, .bold = bold};
        lw_canvas_measure(sheet->canvas, line, text, &wide, &high);
        if (wide <= type.width_mm)
            break;
    }
    return type;
}

static double row_height(const lw_sheet *sheet, const lw_sheet_table *table, bool bold, const char *const *cells)
{
    double height = 5.0;
    for (size_t i = 0; i < table->columns; i++)
        if (cells[i])
            height = fmax(height, height_of(sheet, cell_type(sheet, table, i, bold, cells[i]), cells[i]));
    return height;
}

static void draw_row(lw_sheet *sheet, const lw_sheet_table *table, bool bold, const char *const *cells)
{
    const double height = row_height(sheet, table, bold, cells), above = lw_sheet_space(sheet, 1.0);
    double x = lw_sheet_left_mm;
    for (size_t i = 0; i < table->columns; i++) {
        if (cells[i])
            (void)lw_canvas_text(sheet->canvas, x + (table->right[i] ? table->width_mm[i] - 4.0 : 0.0),
                                 sheet->y + above, cell_type(sheet, table, i, bold, cells[i]), cells[i]);
        x += table->width_mm[i];
    }
    const double rule = sheet->y + height + 2.0 * above;
    lw_canvas_pen(sheet->canvas, bold ? 0.5 : 0.2, lw_black);
    lw_canvas_line(sheet->canvas, lw_sheet_left_mm, rule, x, rule);
    sheet->y = rule + 0.6;
}

/* The head of a table is kept for its next pages. */
static void begin_table(lw_sheet *sheet, const lw_sheet_table *table, const char *const *cells)
{
    sheet->table = table;
    for (size_t i = 0; i < table->columns; i++)
        (void)snprintf(sheet->heads[i], sizeof sheet->heads[i], "%s", cells[i] ? cells[i] : "");
}

void lw_sheet_row(lw_sheet *sheet, const lw_sheet_table *table, bool bold, const char *const *cells)
{
    const bool begins = bold && sheet->table != table;
    const size_t page = sheet->page;
    /* a head is never alone at the foot of a page */
    lw_sheet_need(sheet, row_height(sheet, table, bold, cells) + 3.0 + (begins ? 8.0 : 0.0) + sheet->keep_mm);
    if (begins)
        begin_table(sheet, table, cells);
    else if (sheet->page != page && sheet->table == table) {
        const char *heads[LW_SHEET_COLUMNS];
        for (size_t i = 0; i < table->columns; i++)
            heads[i] = sheet->heads[i];
        draw_row(sheet, table, true, heads);
    }
    draw_row(sheet, table, bold, cells);
}
