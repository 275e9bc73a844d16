/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The pack: which cell in which place, which way round, in what order it is joined, what to measure before each joint.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

enum { MOST_IN_PICTURE = 12 };

/* One cell from above: its number, a thick bar at the positive end. */
static void cell(lw_canvas *c, double x, double y, double side, bool positive_up, const char *label)
{
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_box(c, x, y, side, 1.6 * side);
    const double bar = positive_up ? y : y + 1.6 * side - 1.6;
    lw_canvas_fill_box(c, x, bar, side, 1.6, lw_black);
    (void)lw_canvas_text(c, x + 0.5 * side, y + 0.8 * side - 2.0,
                         (lw_type){.size_pt = fmin(9.0, side * 0.75), .align = LW_ALIGN_CENTRE}, label);
    (void)lw_canvas_text(c, x + 0.5 * side, positive_up ? y + 1.8 : y + 1.6 * side - 6.0,
                         (lw_type){.size_pt = 9, .bold = true, .align = LW_ALIGN_CENTRE}, "+");
}

/* Groups side by side as columns of cells; every second group is turned round so that strips join neighbours. */
static void picture(lw_sheet *sheet, int series, int parallel)
{
    const int columns = parallel < MOST_IN_PICTURE ? parallel : MOST_IN_PICTURE;
    const double side = fmin(12.0, (lw_sheet_width_mm - 30.0) / columns - 2.0), high = 1.6 * side + 5.0;
    lw_sheet_need(sheet, fmin(4.0, series) * high + 8.0);
    for (int g = 0; g < series; g++) {
        char label[32];
        lw_sheet_need(sheet, high);
        const bool up = g % 2 == 0;
        (void)lw_canvas_text(sheet->canvas, lw_sheet_left_mm, sheet->y + 0.8 * side - 3.0, (lw_type){.size_pt = 11},
                             lw_sheet_format(label, sizeof label, SAY("group %d"), g + 1));
        for (int k = 0; k < columns; k++) {
            char place[16];
            (void)lw_cell_place(place, sizeof place, g, k);
            cell(sheet->canvas, lw_sheet_left_mm + 26.0 + k * (side + 2.0), sheet->y, side, up, place);
        }
        const double left = lw_sheet_left_mm + 26.0, right = left + columns * (side + 2.0) - 2.0;
        lw_canvas_pen(sheet->canvas, 1.0, lw_grey);
        lw_canvas_line(sheet->canvas, left, sheet->y - 1.4, right, sheet->y - 1.4);
        lw_canvas_line(sheet->canvas, left, sheet->y + 1.6 * side + 1.4, right, sheet->y + 1.6 * side + 1.4);
        lw_canvas_pen(sheet->canvas, 0.4, lw_black);
        sheet->y += high;
    }
    sheet->y += 3.0;
}

static const lw_sheet_table places_table = {.columns = 5, .width_mm = {18, 54, 34, 34, 34}};

static void places_head(lw_sheet *sheet)
{
    const char *head[] = {SAY("place"), SAY("cell code"), SAY("volts before"), SAY("ampere-hours"), SAY("checked")};
    lw_sheet_row(sheet, &places_table, true, head);
}

/* Cells that are not chosen yet: their codes are written in. */
static void open_places(lw_sheet *sheet, int series, int parallel)
{
    lw_sheet_heading(sheet, SAY("Cells and their places"));
    places_head(sheet);
    for (int g = 0; g < series; g++)
        for (int k = 0; k < parallel; k++) {
            char place[16];
            const char *row[] = {lw_cell_place(place, sizeof place, g, k), NULL, "______ V", "______ Ah", NULL};
            lw_sheet_row(sheet, &places_table, false, row);
        }
}

/* The very cells of one pack, group by group with what the group holds. */
static void known_places(lw_sheet *sheet, const lw_plan *plan, const lw_plan_pack *pack, const lw_design *design)
{
    char text[200], code[48];
    lw_sheet_heading(
        sheet, lw_sheet_format(text, sizeof text, SAY("Cells of pack %s"),
                               lw_thing_code(code, sizeof code, 'P', sheet->code, pack->kind + 1, pack->number + 1)));
    places_head(sheet);
    for (int g = 0; g < design->series; g++)
        for (int k = 0; k < design->parallel; k++) {
            char place[16], holds[24];
            const size_t cell = pack->first + (size_t)g * (size_t)design->parallel + (size_t)k;
            const char *row[] = {
                lw_cell_place(place, sizeof place, g, k), plan->cell_id[cell], "______ V",
                k == 0 ? lw_sheet_format(holds, sizeof holds, SAY("group: %.2f Ah"), pack->group_ah[g]) : "", "□"};
            lw_sheet_row(sheet, &places_table, false, row);
        }
}

