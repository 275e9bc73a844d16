/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two jigs for the bench: discharge with an under-voltage cut-off, charge with a limit. A cell's safety never depends
 * on a phone, a program or a person's memory. What the jigs are set to follows the classes of the plan's cells, each on
 * pages of its own.
 */
#include "sheet_list.h"

#include "lanewick/verdict.h"

#include <math.h>

static const double box_mm = 17.0; /* high */
static const double load_w = 10.0, charge_a = 0.5;

/* Cells that share the jigs' settings; what is set comes from the tables of their class. */
typedef struct jig {
    bool lfp, marked_higher;    /* marked_higher: cells marked for more than they are charged to are among them */
    const lw_cell_class *class; /* open voltage */
    const lw_test_class *test;  /* ends of the discharge */
    lw_charge_limits limits, of_others; /* of_others: what the other charger ends at */
} jig;

static void box(lw_canvas *c, double x, double y, double width, const char *text)
{
    const lw_type type = {.size_pt = 9.5, .align = LW_ALIGN_CENTRE, .width_mm = width - 2.0};
    double wide = 0.0, high = 0.0;
    lw_canvas_box(c, x, y, width, box_mm);
    lw_canvas_measure(c, type, text, &wide, &high);
    (void)lw_canvas_text(c, x + 0.5 * width, y + 0.5 * (box_mm - high), type, text);
}

/* Boxes in a row joined by lines: the current's way. */
static void chain(lw_sheet *sheet, const char *const *parts, size_t count)
{
    lw_sheet_need(sheet, box_mm + 12.0);
    const double gap = 8.0, width = (lw_sheet_width_mm - gap * (double)(count - 1)) / (double)count;
    lw_canvas *c = sheet->canvas;
    const double y = sheet->y + 2.0, left = lw_sheet_left_mm;
    lw_canvas_pen(c, 0.5, lw_black);
    for (size_t i = 0; i < count; i++) {
        const double x = left + (double)i * (width + gap);
        box(c, x, y, width, parts[i]);
        if (i + 1 < count)
            lw_canvas_line(c, x + width, y + 0.5 * box_mm, x + width + gap, y + 0.5 * box_mm);
    }
    lw_canvas_line(c, left + 0.5 * width, y + box_mm, left + 0.5 * width, y + box_mm + 5.0);
    lw_canvas_line(c, left + 0.5 * width, y + box_mm + 5.0, left + lw_sheet_width_mm - 0.5 * width, y + box_mm + 5.0);
    lw_canvas_line(c, left + lw_sheet_width_mm - 0.5 * width, y + box_mm + 5.0, left + lw_sheet_width_mm - 0.5 * width,
                   y + box_mm);
    sheet->y += box_mm + 12.0;
}

/* Which cells these pages are for stands in the heading, so that a page on the wall is not taken for another's. */
static void before(lw_sheet *sheet, const jig *j, const char *title)
{
    char text[120], cells[60];
    (void)lw_sheet_format(cells, sizeof cells, j->lfp ? SAY("only LFP cells, %.2f V") : SAY("only cells of %.2f V"),
                          j->limits.full_v);
    lw_sheet_heading(sheet, lw_sheet_format(text, sizeof text, "%s: %s", title, cells));
    lw_sheet_caution(sheet, SAY("Eyes and gloves on when packs are opened, never alone, dry sand at hand."));
    lw_sheet_caution(sheet, SAY("A swollen or hot cell goes out of the house at once. Local rules on transport and on "
                                "battery waste come first."));
}

static void discharge(lw_sheet *sheet, const jig *j)
{
    char board[120], load[60], text[200];
    const double end_v = j->test->end_v, low_v = lw_ocv_at(&j->class->ocv, 0.1);
    const char *const parts[] = {
        SAY("cell in a holder"), SAY("fuse 2 A"),
        lw_sheet_format(board, sizeof board, SAY("cut-off board: opens at %.1f to %.1f V"), end_v - 0.2, end_v),
        lw_sheet_format(load, sizeof load, SAY("resistor %.1f Ω, %.0f W, on tin"), lw_jig_ohm, load_w)};
    int n = 0;
    before(sheet, j, SAY("Discharge jig"));
    chain(sheet, parts, 4);
    lw_sheet_step(
        sheet, ++n,
        lw_sheet_format(text, sizeof text,
                        SAY("Measure the resistor and write its value on it. Stand it on tin: it gets hot (%.1f W)."),
                        j->limits.full_v * j->limits.full_v / lw_jig_ohm));
    lw_sheet_step(sheet, ++n, SAY("Charge the cell full, let it rest an hour, write its open volts and the time."));
    lw_sheet_step(
        sheet, ++n,
        lw_sheet_format(text, sizeof text,
                        SAY("Switch on. Write volts at 10 seconds, then every 15 minutes, more often below %.1f V."),
                        low_v));
    lw_sheet_step(
        sheet, ++n,
        SAY("The board switches off by itself. Write the last volts and the time; a minute later the open volts."));
    lw_sheet_step(sheet, ++n,
                  SAY("Enter the readings: the program gives ampere-hours and resistance with their uncertainty."));
    lw_sheet_caution(
        sheet, SAY("Never leave it alone and never discharge where people sleep. The cut-off board is part of the jig: "
                   "without it a forgotten resistor kills the cell."));
    lw_sheet_caution(sheet, lw_sheet_format(text, sizeof text, SAY("Never below %.1f V."), j->limits.floor_v));
}

