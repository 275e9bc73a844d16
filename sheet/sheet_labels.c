/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Labels with QR codes for lamps, packs and cells on plain A4 with cut lines, 3 by 8 of 70 x 37 mm (a common label
 * grid).
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

enum { ACROSS = 3, DOWN = 8 };
static const double label_width_mm = 70.0, label_height_mm = 37.0;

typedef struct label_place {
    lw_sheet *sheet;
    int used; /* labels on this page */
} label_place;

static void cut_lines(lw_canvas *c)
{
    lw_canvas_pen(c, 0.15, lw_grey);
    lw_canvas_dashes(c, 1.0, 1.5);
    for (int i = 1; i < ACROSS; i++)
        lw_canvas_line(c, i * label_width_mm, 0.0, i * label_width_mm, 297.0);
    for (int i = 1; i < DOWN; i++)
        lw_canvas_line(c, 0.0, i * label_height_mm, 210.0, i * label_height_mm);
    lw_canvas_dashes(c, 0.0, 0.0);
    lw_canvas_pen(c, 0.3, lw_black);
}

/* The next free place, on a new page when this one is full. */
static void next_label(label_place *place, double *x, double *y)
{
    if (place->used == ACROSS * DOWN) {
        lw_sheet_new_page(place->sheet);
        place->used = 0;
    }
    if (place->used == 0)
        cut_lines(place->sheet->canvas);
    *x = (place->used % ACROSS) * label_width_mm;
    const int row = place->used / ACROSS;
    *y = row * label_height_mm;
    place->used++;
}

static void one(label_place *place, const char *code, const char *first, const char *second)
{
    double x = 0.0, y = 0.0;
    lw_sheet *sheet = place->sheet;
    next_label(place, &x, &y);
    const lw_type small = {.size_pt = 9, .width_mm = 35.0};
    if (!sheet->failed && !lw_canvas_qr(sheet->canvas, x + 3.0, y + 4.5, 28.0, code, sheet->err))
        sheet->failed = true;
    double text_y = y + 6.0;
    text_y +=
        lw_canvas_text(sheet->canvas, x + 32.0, text_y, (lw_type){.size_pt = 10, .bold = true, .width_mm = 37.0}, code);
    text_y += lw_canvas_text(sheet->canvas, x + 32.0, text_y + 1.0, small, first) + 1.0;
    if (second)
        (void)lw_canvas_text(sheet->canvas, x + 32.0, text_y + 0.5, small, second);
}

static void lamp_labels(label_place *place, const lw_plan *plan, size_t kind_number, const char *code)
{
    const lw_sheet *sheet = place->sheet;
    const lw_plan_kind *kind = &plan->kind[kind_number];
    const char *name = plan->brief.want.lamp[kind->kind].name;
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

/* Labels to be written on, as many as cells are still to be chosen. */
static void open_cells(label_place *place, const lw_plan *plan, const char *code)
{
    char cell[40];
    int cells = 0;
    for (size_t i = 0; i < plan->kind_count; i++) {
        int packs = plan->kind[i].count;
        for (size_t p = 0; p < plan->pack_count; p++)
            packs -= plan->pack[p].kind == i;
        cells += packs * plan->kind[i].design.series * plan->kind[i].design.parallel;
    }
    for (int i = 1; i <= cells && !place->sheet->failed; i++) {
        (void)snprintf(cell, sizeof cell, "C-%s-%03d", code, i);
        one(place, cell, "______ Ah  ______ mΩ", "______ V");
    }
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_plan *plan = input->plan;
    label_place place = {.sheet = sheet};
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
