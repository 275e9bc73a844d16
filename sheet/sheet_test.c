/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The test sheet: where to measure, how the meter is set, the reading to expect, what to do when it is outside. Bands
 * come from the plan's own parts: label values at 25 to 65 degC (-0.34 % per kelvin, common for crystalline silicon),
 * sun from two thirds to full, pack from empty to full.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

typedef struct test_row {
    const char *where, *meter;
    double low, high;
    const char *unit, *outside;
} test_row;

static void row(lw_sheet *sheet, int number, const test_row *test)
{
    static const lw_sheet_table table = {.columns = 6, .width_mm = {8, 48, 26, 32, 16, 44}};
    char place[16], expected[40];
    (void)snprintf(place, sizeof place, "%d", number);
    /* in what the meter shows as it is set */
    const bool milli = test->meter[0] == 'm';
    const double low = test->low * (milli ? 1000.0 : 1.0), high = test->high * (milli ? 1000.0 : 1.0);
    const int digits = milli ? 0 : high < 1.0 ? 3 : high < 30.0 ? 2 : 1;
    (void)snprintf(expected, sizeof expected, "%.*f–%.*f %s%s", digits, low, digits, high, milli ? "m" : "",
                   test->unit);
    const char *cells[] = {place, test->where, test->meter, expected, "______", test->outside};
    lw_sheet_row(sheet, &table, false, cells);
}

static void head(lw_sheet *sheet)
{
    static const lw_sheet_table table = {.columns = 6, .width_mm = {8, 48, 26, 32, 16, 44}};
    const char *cells[] = {"", SAY("where"), SAY("meter"), SAY("expect"), SAY("read"), SAY("if outside")};
    lw_sheet_row(sheet, &table, true, cells);
}

