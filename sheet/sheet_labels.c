/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Labels with QR codes for lamps, packs and cells, on a grid of labels (lanewick/labels.h); plain A4 has cut lines.
 */
#include "lanewick/labels.h"
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct label_place {
    lw_sheet *sheet;
    const lw_label_grid *grid;
    size_t used; /* labels on this page */
} label_place;

static void cut_lines(lw_canvas *c, const lw_label_grid *grid)
{
    lw_canvas_pen(c, 0.15, lw_grey);
    lw_canvas_dashes(c, 1.0, 1.5);
    for (int i = 1; i < grid->across; i++)
        lw_canvas_line(c, i * grid->pitch_x_mm, 0.0, i * grid->pitch_x_mm, 297.0);
    for (int i = 1; i < grid->down; i++)
        lw_canvas_line(c, 0.0, i * grid->pitch_y_mm, 210.0, i * grid->pitch_y_mm);
    lw_canvas_dashes(c, 0.0, 0.0);
    lw_canvas_pen(c, 0.3, lw_black);
}

/* The next free place, on a new page when this one is full. */
static void next_label(label_place *place, double *x, double *y)
{
    const lw_label_grid *grid = place->grid;
    if (place->used == lw_label_places(grid)) {
        lw_sheet_new_page(place->sheet);
        place->used = 0;
    }
    if (place->used == 0) {
        if (grid->cut_lines)
            cut_lines(place->sheet->canvas, grid);
        lw_sheet_label_frame(place->sheet, grid);
    }
    const int across = grid->across, column = (int)place->used % across, row = (int)place->used / across;
    *x = grid->left_mm + column * grid->pitch_x_mm;
    *y = grid->top_mm + row * grid->pitch_y_mm;
    place->used++;
}

/* A code stays in one line, in smaller letters where it must: it is searched for, and typed. */
static lw_type code_type(lw_canvas *c, double width, double size_pt, bool bold, const char *code)
{
    const double least_pt = 6.0;
    lw_type type = {.size_pt = size_pt, .bold = bold};
    double wide = 0.0, high = 0.0;
    for (;; type.size_pt -= 0.5) {
        lw_canvas_measure(c, type, code, &wide, &high);
        if (wide <= width)
            return type;
        if (type.size_pt <= least_pt)
            break;
    }
    type.width_mm = width;
    return type;
}

/* The texts of a label below one another, or only the room that they take. */
static double write(lw_canvas *c, double x, double y, double width, double size_pt, const char *const text[3],
                    bool draws)
{
    const double top = y;
    for (int i = 0; i < 3; i++) {
        double wide = 0.0, high = 0.0;
        if (!text[i])
            continue;
        lw_type type = {.size_pt = size_pt, .width_mm = width};
        if (i == 0)
            type = code_type(c, width, size_pt + 1.0, true, text[0]);
        else if (strstr(text[i], " · ")) /* "P-7KM-3QX-101 · 2B" */
            type = code_type(c, width, size_pt, false, text[i]);
        lw_canvas_measure(c, type, text[i], &wide, &high);
        if (draws)
            (void)lw_canvas_text(c, x, y, type, text[i]);
        y += high + 0.9;
    }
    return y - top;
}

/* The code as QR and in letters, as large as the label allows: 9 pt, less only where it would not fit. */
static void one(label_place *place, const char *code, const char *first, const char *second)
{
    const double edge = 3.0, rim = 5.0, paper = 210.0, least_pt = 6.0; /* no printer reaches the paper's rim */
    double x = 0.0, y = 0.0, size_pt = 9.0;
    lw_sheet *sheet = place->sheet;
    const lw_label_grid *grid = place->grid;
    const char *const text[3] = {code, first, second};
    next_label(place, &x, &y);
    const double side = fmin(28.0, fmin(grid->height_mm - 2.0 * edge, 0.42 * grid->width_mm));
    const double left = fmax(x + edge, rim), right = fmin(x + grid->width_mm - edge, paper - rim);
    const double text_x = left + side + 1.0, width = right - text_x;
    if (!sheet->failed &&
        !lw_canvas_qr(sheet->canvas, left, y + 0.5 * (grid->height_mm - side), side, code, sheet->err))
        sheet->failed = true;
    double high = write(sheet->canvas, text_x, 0.0, width, size_pt, text, false);
    for (; size_pt > least_pt && high > grid->height_mm - 2.0 * edge; size_pt -= 0.5)
        high = write(sheet->canvas, text_x, 0.0, width, size_pt - 0.5, text, false);
    (void)write(sheet->canvas, text_x, y + 0.5 * (grid->height_mm - high), width, size_pt, text, true);
}

