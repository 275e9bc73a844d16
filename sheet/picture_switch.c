/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Circuits of the dusk switch by its sensor.
 */
#include "sheet_list.h"

/* A resistor standing between y and y + 14, its name at the right. */
static void resistor(lw_canvas *c, double x, double y, const char *name)
{
    lw_canvas_line(c, x, y, x, y + 3.0);
    lw_canvas_box(c, x - 1.8, y + 3.0, 3.6, 8.0);
    lw_canvas_line(c, x, y + 11.0, x, y + 14.0);
    (void)lw_canvas_text(c, x + 3.0, y + 4.8, (lw_type){.size_pt = 10}, name);
}

/* C1 from the node at (x, y) down to minus, its plus marked. */
static void delay(lw_canvas *c, double x, double y, double ground, lw_align name)
{
    const double plate = ground - 9.0;
    lw_canvas_line(c, x, y, x, plate);
    lw_canvas_line(c, x - 2.5, plate, x + 2.5, plate);
    lw_canvas_line(c, x - 2.5, plate + 1.6, x + 2.5, plate + 1.6);
    lw_canvas_line(c, x, plate + 1.6, x, ground);
    lw_canvas_disc(c, x, y, 0.8, lw_black);
    (void)lw_canvas_text(c, name == LW_ALIGN_RIGHT ? x - 3.2 : x + 3.2, plate - 1.2,
                         (lw_type){.size_pt = 10, .align = name}, "C1");
    (void)lw_canvas_text(
        c, name == LW_ALIGN_RIGHT ? x + 0.9 : x - 0.9, plate - 4.4,
        (lw_type){.size_pt = 10, .bold = true, .align = name == LW_ALIGN_RIGHT ? LW_ALIGN_LEFT : LW_ALIGN_RIGHT}, "+");
}

/* Rg lying in the lead from (x, y) to the gate at end. */
static void gate_lead(lw_canvas *c, double x, double y, double end)
{
    const double box = end - 11.0;
    lw_canvas_line(c, x, y, box, y);
    lw_canvas_box(c, box, y - 1.8, 7.0, 3.6);
    lw_canvas_line(c, box + 7.0, y, end, y);
    (void)lw_canvas_text(c, box + 3.5, y - 6.8, (lw_type){.size_pt = 10, .align = LW_ALIGN_CENTRE}, "Rg");
}

static void comparator(lw_canvas *c, double x, double y)
{
    const lw_point_mm triangle[3] = {{x, y - 9.0}, {x, y + 9.0}, {x + 16.0, y}};
    lw_canvas_polyline(c, triangle, 3, true);
    (void)lw_canvas_text(c, x + 1.5, y - 7.2, (lw_type){.size_pt = 11, .bold = true}, "−");
    (void)lw_canvas_text(c, x + 1.5, y + 2.2, (lw_type){.size_pt = 11, .bold = true}, "+");
}

/* The N-channel transistor below the load, its gate at (x, y). */
static void transistor(lw_canvas *c, double x, double y, double top, double ground)
{
    lw_canvas_line(c, x, y - 4.0, x, y + 4.0);
    lw_canvas_line(c, x + 1.5, y - 4.0, x + 1.5, y + 4.0);
    lw_canvas_line(c, x + 1.5, y - 3.0, x + 8.0, y - 3.0);
    lw_canvas_line(c, x + 8.0, y - 3.0, x + 8.0, top);
    lw_canvas_line(c, x + 1.5, y + 3.0, x + 8.0, y + 3.0);
    lw_canvas_line(c, x + 8.0, y + 3.0, x + 8.0, ground);
}

/* Where the rails lie. */
typedef struct frame {
    double x, top, ground;
} frame;