static void by_day(lw_sheet *sheet, const lw_sheet_input *input, int *n)
{
    const lw_plan *plan = input->plan;
    const lw_plan_kind *kind = input->kind;
    const lw_charge_limits *limits = &input->build->charge.cell;
    const lw_shelf *shelf = &plan->brief.shelf;
    const lw_shelf_panel *panel = &shelf->panel[kind->design.panel];
    const double hot = 1.0 - 0.0034 * 40.0, full = limits->full_v;
    const int s = kind->design.series;
    const test_row rows[] = {
        {SAY("panel alone, in full sun"), "V d.c. 200", panel->voc_v * hot * 0.97, panel->voc_v * 1.02, "V",
         SAY("shade, dirt, a broken cell, wrong panel")},
        {SAY("panel alone, short through the meter"), "A d.c. 10", 0.6 * panel->isc_a * kind->design.panels,
         1.1 * panel->isc_a * kind->design.panels, "A", SAY("dirt, clouds, a bad joint")},
        {SAY("charger output, full pack"), "V d.c. 20", s * full * 0.985, s * limits->full_worst_v, "V",
         SAY("STOP above the higher value: wrong charger")},
        {SAY("into the pack at noon, pack half full"), "A d.c. 10",
         0.35 * lw_design_panel_w(shelf, &kind->design) / (s * full),
         0.95 * lw_design_panel_w(shelf, &kind->design) / (s * 0.85 * full), "A",
         SAY("measure 1 and 2 again, then the wires")},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        row(sheet, ++*n, &rows[i]);
}

/* Into the head: what the board's strings draw; a ballast alone lets them fade with the pack. */
static test_row into_head(lw_sheet *sheet, const lw_sheet_input *input, double low_v, double high_v)
{
    const lw_lamp_build *build = input->build;
    const lw_shelf_driver *driver = &input->plan->brief.shelf.driver[input->kind->design.driver];
    const double watts = input->plan->brief.want.lamp[input->kind->kind].head_w / fmax(driver->efficiency, 0.3);
    double low = 0.85 * watts / high_v, high = 1.15 * watts / low_v;
    const lw_circuit_card *circuit = &input->kind->circuit;
    if (circuit->there) { /* from the full pack at dusk to the empty one */
        low = 0.95 * fmin(circuit->readings.at[LW_LAMP_EMPTY][LW_TP_LAMP_A].low,
                          circuit->readings.at[LW_LAMP_DUSK][LW_TP_LAMP_A].low);
        high = 1.05 * fmax(circuit->readings.at[LW_LAMP_EMPTY][LW_TP_LAMP_A].high,
                           circuit->readings.at[LW_LAMP_DUSK][LW_TP_LAMP_A].high);
    } else if (build->has_head && build->has_wiring) {
        low = (build->head.shares ? 0.85 : 0.3) * build->wiring.head_a;
        high = 1.15 * build->wiring.head_a;
    }
    return (test_row){SAY("into the head, lamp on"), "A d.c. 10", low, high, "A", SAY("a string is open or shorted")};
}

/* Out of the pack with the lamp on, where the whole lamp was solved as a circuit. */
static void out_of_pack(lw_sheet *sheet, const lw_sheet_input *input, int *n)
{
    const lw_lamp_readings *r = &input->kind->circuit.readings;
    const lw_circuit_reading *empty = &r->at[LW_LAMP_EMPTY][LW_TP_PACK_A], *dusk = &r->at[LW_LAMP_DUSK][LW_TP_PACK_A];
    const test_row one = {SAY("out of the pack, lamp on"),      "A d.c. 10", 0.95 * fmin(empty->low, dusk->low),
                          1.05 * fmax(empty->high, dusk->high), "A",         SAY("a string is open or shorted")};
    if (input->kind->circuit.there)
        row(sheet, ++*n, &one);
}

static void by_night(lw_sheet *sheet, const lw_sheet_input *input, int *n)
{
    const lw_plan *plan = input->plan;
    const lw_plan_kind *kind = input->kind;
    const lw_shelf *shelf = &plan->brief.shelf;
    const lw_shelf_cell *cells = &shelf->cell[kind->design.cell];
    const lw_shelf_driver *driver = &shelf->driver[kind->design.driver];
    const bool lfp = cells->voltage_class == LW_SHELF_LFP;
    const int s = kind->design.series;
    const double low = s * (lfp ? 3.0 : 3.3), high = s * (lfp ? 3.4 : 4.15);
    const double hand_a =
        kind->dusk.there ? 2.0 * kind->dusk.values.standby_a : 0.0; /* by day its divider draws more */
    const double own_a = 0.003 + 2.0 * driver->standby_a + hand_a;
    const test_row rows[] = {
        {SAY("pack at its terminals, lamp off"), "V d.c. 20", low, high, "V", SAY("charge it, or a group is weak")},
        {SAY("each group; they differ by less than 0.05 V"), "V d.c. 20", low / s, high / s, "V",
         SAY("the low group holds a weak cell")},
        {SAY("over the fuse, lamp on"), "mV d.c. 200", 0.0, 0.1, "V", SAY("clean the holder")},
        into_head(sheet, input, low, high),
        {SAY("pack's own use by day, panel off"), "mA d.c. 20", 0.0, own_a, "A", SAY("something stays on: find it")},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        row(sheet, ++*n, &rows[i]);
    out_of_pack(sheet, input, n);
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    int n = 0, step = 0;
    lw_sheet_caution(
        sheet,
        SAY("Set the meter before it touches anything. On amperes the meter is a short circuit: never across the "
            "pack. Eyes off bare LEDs."));
    head(sheet);
    by_day(sheet, input, &n);
    by_night(sheet, input, &n);
    lw_sheet_heading(sheet, SAY("The switch"));
    lw_sheet_step(sheet, ++step, SAY("Cover the sensor with a black cloth: the lamp lights within a minute."));
    lw_sheet_step(sheet, ++step, SAY("Take the cloth off by day: the lamp goes out within two minutes."));
    lw_sheet_step(sheet, ++step,
                  SAY("At night shine the lamp's own light on a hand held over the sensor: it does not blink."));
    lw_sheet_step(sheet, ++step,
                  SAY("Pull the panel plug at night: nothing changes. Pull the pack plug: the lamp is dark."));
    lw_sheet_need(sheet, 36.0); /* its lines and the signature stay together */
    lw_sheet_heading(sheet, SAY("After a week outside"));
    lw_sheet_value(sheet, SAY("Volts of the pack at dusk"), "_______ V");
    lw_sheet_value(sheet, SAY("Volts of the pack at dawn"), "_______ V");
    lw_sheet_value(sheet, SAY("Tested by, date"), "____________________");
}

const lw_sheet_kind lw_sheet_test = {
    .name = "test",
    .group = "bench",
    .title = "Test sheet",
    .each_kind = true,
    .draw = draw,
};
