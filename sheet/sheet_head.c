/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The head board at true size: where every LED and resistor sits, which way round, what each string draws.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

/* An LED of 2.8 x 3.5 mm; the black end is its minus. */
static void led(lw_canvas *c, double x, double y)
{
    lw_canvas_fill_box(c, x - 1.75, y - 1.4, 3.5, 2.8, lw_white);
    lw_canvas_box(c, x - 1.75, y - 1.4, 3.5, 2.8);
    lw_canvas_fill_box(c, x + 0.75, y - 1.4, 1.0, 2.8, lw_black);
}

static void string_of(lw_canvas *c, const lw_head_board *board, int string, double left, double top)
{
    double x0, y;
    lw_head_led_place(board, string, 0, &x0, &y);
    const double p = board->pitch_mm;
    lw_canvas_pen(c, 0.3, lw_black);
    lw_canvas_fill_box(c, left + x0 - 1.0 * p, top + y - 1.1, 6.0, 2.2, lw_white);
    lw_canvas_box(c, left + x0 - 1.0 * p, top + y - 1.1, 6.0, 2.2);
    for (int k = 0; k < board->series; k++) {
        double x;
        lw_head_led_place(board, string, k, &x, &y);
        led(c, left + x, top + y);
    }
}

/* The bare wires as they are read back in the tests, and the signs of both rails. */
static void wires(lw_canvas *c, const lw_head_board *board, double left, double top)
{
    lw_head_wire wire[LW_HEAD_WIRES];
    const size_t count = lw_head_wires(board, wire);
    for (size_t i = 0; i < count; i++) {
        const bool level =
            wire[i].y0_mm == wire[i].y1_mm && fabs(wire[i].x1_mm - wire[i].x0_mm) < 2.0 * board->pitch_mm;
        lw_canvas_pen(c, level ? 0.3 : 0.8, lw_black);
        lw_canvas_line(c, left + wire[i].x0_mm, top + wire[i].y0_mm, left + wire[i].x1_mm, top + wire[i].y1_mm);
    }
    const lw_type sign = {.size_pt = 11, .bold = true, .align = LW_ALIGN_CENTRE};
    for (int first = 0; first < board->strings; first += board->rows) {
        double x0, x1, y;
        lw_head_led_place(board, first, 0, &x0, &y);
        lw_head_led_place(board, first, board->series - 1, &x1, &y);
        (void)lw_canvas_text(c, left + x0 - 1.2 * board->pitch_mm + 2.6, top + y - 7.4, sign, "+");
        (void)lw_canvas_text(c, left + x1 + 0.6 * board->pitch_mm - 2.6, top + board->height_mm - 7.6, sign, "−");
    }
}

static void picture(lw_sheet *sheet, const lw_head_board *board)
{
    char text[40];
    lw_sheet_need(sheet, board->height_mm + 16.0);
    lw_canvas *c = sheet->canvas;
    const double left = lw_sheet_left_mm, top = sheet->y;
    lw_canvas_pen(c, 0.3, lw_grey);
    lw_canvas_dashes(c, 2.0, 1.5);
    lw_canvas_box(c, left, top, board->width_mm, board->height_mm);
    lw_canvas_dashes(c, 0.0, 0.0);
    wires(c, board, left, top);
    for (int s = 0; s < board->strings; s++)
        string_of(c, board, s, left, top);
    lw_canvas_pen(c, 0.2, lw_black);
    (void)snprintf(text, sizeof text, "%.1f mm", board->width_mm);
    lw_canvas_dimension(c, left, top + board->height_mm + 8.0, left + board->width_mm, top + board->height_mm + 8.0,
                        text, 10);
    const double x = left + board->width_mm + 12.0;
    const lw_type side = {.size_pt = 10.5, .width_mm = lw_sheet_left_mm + lw_sheet_width_mm - x};
    if (side.width_mm > 45.0) {
        double y = top;
        y += lw_canvas_text(c, x, y, side, SAY("Small boxes: LEDs. Black end: their minus.")) + 2.0;
        y += lw_canvas_text(c, x, y, side, SAY("Long box: the string's resistor.")) + 2.0;
        (void)lw_canvas_text(c, x, y, side,
                             lw_sheet_format(text, sizeof text, SAY("LED to LED: %.2f mm"), board->pitch_mm));
    }
    sheet->y += board->height_mm + 14.0;
}

static void values(lw_sheet *sheet, const lw_head_board *board)
{
    char text[120];
    lw_sheet_value(sheet, SAY("LEDs in series x strings"),
                   lw_sheet_format(text, sizeof text, "%d x %d = %d", board->series, board->strings,
                                   board->series * board->strings));
    lw_sheet_value(sheet, SAY("Current of each string"),
                   lw_sheet_format(text, sizeof text, SAY("%.0f mA; the LED may carry %.0f mA"), 1e3 * board->led_a,
                                   1e3 * board->rated_a));
    lw_sheet_value(sheet, SAY("Volts of a string"), lw_sheet_format(text, sizeof text, "%.1f V", board->string_v));
    lw_sheet_value(sheet, SAY("Resistor in each string"),
                   lw_sheet_format(text, sizeof text, "%.3g Ω, %.2g W", board->resistor_ohm,
                                   board->resistor_w < 0.1 ? 0.25 : 2.5 * board->resistor_w));
    lw_sheet_value(sheet, SAY("Light of the LEDs, before the bottle"),
                   lw_sheet_format(text, sizeof text, "%.0f lm", board->light_lm));
    lw_sheet_gap(sheet, 2.0);
    lw_sheet_text(sheet,
                  SAY("Half its rated current keeps an LED cool and lets it live for years. Values are those of a "
                      "common white LED of 2.8 x 3.5 mm; measure one of yours first."));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_head_board *board = &input->build->head;
    int n = 0;
    values(sheet, board);
    lw_sheet_gap(sheet, 3.0);
    picture(sheet, board);
    lw_sheet_heading(sheet, SAY("Build the board"));
    lw_sheet_step(sheet, ++n, SAY("Measure the bar at the foot of this page: 100 mm. If not, print again at 100 %."));
    lw_sheet_step(sheet, ++n, SAY("Lay the page on the board and mark the holes with a needle."));
    lw_sheet_step(sheet, ++n, SAY("Solder the LEDs, every black end to the right; then one resistor in each string."));
    lw_sheet_step(sheet, ++n,
                  SAY("Wire the back as drawn: nothing crosses. With two or more blocks a bar along the top joins all "
                      "plus rails, one along the foot all minus rails."));
    lw_sheet_caution(sheet, SAY("Soldering iron 350 degrees: burns. Do not look into lit LEDs."));
    lw_sheet_step(sheet, ++n,
                  SAY("Light each string alone for a minute and measure its current; they differ by less "
                      "than a tenth."));
    lw_sheet_step(sheet, ++n, SAY("After ten minutes the back of the board is warm, not too hot to touch."));
}

static bool wanted(const lw_sheet_input *input)
{
    return input->build->has_head;
}

const lw_sheet_kind lw_sheet_head_board = {
    .name = "head",
    .group = "bench",
    .title = "Head board, true size",
    .each_kind = true,
    .wanted = wanted,
    .draw = draw,
};
