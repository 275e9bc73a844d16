/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The wiring picture: what is joined to what, wire sections, fuse, and the test points with the numbers of the test
 * sheet.
 */
#include "sheet_list.h"

#include <stdarg.h>
#include <stdio.h>

/* Colour repeats what full and broken lines say. */
static const lw_ink red = {0.72, 0.08, 0.08};

static void part(lw_canvas *c, double x, double y, double width, double height, const char *name)
{
    double text_width = 0.0, text_height = 0.0;
    const lw_type type = {.size_pt = 10, .align = LW_ALIGN_CENTRE, .width_mm = width - 2.0};
    lw_canvas_measure(c, type, name, &text_width, &text_height);
    lw_canvas_fill_box(c, x, y, width, height, lw_white);
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_box(c, x, y, width, height);
    (void)lw_canvas_text(c, x + 0.5 * width, y + 0.5 * (height - text_height), type, name);
}

static void point(lw_canvas *c, double x, double y, int number)
{
    char text[8];
    (void)snprintf(text, sizeof text, "%d", number);
    lw_canvas_disc(c, x, y, 2.8, lw_white);
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_circle(c, x, y, 2.8);
    (void)lw_canvas_text(c, x, y - 2.1, (lw_type){.size_pt = 9.5, .bold = true, .align = LW_ALIGN_CENTRE}, text);
}

static void rails(lw_canvas *c, double x, double plus, double minus)
{
    lw_canvas_pen(c, 0.9, red);
    lw_canvas_line(c, x + 28.0, plus, x + 152.0, plus);
    lw_canvas_line(c, x + 82.0, plus, x + 82.0, plus + 52.0);
    lw_canvas_pen(c, 0.9, lw_black);
    lw_canvas_dashes(c, 2.0, 2.0);
    lw_canvas_line(c, x + 28.0, minus, x + 152.0, minus);
    lw_canvas_line(c, x + 104.0, minus, x + 104.0, plus + 52.0);
    lw_canvas_dashes(c, 0.0, 0.0);
    lw_canvas_disc(c, x + 82.0, plus, 1.0, red);
    lw_canvas_disc(c, x + 104.0, minus, 1.0, lw_black);
}

/* A part's name with its value below. */
static const char *valued(char *out, size_t size, const char *name, const char *format, ...)
    __attribute__((format(printf, 4, 5)));
static const char *valued(char *out, size_t size, const char *name, const char *format, ...)
{
    char value[48];
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(value, sizeof value, format, arguments);
    va_end(arguments);
    return lw_sheet_format(out, size, "%s\n%s", name, value);
}

/* Section of the wires beside them, both conductors. */
static void section(lw_canvas *c, double x, double y, double mm2)
{
    char text[24];
    (void)snprintf(text, sizeof text, "%g mm²", mm2);
    (void)lw_canvas_text(c, x, y, (lw_type){.size_pt = 8.5, .align = LW_ALIGN_CENTRE}, text);
}

static void boxes(lw_sheet *sheet, const lw_sheet_input *input, double x, double y)
{
    lw_canvas *c = sheet->canvas;
    const lw_lamp_build *build = input->build;
    const lw_shelf *shelf = &input->plan->brief.shelf;
    const lw_design *design = &input->kind->design;
    char text[120];
    part(c, x, y, 28.0, 24.0,
         valued(text, sizeof text, SAY("panel"), "%d x %.3g W", design->panels, shelf->panel[design->panel].watts));
    part(c, x + 42.0, y, 26.0, 24.0,
         valued(text, sizeof text, SAY("charger"), "%.2f V", design->series * build->charge.cell.full_v));
    part(c, x + 116.0, y, 28.0, 24.0, SAY("driver, switch"));
    if (build->has_head)
        part(c, x + 152.0, y, 22.0, 24.0,
             valued(text, sizeof text, SAY("head"), "%d x %d LED", build->head.series, build->head.strings));
    else
        part(c, x + 152.0, y, 22.0, 24.0, SAY("head"));
    part(c, x + 68.0, y + 34.0, 26.0, 11.0, valued(text, sizeof text, SAY("fuse"), "%g A", build->wiring.fuse_a));
    part(c, x + 96.0, y + 34.0, 30.0, 11.0, SAY("protection"));
    part(c, x + 66.0, y + 58.0, 60.0, 20.0,
         valued(text, sizeof text, SAY("pack"), "%d x %d, %.1f V", design->series, design->parallel,
                design->series * build->charge.cell.full_v));
    section(c, x + 35.0, y + 25.0, build->wiring.panel_mm2);
    section(c, x + 135.0, y + 34.0, build->wiring.pack_mm2);
    section(c, x + 148.0, y + 25.0, build->wiring.head_mm2);
}