static frame rails(lw_sheet *sheet)
{
    lw_sheet_need(sheet, 68.0);
    lw_canvas *c = sheet->canvas;
    const frame f = {lw_sheet_left_mm + 22.0, sheet->y + 6.0, sheet->y + 52.0};
    const lw_type sign = {.size_pt = 11, .bold = true, .align = LW_ALIGN_RIGHT};
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_line(c, f.x - 12.0, f.top, f.x + 122.0, f.top);
    lw_canvas_line(c, f.x - 12.0, f.ground, f.x + 122.0, f.ground);
    (void)lw_canvas_text(c, f.x - 14.0, f.top - 2.4, sign, "+");
    (void)lw_canvas_text(c, f.x - 14.0, f.ground - 2.4, sign, "−");
    return f;
}

static void photoresistor(lw_canvas *c, frame f)
{
    resistor(c, f.x, f.top + 4.0, "LDR");
    lw_canvas_line(c, f.x, f.top, f.x, f.top + 4.0);
    lw_canvas_arrow(c, f.x - 15.0, f.top + 3.0, f.x - 4.0, f.top + 9.0, 2.0); /* light falls on it */
    lw_canvas_line(c, f.x, f.top + 18.0, f.x, f.ground - 18.0);
    resistor(c, f.x, f.ground - 18.0, "Rb");
    lw_canvas_line(c, f.x, f.ground - 4.0, f.x, f.ground);
}

/* Panel and bleeder at the left, their plus through Rs to the node; D1 keeps it at the supply by day. */
static void panel(lw_canvas *c, frame f, double node_y)
{
    const double left = f.x - 12.0, high = f.top + 8.0;
    lw_canvas_box(c, left - 4.0, high + 6.0, 8.0, 14.0);
    lw_canvas_line(c, left - 4.0, high + 6.0, left + 4.0, high + 20.0);
    lw_canvas_line(c, left, high + 20.0, left, f.ground);
    lw_canvas_line(c, left, high + 6.0, left, high);
    lw_canvas_line(c, left, high, f.x, high);
    lw_canvas_line(c, f.x, high, f.x, f.ground - 18.0);
    resistor(c, f.x, f.ground - 18.0, "Rb");
    lw_canvas_line(c, f.x, f.ground - 4.0, f.x, f.ground);
    lw_canvas_line(c, f.x, node_y, f.x + 6.0, node_y);
    lw_canvas_box(c, f.x + 6.0, node_y - 1.8, 8.0, 3.6);
    (void)lw_canvas_text(c, f.x + 10.0, node_y + 2.2, (lw_type){.size_pt = 10, .align = LW_ALIGN_CENTRE}, "Rs");
    lw_canvas_line(c, f.x + 14.0, node_y, f.x + 20.0, node_y);
    lw_canvas_line(c, f.x + 20.0, node_y, f.x + 20.0, f.top);
    const lw_point_mm d1[3] = {{f.x + 18.0, f.top + 9.0}, {f.x + 22.0, f.top + 9.0}, {f.x + 20.0, f.top + 5.5}};
    lw_canvas_polyline(c, d1, 3, true);
    lw_canvas_line(c, f.x + 18.0, f.top + 5.5, f.x + 22.0, f.top + 5.5);
    (void)lw_canvas_text(c, f.x + 16.5, f.top + 5.0, (lw_type){.size_pt = 10, .align = LW_ALIGN_RIGHT}, "D1");
    lw_canvas_disc(c, f.x, node_y, 0.8, lw_black);
}

/* The lamp and the transistor that carries its current, gate at (x + 90, middle). */
static void lamp(lw_sheet *sheet, frame f, double gate_y)
{
    lw_canvas *c = sheet->canvas;
    transistor(c, f.x + 90.0, gate_y, f.top + 14.0, f.ground);
    lw_canvas_box(c, f.x + 86.0, f.top + 4.0, 36.0, 10.0);
    lw_canvas_line(c, f.x + 98.0, f.top, f.x + 98.0, f.top + 4.0);
    (void)lw_canvas_text(c, f.x + 104.0, f.top + 6.5,
                         (lw_type){.size_pt = 10, .align = LW_ALIGN_CENTRE, .width_mm = 34.0}, SAY("driver, head"));
}