static void lamp_labels(label_place *place, const lw_plan *plan, size_t kind_number, const char *code)
{
    const lw_sheet *sheet = place->sheet;
    const lw_plan_kind *kind = &plan->kind[kind_number];
    const char *name = lw_sheet_lamp(sheet, plan, kind);
    char text[96], pack[120];
    for (int i = 1; i <= kind->count; i++) {
        (void)lw_thing_code(text, sizeof text, 'L', code, kind_number + 1, i);
        one(place, text, name, SAY("Tell the keeper if it is dark."));
        (void)lw_thing_code(text, sizeof text, 'P', code, kind_number + 1, i);
        (void)snprintf(pack, sizeof pack, "%d x %d · %.0f Wh", kind->design.series, kind->design.parallel,
                       lw_design_pack_wh(&plan->brief.shelf, &kind->design));
        one(place, text, pack, SAY("Not certified. Lithium: no fire, no water, no children."));
    }
}

/* Cells that are chosen: the code of the store, and where it goes. */
static void known_cells(label_place *place, const lw_plan *plan, const char *code)
{
    for (size_t i = 0; i < plan->pack_count; i++) {
        const lw_plan_pack *pack = &plan->pack[i];
        const lw_design *design = &plan->kind[pack->kind].design;
        for (int c = 0; c < design->series * design->parallel && !place->sheet->failed; c++) {
            char of[48], where[16], text[80];
            (void)lw_thing_code(of, sizeof of, 'P', code, pack->kind + 1, pack->number + 1);
            (void)lw_cell_place(where, sizeof where, c / design->parallel, c % design->parallel);
            (void)snprintf(text, sizeof text, "%s · %s", of, where);
            one(place, plan->cell_id[pack->first + (size_t)c], text, "______ V");
        }
    }
}

/* Cells that are still to be chosen. */
static int open_count(const lw_plan *plan)
{
    int cells = 0;
    for (size_t i = 0; i < plan->kind_count; i++) {
        int packs = plan->kind[i].count;
        for (size_t p = 0; p < plan->pack_count; p++)
            packs -= plan->pack[p].kind == i;
        cells += packs * plan->kind[i].design.series * plan->kind[i].design.parallel;
    }
    return cells;
}

/* Labels to be written on, as many as cells are still to be chosen. */
static void open_cells(label_place *place, const lw_plan *plan, const char *code)
{
    char cell[40];
    const int cells = open_count(plan);
    for (int i = 1; i <= cells && !place->sheet->failed; i++) {
        (void)snprintf(cell, sizeof cell, "C-%s-%03d", code, i);
        one(place, cell, "______\u00a0Ah  ______\u00a0mΩ", "______ V");
    }
}

static size_t label_count(const lw_plan *plan)
{
    int labels = open_count(plan);
    for (size_t i = 0; i < plan->kind_count; i++)
        labels += 2 * plan->kind[i].count;
    for (size_t i = 0; i < plan->pack_count; i++) {
        const lw_design *design = &plan->kind[plan->pack[i].kind].design;
        labels += design->series * design->parallel;
    }
    return (size_t)labels;
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_plan *plan = input->plan;
    label_place place = {.sheet = sheet, .grid = input->grid ? input->grid : lw_label_grid_for(label_count(plan))};
    char code[16];
    lw_plan_code(plan, code);
    for (size_t i = 0; i < plan->kind_count; i++)
        lamp_labels(&place, plan, i, code);
    known_cells(&place, plan, code);
    open_cells(&place, plan, code);
}

const lw_sheet_kind lw_sheet_labels = {
    .name = "labels",
    .group = "labels",
    .title = "Labels",
    .bare = true,
    .draw = draw,
};
