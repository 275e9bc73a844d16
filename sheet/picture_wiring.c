/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The wiring picture: what is joined to what, wire sections, fuse, guard against a reversed pack, a dusk switch made by
 * hand with its sensor and timer, and the test points with the numbers of the test sheet.
 */
#include "sheet_list.h"

#include <stdarg.h>
#include <stdio.h>

/* Colour repeats what full and broken lines say. */
static const lw_ink red = {0.72, 0.08, 0.08};

/* Where things stand: rails at the top, the pack below, the light at the right. */
typedef struct scene {
    lw_sheet *sheet;
    const lw_sheet_input *input;
    lw_canvas *c;
    double x, y, plus, minus; /* top left of the panel's box; height of the rails */
    double fuse, pack;        /* tops of the boxes on the way down */
    bool hand, timed, by_panel;
    lw_reverse_guard guard;
} scene;

static const double plus_x = 82.0, minus_x = 104.0;       /* ways from the rails to the pack */
static const double switch_x = 116.0, switch_wide = 28.0; /* driver, or the switch made by hand */
static const double column_x = 146.0, column_wide = 28.0; /* driver and head below one another */
static const double box_high = 24.0, small_high = 11.0;
static const double lead_plus = 12.0, lead_minus = 20.0; /* from column_x: wires down the column */

static void part(lw_canvas *c, double x, double y, double width, double height, const char *name)
{
    double text_width = 0.0, text_height = 0.0;
    lw_type type = {.size_pt = 11, .align = LW_ALIGN_CENTRE, .width_mm = width - 2.0};
    lw_canvas_measure(c, type, name, &text_width, &text_height);
    for (; (text_height > height - 0.5 || text_width > width) && type.size_pt > 8.0; type.size_pt -= 0.5)
        lw_canvas_measure(c, (lw_type){type.size_pt - 0.5, type.bold, type.align, type.width_mm}, name, &text_width,
                          &text_height);
    lw_canvas_fill_box(c, x, y, width, height, lw_white);
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_box(c, x, y, width, height);
    (void)lw_canvas_text(c, x + 0.5 * width, y + 0.5 * (height - text_height), type, name);
}

static void point(lw_canvas *c, double x, double y, int number)
{
    const double radius = 3.1;
    char text[8];
    (void)snprintf(text, sizeof text, "%d", number);
    lw_canvas_disc(c, x, y, radius, lw_white);
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_circle(c, x, y, radius);
    (void)lw_canvas_text(c, x, y - 2.3, (lw_type){.size_pt = 11, .bold = true, .align = LW_ALIGN_CENTRE}, text);
}

static void sign(lw_canvas *c, double x, double y, const char *text)
{
    (void)lw_canvas_text(c, x, y, (lw_type){.size_pt = 11, .bold = true, .align = LW_ALIGN_CENTRE}, text);
}

static void plus_wire(lw_canvas *c, double x0, double y0, double x1, double y1)
{
    lw_canvas_pen(c, 0.9, red);
    lw_canvas_line(c, x0, y0, x1, y1);
}

static void minus_wire(lw_canvas *c, double x0, double y0, double x1, double y1)
{
    lw_canvas_pen(c, 0.9, lw_black);
    lw_canvas_dashes(c, 2.0, 2.0);
    lw_canvas_line(c, x0, y0, x1, y1);
    lw_canvas_dashes(c, 0.0, 0.0);
}

/* Wires that carry a signal only. */
static void thin_wire(lw_canvas *c, double x0, double y0, double x1, double y1)
{
    lw_canvas_pen(c, 0.35, lw_black);
    lw_canvas_line(c, x0, y0, x1, y1);
}

