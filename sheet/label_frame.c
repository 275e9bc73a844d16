/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a page of labels tells of itself: title, plan, date, page, and a bar to lay a ruler on. Where the grid leaves a
 * rim it stands there; where labels fill the paper it takes the last place of the grid.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

typedef struct own_words {
    char plan[80], page[80], bar[160];
} own_words;

static own_words words_of(const lw_sheet *sheet, double bar_mm)
{
    own_words own;
    char page[60];
    (void)snprintf(own.plan, sizeof own.plan, "%s · %s", sheet->code, sheet->date);
    (void)snprintf(page, sizeof page, SAY("page %zu of %zu"), sheet->page, sheet->pages);
    (void)snprintf(own.page, sizeof own.page, "%s · %s", page, lw_sheet_program);
    (void)snprintf(own.bar, sizeof own.bar, SAY("This bar is %d mm long on a true print."), (int)bar_mm);
    return own;
}

/* Above the first label and below the last one. */
static void on_rims(lw_sheet *sheet, const lw_label_grid *grid)
{
    lw_canvas *c = sheet->canvas;
    const double bar_mm = 100.0, foot = 284.0, above = 9.0, right = 210.0 - fmax(grid->left_mm, 8.5);
    const double left = fmax(grid->left_mm, 8.5);
    const own_words own = words_of(sheet, bar_mm);
    (void)lw_canvas_text(c, left, above, (lw_type){.size_pt = 11, .bold = true}, sheet->title);
    (void)lw_canvas_text(c, right, above, (lw_type){.size_pt = 11, .align = LW_ALIGN_RIGHT}, own.plan);
    lw_sheet_bar(c, left, foot + 0.5, bar_mm);
    (void)lw_canvas_text(c, left, foot + 0.8, (lw_type){.size_pt = 9}, own.bar);
    (void)lw_canvas_text(c, right, foot + 0.8, (lw_type){.size_pt = 9, .align = LW_ALIGN_RIGHT}, own.page);
}

/* In one line, in smaller letters where it must. */
static double line(lw_canvas *c, double x, double y, lw_type type, const char *text)
{
    const double width = type.width_mm, least_pt = 6.0;
    double wide = 0.0, high = 0.0;
    type.width_mm = 0.0;
    lw_canvas_measure(c, type, text, &wide, &high);
    if (wide > width)
        type.size_pt = fmax(least_pt, 0.99 * type.size_pt * width / wide);
    return y + lw_canvas_text(c, x, y, type, text) + 0.6;
}

static void in_last_place(lw_sheet *sheet, const lw_label_grid *grid)
{
    lw_canvas *c = sheet->canvas;
    const double edge = 3.0, rim = 5.0;
    const double x = grid->left_mm + (grid->across - 1) * grid->pitch_x_mm + edge;
    const double width = fmin(grid->width_mm - 2.0 * edge, 210.0 - rim - x);
    const double bar_mm = 10.0 * floor(width / 10.0);
    const own_words own = words_of(sheet, bar_mm);
    const lw_type type = {.size_pt = 9, .width_mm = width};
    lw_type bold = type;
    bold.bold = true;
    double y = grid->top_mm + (grid->down - 1) * grid->pitch_y_mm + edge;
    y = line(c, x, y, bold, sheet->title);
    y = line(c, x, y, type, own.plan);
    y = line(c, x, y, type, own.page) + 2.2;
    lw_sheet_bar(c, x, y, bar_mm);
    (void)lw_canvas_text(c, x, y + 0.3, (lw_type){.size_pt = 7, .width_mm = width}, own.bar);
}

void lw_sheet_label_frame(lw_sheet *sheet, const lw_label_grid *grid)
{
    if (grid->tells_itself)
        in_last_place(sheet, grid);
    else
        on_rims(sheet, grid);
    lw_canvas_pen(sheet->canvas, 0.3, lw_black);
}