static void places(lw_sheet *sheet, const lw_sheet_input *input)
{
    const lw_plan *plan = input->plan;
    const lw_design *design = &input->kind->design;
    bool known = false;
    for (size_t i = 0; i < plan->pack_count; i++) {
        if (&plan->kind[plan->pack[i].kind] != input->kind)
            continue;
        known_places(sheet, plan, &plan->pack[i], design);
        known = true;
    }
    if (!known)
        open_places(sheet, design->series, design->parallel);
}

static void steps(lw_sheet *sheet, const lw_plan_kind *kind, const lw_shelf_cell *cells, double full)
{
    char text[300];
    const int series = kind->design.series;
    int n = 0;
    lw_sheet_heading(sheet, SAY("Join the pack, in this order"));
    lw_sheet_step(sheet, ++n,
                  SAY("Bring every cell to the same voltage: charge all, one by one, then let them rest a day."));
    lw_sheet_step(sheet, ++n, SAY("Write down each cell's volts. Cells of one group may differ by 0.02 V at most."));
    lw_sheet_caution(sheet,
                     SAY("Do not solder on a cell. Use factory tabs, spot welding or holders. Eyes and gloves on; "
                         "work on a surface that does not burn, with sand at hand, never alone."));
    lw_sheet_caution(sheet, SAY("A swollen or hot cell goes out of the house at once. Local rules on transport and on "
                                "battery waste come first."));
    lw_sheet_step(sheet, ++n,
                  SAY("Join the positive ends of a group with a strip, then the negative ends. Cover every strip at "
                      "once. Do this group after group."));
    for (int g = 1; g < series; g++)
        lw_sheet_step(
            sheet, ++n,
            lw_sheet_format(text, sizeof text,
                            SAY("Measure groups %d and %d: they differ by less than 0.02 V. Then join minus of group "
                                "%d to plus of group %d. All that is joined reads %.1f V when half full."),
                            g, g + 1, g, g + 1, (g + 1) * (cells->voltage_class == LW_SHELF_LFP ? 3.3 : 3.7)));
    if (series > 1)
        lw_sheet_step(
            sheet, ++n,
            SAY("Solder the sense wires of the protection board: minus first, then group after group. Measure each "
                "before it goes into the plug."));
    lw_sheet_step(sheet, ++n, SAY("Put the fuse at the pack's plus, as close as it goes, before any other wire."));
    lw_sheet_step(sheet, ++n,
                  lw_sheet_format(text, sizeof text,
                                  SAY("Charge once, watched. Stop when the pack reads %.2f V, or any group %.2f V."),
                                  series * full, full));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_plan_kind *kind = input->kind;
    const lw_shelf_cell *cells = &input->plan->brief.shelf.cell[kind->design.cell];
    char text[300];
    lw_sheet_caution(
        sheet, SAY("This pack is not certified. Packs of reclaimed cells without a traceable life are outside the "
                   "reuse standard (IEC 63338:2024). Where local rules forbid them, do not build one."));
    lw_sheet_value(sheet, SAY("Cells"), cells->name);
    lw_sheet_value(sheet, SAY("Groups in series x cells in each"),
                   lw_sheet_format(text, sizeof text, "%d x %d = %d", kind->design.series, kind->design.parallel,
                                   kind->design.series * kind->design.parallel));
    lw_sheet_value(sheet, SAY("A cell holds at least"),
                   lw_sheet_format(text, sizeof text, "%.2f Ah",
                                   cells->capacity_ah * (1.0 - 1.28 * cells->capacity_sd_pct / 100.0)));
    lw_sheet_value(
        sheet, SAY("The pack holds"),
        lw_sheet_format(text, sizeof text, "%.0f Wh", lw_design_pack_wh(&input->plan->brief.shelf, &kind->design)));
    lw_sheet_gap(sheet, 4.0);
    lw_sheet_text(sheet, SAY("Black bar and + : the positive end. Grey lines: strips that join the cells of a group."));
    picture(sheet, kind->design.series, kind->design.parallel);
    steps(sheet, kind, cells, input->build->charge.cell.full_v);
    places(sheet, input);
}

const lw_sheet_kind lw_sheet_pack = {
    .name = "pack",
    .group = "bench",
    .title = "The pack",
    .each_kind = true,
    .draw = draw,
};