static void with_comparator(lw_sheet *sheet, bool by_panel)
{
    lw_canvas *c = sheet->canvas;
    const frame f = rails(sheet);
    const double x = f.x, top = f.top, ground = f.ground, middle = top + 23.0;
    if (by_panel)
        panel(c, f, middle - 4.5);
    else
        photoresistor(c, f);
    resistor(c, x + 30.0, top + 4.0, "R1");
    lw_canvas_line(c, x + 30.0, top, x + 30.0, top + 4.0);
    lw_canvas_line(c, x + 30.0, top + 18.0, x + 30.0, ground - 18.0);
    resistor(c, x + 30.0, ground - 18.0, "R2");
    lw_canvas_line(c, x + 30.0, ground - 4.0, x + 30.0, ground);
    /* node to minus, reference to plus of the comparator; R3 from its output back to the reference */
    comparator(c, x + 50.0, middle);
    lw_canvas_line(c, by_panel ? x + 20.0 : x, middle - 4.5, x + 28.5, middle - 4.5);
    lw_canvas_arc(c, x + 30.0, middle - 4.5, 1.5, 180.0, 360.0); /* passes over the reference */
    lw_canvas_line(c, x + 31.5, middle - 4.5, x + 50.0, middle - 4.5);
    lw_canvas_line(c, x + 30.0, middle + 4.5, x + 50.0, middle + 4.5);
    lw_canvas_line(c, x + 66.0, middle, x + 72.0, middle);
    gate_lead(c, x + 72.0, middle, x + 90.0);
    lw_canvas_line(c, x + 87.0, middle, x + 87.0, ground - 14.0);
    resistor(c, x + 87.0, ground - 14.0, "Rd");
    lw_canvas_disc(c, x + 87.0, middle, 0.8, lw_black);
    lw_canvas_line(c, x + 72.0, top, x + 72.0, top + 4.0);
    resistor(c, x + 72.0, top + 4.0, "Rp");
    lw_canvas_line(c, x + 72.0, top + 18.0, x + 72.0, middle);
    delay(c, by_panel ? x + 20.0 : x + 15.0, middle - 4.5, ground, by_panel ? LW_ALIGN_RIGHT : LW_ALIGN_LEFT);
    lw_canvas_line(c, x + 42.0, middle + 4.5, x + 42.0, middle + 14.0);
    lw_canvas_line(c, x + 42.0, middle + 14.0, x + 52.0, middle + 14.0);
    lw_canvas_box(c, x + 52.0, middle + 12.2, 8.0, 3.6);
    lw_canvas_line(c, x + 60.0, middle + 14.0, x + 72.0, middle + 14.0);
    lw_canvas_line(c, x + 72.0, middle + 14.0, x + 72.0, middle);
    (void)lw_canvas_text(c, x + 56.0, middle + 16.0, (lw_type){.size_pt = 10, .align = LW_ALIGN_CENTRE}, "R3");
    lw_canvas_disc(c, x, middle - 4.5, 0.8, lw_black);
    lw_canvas_disc(c, x + 30.0, middle + 4.5, 0.8, lw_black);
    lw_canvas_disc(c, x + 42.0, middle + 4.5, 0.8, lw_black);
    lw_canvas_disc(c, x + 72.0, middle, 0.8, lw_black);
    lamp(sheet, f, middle);
    (void)lw_canvas_text(c, by_panel ? x + 24.0 : x - 5.0, by_panel ? middle - 10.0 : middle - 6.5,
                         (lw_type){.size_pt = 10, .bold = true}, "A");
    (void)lw_canvas_text(c, x + 25.0, middle + 2.5, (lw_type){.size_pt = 10, .bold = true}, "B");
    sheet->y += 58.0;
}

/* A bipolar transistor, base at (x, y) with its lead to the left, collector and emitter ends at x + 6; up: whether the
 * emitter is above. */
static void bipolar(lw_canvas *c, double x, double y, bool up, bool pnp, const char *name)
{
    const double to_emitter = up ? -1.0 : 1.0, e = y + to_emitter * 5.0;
    lw_canvas_line(c, x, y - 3.5, x, y + 3.5);
    lw_canvas_line(c, x, y - to_emitter * 1.5, x + 6.0, y - to_emitter * 5.0);
    if (pnp)
        lw_canvas_arrow(c, x + 6.0, e, x, y + to_emitter * 1.5, 2.0);
    else
        lw_canvas_arrow(c, x, y + to_emitter * 1.5, x + 6.0, e, 2.0);
    (void)lw_canvas_text(c, x + 7.0, y - 2.0, (lw_type){.size_pt = 10}, name);
}