static void picture(lw_sheet *sheet, const lw_sheet_input *input)
{
    lw_sheet_need(sheet, 92.0);
    lw_canvas *c = sheet->canvas;
    const double x = lw_sheet_left_mm, y = sheet->y + 4.0, plus = y + 6.0, minus = y + 18.0;
    rails(c, x, plus, minus);
    boxes(sheet, input, x, y);
    const lw_type sign = {.size_pt = 11, .bold = true, .align = LW_ALIGN_CENTRE};
    (void)lw_canvas_text(c, x + 78.0, y + 52.0, sign, "+");
    (void)lw_canvas_text(c, x + 108.0, y + 52.0, sign, "−");
    point(c, x + 35.0, y + 12.0, 1);
    point(c, x + 35.0, plus, 2);
    point(c, x + 73.0, y + 12.0, 3);
    point(c, x + 75.0, plus, 4);
    point(c, x + 93.0, y + 51.5, 5);
    point(c, x + 121.0, y + 68.0, 6);
    point(c, x + 64.0, y + 39.5, 7);
    point(c, x + 148.0, plus, 8);
    point(c, x + 104.0, y + 29.0, 9);
    if (input->kind->circuit.there)
        point(c, x + 82.0, y + 29.0, 10);
    const lw_type side = {.size_pt = 10, .width_mm = 56.0};
    (void)lw_canvas_text(c, x, y + 40.0, side,
                         SAY("Full lines: plus. Broken lines: minus. Numbers: measuring points of the test sheet."));
    (void)lw_canvas_text(c, x, y + 62.0, side,
                         SAY("Red wire: plus. Black wire: minus. Other colours: tape on both ends."));
    sheet->y += 88.0;
}

static void wires(lw_sheet *sheet, const lw_sheet_input *input)
{
    static const lw_sheet_table table = {
        .columns = 4, .width_mm = {86, 30, 30, 28}, .right = {false, true, true, true}};
    const lw_wiring *w = &input->build->wiring;
    const lw_shelf *shelf = &input->plan->brief.shelf;
    const lw_design *design = &input->kind->design;
    const char *head[] = {SAY("copper wire, plus and minus"), SAY("section"), SAY("length"), SAY("current")};
    const struct {
        const char *name;
        double mm2, length_m, amps;
    } rows[] = {
        {SAY("panel to charger"), w->panel_mm2, 5.0, design->panels * shelf->panel[design->panel].isc_a},
        {SAY("pack to fuse, charger and driver"), w->pack_mm2, 0.5,
         w->night_a > w->charge_a ? w->night_a : w->charge_a},
        {SAY("driver to head"), w->head_mm2, 5.0, w->head_a},
    };
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        char section[24], length[24], amps[24];
        (void)snprintf(section, sizeof section, "%g mm²", rows[i].mm2);
        (void)snprintf(length, sizeof length, "%.1f m", rows[i].length_m);
        (void)snprintf(amps, sizeof amps, "%.2f A", rows[i].amps);
        const char *cells[] = {rows[i].name, section, length, amps};
        lw_sheet_row(sheet, &table, false, cells);
    }
}

/* What stands a pack that is joined the wrong way round. */
static void reversed(lw_sheet *sheet, const lw_sheet_input *input)
{
    const lw_reverse_guard guard = input->plan->brief.build.reverse;
    if (guard == LW_REVERSE_NONE)
        lw_sheet_caution(sheet, SAY("Joined the wrong way round the pack destroys charger and switch. Give it a keyed "
                                    "plug that fits one way only, and measure plus and minus before the first time."));
    else
        lw_sheet_value(sheet, SAY("Guard against a reversed pack"),
                       guard == LW_REVERSE_DIODE ? SAY("shunt diode behind the fuse: it blows the fuse")
                                                 : SAY("transistor behind the fuse: it blocks"));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_wiring *w = &input->build->wiring;
    char text[300];
    int n = 0;
    picture(sheet, input);
    wires(sheet, input);
    lw_sheet_gap(sheet, 3.0);
    lw_sheet_value(sheet, SAY("Fuse at the pack's plus (blade type)"),
                   lw_sheet_format(text, sizeof text, "%g A", w->fuse_a));
    lw_sheet_caution(sheet,
                     lw_sheet_format(text, sizeof text,
                                     SAY("A short circuit at the pack drives about %.0f A: it melts tools and starts "
                                         "fires. No rings, no bare ends; a glass fuse may not break it."),
                                     w->short_a));
    reversed(sheet, input);
    lw_sheet_heading(sheet, SAY("Join in this order"));
    lw_sheet_step(sheet, ++n, SAY("Pull the fuse and leave it out until the last step at the bench."));
    lw_sheet_step(sheet, ++n, SAY("Head to driver, then driver to the rails: check plus and minus with the meter."));
    lw_sheet_step(sheet, ++n, SAY("Pack with its protection board and empty fuse holder to the rails."));
    lw_sheet_step(sheet, ++n,
                  SAY("Charger to the rails. Every joint soldered or screwed, covered, and pulled by hand."));
    lw_sheet_step(sheet, ++n, SAY("Put the fuse in. Connect the panel last, and take it off first."));
}

static bool wanted(const lw_sheet_input *input)
{
    return input->build->has_wiring;
}

const lw_sheet_kind lw_sheet_wiring = {
    .name = "wiring",
    .group = "bench",
    .title = "Wiring",
    .each_kind = true,
    .wanted = wanted,
    .draw = draw,
};
