/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The dusk switch made by hand: circuit, parts with their values, at how many lux it switches and how much that
 * spreads.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

/* 15k, 2.2k, 470 */
static const char *ohm_text(char *out, size_t size, double ohm)
{
    if (ohm >= 1e6)
        return lw_sheet_format(out, size, "%.3g MΩ", ohm / 1e6);
    return ohm >= 1e3 ? lw_sheet_format(out, size, "%.3g kΩ", ohm / 1e3) : lw_sheet_format(out, size, "%.3g Ω", ohm);
}

static const char *lux_text(char *out, size_t size, const lw_dusk_spread *spread)
{
    const char *form = spread->p95 < 20.0 ? "%.1f lx (%.1f–%.1f)" : "%.0f lx (%.0f–%.0f)";
    return lw_sheet_format(out, size, form, spread->nominal, spread->p05, spread->p95);
}

/* A resistor standing between y and y + 14, its name at the right. */
static void resistor(lw_canvas *c, double x, double y, const char *name)
{
    lw_canvas_line(c, x, y, x, y + 3.0);
    lw_canvas_box(c, x - 1.8, y + 3.0, 3.6, 8.0);
    lw_canvas_line(c, x, y + 11.0, x, y + 14.0);
    (void)lw_canvas_text(c, x + 3.0, y + 4.8, (lw_type){.size_pt = 10}, name);
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

static void picture(lw_sheet *sheet)
{
    lw_sheet_need(sheet, 68.0);
    lw_canvas *c = sheet->canvas;
    const double x = lw_sheet_left_mm + 22.0, top = sheet->y + 6.0, ground = top + 46.0, middle = top + 23.0;
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_line(c, x - 12.0, top, x + 122.0, top);
    lw_canvas_line(c, x - 12.0, ground, x + 122.0, ground);
    (void)lw_canvas_text(c, x - 14.0, top - 2.4, (lw_type){.size_pt = 11, .bold = true, .align = LW_ALIGN_RIGHT}, "+");
    (void)lw_canvas_text(c, x - 14.0, ground - 2.4, (lw_type){.size_pt = 11, .bold = true, .align = LW_ALIGN_RIGHT},
                         "−");
    resistor(c, x, top + 4.0, "LDR");
    lw_canvas_line(c, x, top, x, top + 4.0);
    lw_canvas_arrow(c, x - 15.0, top + 3.0, x - 4.0, top + 9.0, 2.0); /* light falls on it */
    lw_canvas_line(c, x, top + 18.0, x, ground - 18.0);
    resistor(c, x, ground - 18.0, "Rb");
    lw_canvas_line(c, x, ground - 4.0, x, ground);
    resistor(c, x + 30.0, top + 4.0, "R1");
    lw_canvas_line(c, x + 30.0, top, x + 30.0, top + 4.0);
    lw_canvas_line(c, x + 30.0, top + 18.0, x + 30.0, ground - 18.0);
    resistor(c, x + 30.0, ground - 18.0, "R2");
    lw_canvas_line(c, x + 30.0, ground - 4.0, x + 30.0, ground);
    /* node to minus, reference to plus of the comparator; R3 from its output back to the reference */
    comparator(c, x + 50.0, middle);
    lw_canvas_line(c, x, middle - 4.5, x + 28.5, middle - 4.5);
    lw_canvas_arc(c, x + 30.0, middle - 4.5, 1.5, 180.0, 360.0); /* passes over the reference */
    lw_canvas_line(c, x + 31.5, middle - 4.5, x + 50.0, middle - 4.5);
    lw_canvas_line(c, x + 30.0, middle + 4.5, x + 50.0, middle + 4.5);
    lw_canvas_line(c, x + 66.0, middle, x + 90.0, middle);
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
    transistor(c, x + 90.0, middle, top + 14.0, ground);
    lw_canvas_box(c, x + 86.0, top + 4.0, 36.0, 10.0);
    lw_canvas_line(c, x + 98.0, top, x + 98.0, top + 4.0);
    (void)lw_canvas_text(c, x + 104.0, top + 6.5, (lw_type){.size_pt = 10, .align = LW_ALIGN_CENTRE, .width_mm = 34.0},
                         SAY("driver, head"));
    (void)lw_canvas_text(c, x - 5.0, middle - 6.5, (lw_type){.size_pt = 10, .bold = true}, "A");
    (void)lw_canvas_text(c, x + 25.0, middle + 2.5, (lw_type){.size_pt = 10, .bold = true}, "B");
    sheet->y += 58.0;
}

static void parts(lw_sheet *sheet, const lw_switch_parts *at_hand, const lw_dusk_board *dusk)
{
    static const lw_sheet_table table = {.columns = 3, .width_mm = {20, 118, 36}};
    char rb[24], r1[24], r2[24], r12[52], r3[24], ldr[160], low[24], high[24], middle[24];
    char one[80], several[80], apart[120];
    const double pct = 100.0 * at_hand->resistors.tolerance;
    const char *head[] = {"", SAY("part"), SAY("value")};
    const bool equal = dusk->values.r1_ohm == dusk->values.r2_ohm;
    (void)snprintf(r12, sizeof r12, equal ? "%s" : "%s, %s", ohm_text(r1, sizeof r1, dusk->values.r1_ohm),
                   ohm_text(r2, sizeof r2, dusk->values.r2_ohm));
    (void)lw_sheet_format(ldr, sizeof ldr, SAY("photoresistor, %s to %s at 10 lux, behind clear plastic, looking up"),
                          ohm_text(low, sizeof low, at_hand->r10_low_ohm),
                          ohm_text(high, sizeof high, at_hand->r10_high_ohm));
    const char *const rows[][3] = {
        {"LDR", ldr, ohm_text(middle, sizeof middle, sqrt(at_hand->r10_low_ohm * at_hand->r10_high_ohm))},
        {"Rb", lw_sheet_format(one, sizeof one, SAY("resistor, %.3g %%"), pct),
         ohm_text(rb, sizeof rb, dusk->values.resistor_ohm)},
        {"R1, R2", lw_sheet_format(several, sizeof several, SAY("resistors, %.3g %%"), pct), r12},
        {"R3", lw_sheet_format(apart, sizeof apart, SAY("resistor, %.3g %%: keeps on and off apart"), pct),
         ohm_text(r3, sizeof r3, dusk->values.r3_ohm)},
        {"U1", SAY("comparator that works from an empty pack and takes less than 1 mA"), ""},
        {"Q1", SAY("N-channel transistor that is fully on at the empty pack's volts"), ""},
        {"Rp", SAY("resistor, only for a comparator with open output"), "10 kΩ"},
        {"Rg", SAY("resistor before the transistor's gate"), "100 Ω"},
        {"Rd", SAY("resistor that keeps the lamp off when the comparator is dead"), "470 kΩ"},
    };
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        lw_sheet_row(sheet, &table, false, rows[i]);
}

/* Timer and lower level: their values, and what those parts do. */
static void timed(lw_sheet *sheet, const lw_switch_values *v)
{
    static const lw_sheet_table table = {.columns = 3, .width_mm = {24, 104, 46}};
    const char *head[] = {"", SAY("part"), SAY("value")};
    char chip[160], ohm[24], other[24], timer[48], level[64];
    (void)lw_sheet_format(chip, sizeof chip, SAY("counter chip with oscillator; its output %d ends the full light"),
                          v->timer_stages);
    (void)lw_sheet_format(timer, sizeof timer, "%s, %g µF", ohm_text(ohm, sizeof ohm, v->timer_ohm), v->timer_uf);
    (void)lw_sheet_format(level, sizeof level, "%s, %s, %g nF", ohm_text(ohm, sizeof ohm, v->dim_on_ohm),
                          ohm_text(other, sizeof other, v->dim_off_ohm), v->dim_nf);
    const char *const rows[][3] = {
        {"U2", chip, ""},
        {"Rt, Ct", SAY("resistor and film capacitor that set its time"), timer},
        {"U3", SAY("CMOS timer chip that gives the lower level"), ""},
        {"Rh, Rl, Cl", SAY("resistors for its light and its dark part, its capacitor"), level},
    };
    const size_t count = v->dim_hz > 0.0 ? sizeof rows / sizeof rows[0] : 2;
    lw_sheet_need(sheet, 48.0);
    lw_sheet_heading(sheet, SAY("Timer, on a second board that has no drawing here"));
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < count; i++)
        lw_sheet_row(sheet, &table, false, rows[i]);
    lw_sheet_value(
        sheet, SAY("Full light lasts (worst case)"),
        lw_sheet_format(chip, sizeof chip, "%.1f h (%.1f–%.1f)", v->timer_h, v->timer_low_h, v->timer_high_h));
    if (v->dim_hz > 0.0)
        lw_sheet_value(sheet, SAY("Then the lower level (worst case)"),
                       lw_sheet_format(chip, sizeof chip, "%.0f %% (%.0f–%.0f), %.0f Hz", 100.0 * v->level,
                                       100.0 * v->level_low, 100.0 * v->level_high, v->dim_hz));
}