/* Q1 takes the current of R1 by day; in the dark Q2 has it and pulls the base of Q3 down. */
static void with_transistors(lw_sheet *sheet)
{
    lw_canvas *c = sheet->canvas;
    const frame f = rails(sheet);
    const double x = f.x, top = f.top, ground = f.ground, a = top + 27.0;
    photoresistor(c, f);
    lw_canvas_line(c, x, a, x + 22.0, a);
    lw_canvas_disc(c, x, a, 0.8, lw_black);
    bipolar(c, x + 22.0, a, false, false, "Q1");
    const double emitters = a + 5.0;
    lw_canvas_line(c, x + 28.0, a - 5.0, x + 28.0, top + 16.0);
    resistor(c, x + 28.0, top + 2.0, "R1");
    lw_canvas_line(c, x + 28.0, top, x + 28.0, top + 2.0);
    lw_canvas_line(c, x + 28.0, top + 19.0, x + 46.0, top + 19.0);
    lw_canvas_disc(c, x + 28.0, top + 19.0, 0.8, lw_black);
    lw_canvas_line(c, x + 46.0, top + 19.0, x + 46.0, a);
    bipolar(c, x + 46.0, a, false, false, "Q2");
    lw_canvas_line(c, x + 28.0, emitters, x + 52.0, emitters);
    resistor(c, x + 40.0, ground - 14.0, "R2");
    lw_canvas_line(c, x + 40.0, emitters, x + 40.0, ground - 14.0);
    lw_canvas_disc(c, x + 40.0, emitters, 0.8, lw_black);
    /* R3 up to the base of Q3, Re from there to plus */
    lw_canvas_line(c, x + 52.0, a - 5.0, x + 52.0, a - 6.0);
    resistor(c, x + 52.0, a - 20.0, "R3");
    const double third = a - 20.0;
    lw_canvas_line(c, x + 52.0, third, x + 70.0, third);
    lw_canvas_disc(c, x + 62.0, third, 0.8, lw_black);
    lw_canvas_line(c, x + 62.0, third, x + 62.0, top);
    lw_canvas_box(c, x + 60.2, top + 1.2, 3.6, 4.4);
    (void)lw_canvas_text(c, x + 58.5, top + 1.0, (lw_type){.size_pt = 10, .align = LW_ALIGN_RIGHT}, "Re");
    bipolar(c, x + 70.0, third, true, true, "Q3");
    lw_canvas_line(c, x + 76.0, third - 5.0, x + 76.0, top);
    lw_canvas_line(c, x + 76.0, third + 5.0, x + 76.0, a);
    gate_lead(c, x + 76.0, a, x + 90.0);
    delay(c, x + 13.0, a, ground, LW_ALIGN_LEFT);
    resistor(c, x + 76.0, ground - 14.0, "Rd");
    lw_canvas_line(c, x + 76.0, a, x + 76.0, ground - 14.0);
    lw_canvas_disc(c, x + 76.0, a, 0.8, lw_black);
    lamp(sheet, f, a);
    (void)lw_canvas_text(c, x + 100.0, a - 2.0, (lw_type){.size_pt = 10}, "Q4");
    (void)lw_canvas_text(c, x - 5.0, a - 2.0, (lw_type){.size_pt = 10, .bold = true}, "A");
    (void)lw_canvas_text(c, x + 34.5, emitters + 1.0, (lw_type){.size_pt = 10, .bold = true}, "B");
    sheet->y += 58.0;
}

void lw_sheet_switch_circuit(lw_sheet *sheet, lw_switch_sensor sensor)
{
    if (sensor == LW_SENSE_TRANSISTORS)
        with_transistors(sheet);
    else
        with_comparator(sheet, sensor == LW_SENSE_PANEL);
}