/* What must never meet: the cells of one class and the charger of the other. */
static void charger_caution(lw_sheet *sheet, const jig *j)
{
    char text[240];
    lw_sheet_caution(
        sheet,
        lw_sheet_format(text, sizeof text,
                        j->lfp ? SAY("LFP cells end at %.2f V. A charger of %.2f V overcharges them: they can burn.")
                               : SAY("These cells end at %.2f V. Never an LFP cell on this charger: LFP ends at "
                                     "%.2f V."),
                        j->limits.full_v, j->of_others.full_v));
    if (j->marked_higher)
        lw_sheet_text(sheet, lw_sheet_format(text, sizeof text,
                                             SAY("Cells marked 4.35 V are charged here too, to %.2f V and no more."),
                                             j->limits.full_v));
}

static void charge(lw_sheet *sheet, const jig *j)
{
    char charger[80], text[240];
    const lw_charge_limits *limits = &j->limits;
    const char *const parts[] = {
        SAY("5 V supply, 1 A"),
        lw_sheet_format(charger, sizeof charger, SAY("one-cell charger, %.2f V, %.1f A"), limits->full_v, charge_a),
        SAY("fuse 2 A"), SAY("cell in a holder, on tile")};
    int n = 0;
    before(sheet, j, SAY("Charging jig"));
    charger_caution(sheet, j);
    chain(sheet, parts, 4);
    lw_sheet_caution(
        sheet,
        SAY("Charge between 5 and 40 degrees, on a surface that does not burn, watched, sand at hand, never where "
            "people sleep. Never below freezing."));
    /* cell data sheets: full voltage +- 0.05 V; never as high as the hard limit */
    lw_sheet_step(
        sheet, ++n,
        lw_sheet_format(text, sizeof text,
                        SAY("Check the charger first: with no cell it reads between %.2f and %.2f V. More: scrap it."),
                        limits->full_v - 0.05, fmin(limits->full_v + 0.05, limits->hard_v - 0.01)));
    lw_sheet_step(
        sheet, ++n,
        SAY("Only cells found at 2.5 V or more. Between 2.0 and 2.5 V: 0.1 A at most until 3.0 V, watched; not "
            "there in an hour: scrap. Below 2.0 V: scrap."));
    lw_sheet_step(sheet, ++n,
                  SAY("Feel each cell every half hour: warmer than your hand means stop, carry it outside, scrap."));
    lw_sheet_step(sheet, ++n, SAY("Not full after eight hours: stop, scrap."));
    lw_sheet_step(
        sheet, ++n,
        lw_sheet_format(text, sizeof text,
                        j->lfp ? SAY("A day later it still reads %.2f V or more; less: rest it two weeks more, and "
                                     "measure again.")
                               : SAY("A day later it still reads %.2f V or more; less: it does not hold, scrap."),
                        lw_hold_least_v(j->test, &lw_grading_default)));
}

/* The jig for a way of charging; false: no lamp of the plan has such cells. */
static bool jig_of(const lw_plan *plan, lw_charge_class charge_class, jig *out)
{
    const bool lfp = charge_class == LW_CHARGE_LFP;
    *out = (jig){.lfp = lfp,
                 .limits = lw_charge_limits_for(charge_class, false, 0.0),
                 .of_others = lw_charge_limits_for(lfp ? LW_CHARGE_4V2 : LW_CHARGE_LFP, false, 0.0)};
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_shelf_cell *cell = &plan->brief.shelf.cell[plan->kind[i].design.cell];
        const lw_cell_class *class = lw_shelf_cell_class(cell);
        if (lw_charge_class_of(cell) != charge_class || !class)
            continue;
        out->marked_higher = out->marked_higher || cell->voltage_class == LW_SHELF_4V35;
        out->class = class;
        out->test = lw_test_class_find(class->name);
    }
    return out->test != NULL;
}

static void draw(lw_sheet *sheet, const void *payload)
{
    static const lw_charge_class ways[] = {LW_CHARGE_4V2, LW_CHARGE_LFP};
    const lw_sheet_input *input = payload;
    bool begun = false;
    jig j;
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        if (!jig_of(input->plan, ways[i], &j))
            continue;
        if (begun)
            lw_sheet_new_page(sheet);
        begun = true;
        discharge(sheet, &j);
        lw_sheet_new_page(sheet); /* each hangs over its own jig */
        charge(sheet, &j);
    }
}

const lw_sheet_kind lw_sheet_jigs = {
    .name = "jigs",
    .group = "bench",
    .title = "Jigs for testing cells",
    .draw = draw,
};