/* The plain dusk switch; timers go on a second board that has no layout yet. */
static void on_strips(lw_sheet *sheet, int *n)
{
    lw_sheet_need(sheet, 80.0); /* heading and picture stay together */
    lw_sheet_heading(sheet, SAY("On strip board, true size and larger"));
    lw_sheet_strip_board(sheet, &lw_strip_dusk);
    lw_sheet_step(
        sheet, ++*n,
        SAY("Seen from the side of the parts; the copper strips run below from left to right. Cut them at the "
            "crosses."));
    lw_sheet_step(sheet, ++*n,
                  SAY("Thick lines without a name are wires: solder them first, then the parts by name. U1: notch "
                      "upwards. Q1: gate lowest. Left + and −: pack; right: lamp."));
    lw_sheet_step(sheet, ++*n, SAY("Before power: the meter finds no neighbouring strips joined."));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_dusk_board *dusk = &input->build->dusk;
    char text[200];
    int n = 0;
    lw_sheet_text(sheet,
                  SAY("Only when the driver has no dusk switch of its own. The photoresistor sees the sky; when it "
                      "is dark, point A falls below point B and the transistor turns the lamp on."));
    picture(sheet);
    parts(sheet, &input->plan->brief.shelf.switch_parts, dusk);
    lw_sheet_gap(sheet, 3.0);
    lw_sheet_value(sheet, SAY("Goes on below (nine of ten)"), lux_text(text, sizeof text, &dusk->on));
    lw_sheet_value(sheet, SAY("Goes off above (nine of ten)"), lux_text(text, sizeof text, &dusk->off));
    if (dusk->there) {
        lw_sheet_value(sheet, SAY("Its own use in a month"),
                       lw_sheet_format(text, sizeof text, "%.2g Wh", dusk->standby_wh_month));
        if (dusk->values.timer_h > 0.0)
            timed(sheet, &dusk->values);
        on_strips(sheet, &n);
    }
    lw_sheet_heading(sheet, SAY("Check it"));
    lw_sheet_step(sheet, ++n,
                  lw_sheet_format(text, sizeof text,
                                  SAY("Pack at %.1f V, lamp off: B reads %.2f V. Lamp on: B reads %.2f V."),
                                  dusk->pack_v, dusk->on_v, dusk->off_v));
    lw_sheet_step(sheet, ++n, SAY("Shade the photoresistor slowly: the lamp goes on once and does not flicker."));
    lw_sheet_step(sheet, ++n,
                  SAY("Too early or too late: a larger Rb switches later in the evening, a smaller one earlier."));
    lw_sheet_step(sheet, ++n, SAY("The photoresistor must not see the head: put it on top, in a short black tube."));
    lw_sheet_caution(sheet, SAY("A photoresistor contains cadmium: do not burn it, collect it."));
}

static bool wanted(const lw_sheet_input *input)
{
    return input->build->has_dusk;
}

const lw_sheet_kind lw_sheet_dusk = {
    .name = "dusk",
    .group = "bench",
    .title = "Dusk switch",
    .each_kind = true,
    .wanted = wanted,
    .draw = draw,
};