static void rails(const scene *s)
{
    lw_canvas *c = s->c;
    const double end = s->hand ? switch_x : 152.0;
    plus_wire(c, s->x + 28.0, s->plus, s->x + end, s->plus);
    plus_wire(c, s->x + plus_x, s->plus, s->x + plus_x, s->pack);
    minus_wire(c, s->x + 28.0, s->minus, s->x + end, s->minus);
    minus_wire(c, s->x + minus_x, s->minus, s->x + minus_x, s->pack);
    lw_canvas_disc(c, s->x + plus_x, s->plus, 1.0, red);
    lw_canvas_disc(c, s->x + minus_x, s->minus, 1.0, lw_black);
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
static void section(const scene *s, double x, double y, double mm2)
{
    char text[24];
    (void)snprintf(text, sizeof text, "%g mm²", mm2);
    (void)lw_canvas_text(s->c, s->x + x, s->y + y, (lw_type){.size_pt = 11, .align = LW_ALIGN_CENTRE}, text);
}

static void feeding(const scene *s)
{
    const lw_sheet *sheet = s->sheet;
    const lw_lamp_build *build = s->input->build;
    const lw_design *design = &s->input->kind->design;
    const lw_shelf_panel *panel = &s->input->plan->brief.shelf.panel[design->panel];
    const double full_v = design->series * build->charge.cell.full_v;
    char text[120];
    part(s->c, s->x, s->y, 28.0, box_high,
         valued(text, sizeof text, SAY("panel"), "%d x %.3g W", design->panels, panel->watts));
    part(s->c, s->x + 42.0, s->y, 26.0, box_high, valued(text, sizeof text, SAY("charger"), "%.2f V", full_v));
    part(s->c, s->x + 68.0, s->fuse, 26.0, small_high,
         valued(text, sizeof text, SAY("fuse"), "%g A", build->wiring.fuse_a));
    part(s->c, s->x + 96.0, s->fuse, 30.0, small_high, SAY("protection"));
    part(s->c, s->x + 66.0, s->pack, 60.0, 20.0,
         valued(text, sizeof text, SAY("pack"), "%d x %d, %.1f V", design->series, design->parallel, full_v));
    section(s, 35.0, 25.0, build->wiring.panel_mm2);
    section(s, 121.0, 25.0, build->wiring.pack_mm2);
    sign(s->c, s->x + 78.0, s->pack - 6.0, "+");
    sign(s->c, s->x + 108.0, s->pack - 6.0, "−");
}

/* Behind the fuse: a transistor in plus, its gate at minus; or a diode from minus to plus. */
static void guard(const scene *s)
{
    const lw_sheet *sheet = s->sheet;
    lw_canvas *c = s->c;
    const double top = s->y + 25.0, middle = top + 0.5 * small_high;
    if (s->guard == LW_REVERSE_TRANSISTOR) {
        thin_wire(c, s->x + 94.0, middle, s->x + minus_x, middle);
        lw_canvas_disc(c, s->x + minus_x, middle, 0.8, lw_black);
        part(c, s->x + 62.0, top, 32.0, small_high, SAY("guard transistor"));
        sign(c, s->x + 78.5, top - 5.2, "S");
        sign(c, s->x + 78.5, top + small_high + 0.6, "D");
        sign(c, s->x + 98.0, middle - 5.2, "G");
    }
    if (s->guard == LW_REVERSE_DIODE) {
        const lw_point_mm triangle[3] = {
            {s->x + 96.0, middle - 2.6}, {s->x + 96.0, middle + 2.6}, {s->x + 91.5, middle}};
        thin_wire(c, s->x + plus_x, middle, s->x + minus_x, middle);
        lw_canvas_disc(c, s->x + plus_x, middle, 0.8, red);
        lw_canvas_disc(c, s->x + minus_x, middle, 0.8, lw_black);
        lw_canvas_fill(c, triangle, 3, lw_black);
        lw_canvas_pen(c, 0.7, lw_black);
        lw_canvas_line(c, s->x + 91.5, middle - 2.6, s->x + 91.5, middle + 2.6);
        (void)lw_canvas_text(c, s->x + 80.0, middle - 2.4, (lw_type){.size_pt = 11, .align = LW_ALIGN_RIGHT},
                             SAY("shunt diode"));
    }
}

static void head_box(const scene *s, double x, double y, double width)
{
    const lw_sheet *sheet = s->sheet;
    const lw_lamp_build *build = s->input->build;
    char text[120];
    part(s->c, x, y, width, box_high,
         build->has_head
             ? valued(text, sizeof text, SAY("head"), "%d x %d LED", build->head.series, build->head.strings)
             : SAY("head"));
}

/* The driver has the switch. */
static void driven(const scene *s)
{
    const lw_sheet *sheet = s->sheet;
    part(s->c, s->x + switch_x, s->y, switch_wide, box_high, SAY("driver, switch"));
    head_box(s, s->x + 152.0, s->y, 22.0);
    section(s, 148.0, 25.0, s->input->build->wiring.head_mm2);
    point(s->c, s->x + 148.0, s->plus, 8);
}

/* What tells the switch that it is dark. */
static void sensor(const scene *s)
{
    lw_canvas *c = s->c;
    const double x = s->x + switch_x + 4.0, over = s->y - 7.0;
    if (s->by_panel) { /* the panel's plus, past the charger */
        thin_wire(c, s->x + 24.0, s->y, s->x + 24.0, over);
        thin_wire(c, s->x + 24.0, over, x, over);
        thin_wire(c, x, over, x, s->y);
        sign(c, x - 3.0, s->y - 5.2, "P");
        return;
    }
    thin_wire(c, x - 1.2, over + 2.8, x - 1.2, s->y);
    thin_wire(c, x + 1.2, over + 2.8, x + 1.2, s->y);
    lw_canvas_disc(c, x, over, 3.1, lw_white);
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_circle(c, x, over, 3.1);
    lw_canvas_pen(c, 0.35, lw_black);
    lw_canvas_arrow(c, x - 10.0, over - 5.5, x - 4.0, over - 1.6, 2.0);
    lw_canvas_arrow(c, x - 11.0, over - 2.5, x - 5.0, over + 1.4, 2.0);
    (void)lw_canvas_text(c, x - 12.0, over - 4.0, (lw_type){.size_pt = 11, .align = LW_ALIGN_RIGHT}, "LDR");
}

/* On a board of its own, by four wires. */
static void timer(const scene *s)
{
    static const char *const names[] = {"+", "−", "D", "G"};
    const lw_sheet *sheet = s->sheet;
    const double x = s->x + switch_x + 10.0, top = s->y - 18.0;
    part(s->c, x, top, 24.0, small_high, SAY("timer"));
    for (int i = 0; i < 4; i++) {
        const double at = x + 2.0 + 5.0 * i;
        thin_wire(s->c, at, top + small_high, at, s->y);
        (void)lw_canvas_text(s->c, at + 0.6, s->y - 5.8, (lw_type){.size_pt = 11}, names[i]);
    }
}

/* The switch made by hand stands between the rails and the driver; plus passes, minus is switched. */
static void switched(const scene *s)
{
    const lw_sheet *sheet = s->sheet;
    lw_canvas *c = s->c;
    const double right = s->x + switch_x + switch_wide, column = s->x + column_x;
    const double driver = s->y + 32.0, head = driver + 36.0;
    const double plus = column + lead_minus, minus = column + lead_plus;
    plus_wire(c, right, s->plus, plus, s->plus);
    plus_wire(c, plus, s->plus, plus, head);
    minus_wire(c, right, s->minus, minus, s->minus);
    minus_wire(c, minus, s->minus, minus, head);
    part(c, s->x + switch_x, s->y, switch_wide, box_high, SAY("dusk switch"));
    part(c, column, driver, column_wide, box_high - 4.0, SAY("driver"));
    head_box(s, column, head, column_wide);
    section(s, column_x - 1.0, driver - s->y + 24.0, s->input->build->wiring.head_mm2);
    point(c, plus, head - 8.0, 8);
    sensor(s);
    if (s->timed)
        timer(s);
}

static void points(const scene *s)
{
    lw_canvas *c = s->c;
    point(c, s->x + 35.0, s->y + 12.0, 1);
    point(c, s->x + 35.0, s->plus, 2);
    point(c, s->x + 73.0, s->y + 12.0, 3);
    point(c, s->x + 75.0, s->plus, 4);
    point(c, s->x + 93.0, s->pack - 6.5, 5);
    point(c, s->x + 121.0, s->pack + 10.0, 6);
    point(c, s->x + 64.0, s->fuse + 0.5 * small_high, 7);
    point(c, s->x + minus_x, s->fuse - 5.0, 9);
    if (s->input->kind->circuit.there)
        point(c, s->x + plus_x, s->y + 12.0, 10);
}

void lw_sheet_wiring_picture(lw_sheet *sheet, const lw_sheet_input *input)
{
    const lw_dusk_board *dusk = &input->kind->dusk;
    scene s = {.sheet = sheet, .input = input, .c = sheet->canvas, .x = lw_sheet_left_mm};
    s.guard = input->plan->brief.build.reverse;
    s.hand = dusk->there;
    s.timed = dusk->there && dusk->values.timer_h > 0.0;
    s.by_panel = dusk->there && dusk->values.sensor == LW_SENSE_PANEL;
    const double above = s.timed ? 20.0 : s.hand ? 14.0 : 4.0, guarded = s.guard == LW_REVERSE_NONE ? 0.0 : 10.0;
    const double high = guarded > 0.0 || s.hand ? 94.0 : 84.0;
    lw_sheet_need(sheet, above + high);
    s.y = sheet->y + above;
    s.plus = s.y + 6.0;
    s.minus = s.y + 18.0;
    s.fuse = s.y + 34.0 + guarded;
    s.pack = s.fuse + 24.0;
    rails(&s);
    feeding(&s);
    guard(&s);
    if (s.hand)
        switched(&s);
    else
        driven(&s);
    points(&s);
    const lw_type side = {.size_pt = 11, .width_mm = 58.0};
    const double read = lw_canvas_text(s.c, s.x, s.y + 36.0, side,
                                       SAY("Full lines: plus. Broken lines: minus. Numbers: measuring points of the "
                                           "test sheet."));
    (void)lw_canvas_text(s.c, s.x, s.y + 40.0 + read, side,
                         SAY("Red wire: plus. Black wire: minus. Other colours: tape on both ends."));
    sheet->y += above + high;
}
