/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Two jigs for the bench: discharge with an under-voltage cut-off, charge with a limit. A cell's safety never depends
 * on a phone, a program or a person's memory.
 */
#include "sheet_list.h"

static const double box_mm = 17.0; /* high */

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

static void before(lw_sheet *sheet)
{
    lw_sheet_caution(sheet, SAY("Eyes and gloves on when packs are opened, never alone, dry sand at hand."));
    lw_sheet_caution(sheet, SAY("A swollen or hot cell goes out of the house at once. Local rules on transport and on "
                                "battery waste come first."));
}

static void discharge(lw_sheet *sheet)
{
    const char *const parts[] = {SAY("cell in a holder"), SAY("fuse 2 A"), SAY("cut-off board: opens at 2.8 to 3.0 V"),
                                 SAY("resistor 3.9 Ω, 10 W, on tin")};
    int n = 0;
    lw_sheet_heading(sheet, SAY("Discharge jig"));
    chain(sheet, parts, 4);
    lw_sheet_step(sheet, ++n,
                  SAY("Measure the resistor and write its value on it. Stand it on tin: it gets hot (4.5 W)."));
    lw_sheet_step(sheet, ++n, SAY("Charge the cell full, let it rest an hour, write its open volts and the time."));
    lw_sheet_step(sheet, ++n,
                  SAY("Switch on. Write volts at 10 seconds, then every 15 minutes, more often below 3.4 V."));
    lw_sheet_step(
        sheet, ++n,
        SAY("The board switches off by itself. Write the last volts and the time; a minute later the open volts."));
    lw_sheet_step(sheet, ++n,
                  SAY("Enter the readings: the program gives ampere-hours and resistance with their uncertainty."));
    lw_sheet_caution(
        sheet, SAY("Never leave it alone and never discharge where people sleep. The cut-off board is part of the jig: "
                   "without it a forgotten resistor kills the cell."));
    lw_sheet_caution(sheet, SAY("Never below 2.5 V (LFP 2.0 V)."));
}

static void charge(lw_sheet *sheet)
{
    const char *const parts[] = {SAY("5 V supply, 1 A"), SAY("one-cell charger, 4.20 V, 0.5 A"), SAY("fuse 2 A"),
                                 SAY("cell in a holder, on tile")};
    int n = 0;
    lw_sheet_heading(sheet, SAY("Charging jig"));
    chain(sheet, parts, 4);
    lw_sheet_caution(
        sheet,
        SAY("Charge between 5 and 40 degrees, on a surface that does not burn, watched, sand at hand, never where "
            "people sleep. Never below freezing."));
    lw_sheet_caution(sheet, SAY("Never an LFP cell on a charger of 4.20 V: LFP ends at 3.60 V."));
    lw_sheet_step(sheet, ++n, SAY("Check the charger first: with no cell it reads between 4.15 and 4.24 V."));
    lw_sheet_step(
        sheet, ++n,
        SAY("Only cells found at 2.5 V or more. Between 2.0 and 2.5 V: 0.1 A at most until 3.0 V, watched; not "
            "there in an hour: scrap. Below 2.0 V: scrap."));
    lw_sheet_step(sheet, ++n,
                  SAY("Feel each cell every half hour: warmer than your hand means stop, carry it outside, scrap."));
    lw_sheet_step(sheet, ++n, SAY("Not full after eight hours: stop, scrap."));
    lw_sheet_step(sheet, ++n, SAY("A day later it still reads 4.10 V or more; less: it leaks."));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    (void)payload;
    before(sheet);
    discharge(sheet);
    lw_sheet_new_page(sheet); /* each hangs over its own jig */
    before(sheet);
    charge(sheet);
}

const lw_sheet_kind lw_sheet_jigs = {
    .name = "jigs",
    .group = "bench",
    .title = "Jigs for testing cells",
    .draw = draw,
};
