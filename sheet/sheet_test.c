/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The test sheet: where to measure, how the meter is set, the reading to expect, what to do when it is outside. Bands
 * come from the plan's own parts: label values at 25 to 65 degC (-0.34 % per kelvin, common for crystalline silicon),
 * sun from two thirds to full, pack from empty to full.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct test_row {
    const char *where, *meter;
    double low, high;
    const char *unit, *outside;
} test_row;

/* Digits that a meter of 2000 steps shows in its range (common practice): 10 and 20 two, 200 one; a band in thousandths
 * needs none. */
static int digits_of(const char *meter)
{
    const char *range = strrchr(meter, ' ');
    return meter[0] == 'm' ? 0 : range && strtod(range, NULL) < 100.0 ? 2 : 1;
}

/* The range in which a current is read with at least two digits that count. */
static const char *amperes(double high_a)
{
    return high_a < 0.15 ? "mA d.c. 200" : "A d.c. 10";
}

static const char *volts(double high_v)
{
    return high_v < 19.9 ? "V d.c. 20" : "V d.c. 200";
}

static void row(lw_sheet *sheet, int number, const test_row *test)
{
    static const lw_sheet_table table = {.columns = 6, .width_mm = {8, 45, 26, 31, 14, 50}};
    char place[16], expected[40];
    (void)snprintf(place, sizeof place, "%d", number);
    /* in what the meter shows as it is set; a narrow band of amperes keeps what lies in it */
    const bool milli = test->meter[0] == 'm';
    const int digits = digits_of(test->meter);
    const double unit = milli ? 1000.0 : 1.0, step = test->unit[0] == 'A' && !milli ? 0.49 * pow(10.0, -digits) : 0.0;
    const double low = fmax(0.0, test->low * unit - step), high = test->high * unit + step;
    (void)snprintf(expected, sizeof expected, "%.*f–%.*f %s%s", digits, low, digits, high, milli ? "m" : "",
                   test->unit);
    const char *cells[] = {place, test->where, test->meter, expected, "______", test->outside};
    lw_sheet_row(sheet, &table, false, cells);
}

static void head(lw_sheet *sheet)
{
    static const lw_sheet_table table = {.columns = 6, .width_mm = {8, 45, 26, 31, 14, 50}};
    const char *cells[] = {"", SAY("where"), SAY("meter"), SAY("expect"), SAY("read"), SAY("if outside")};
    lw_sheet_row(sheet, &table, true, cells);
}

/* Into the pack in two thirds to full sun, from the charger's own reading at nine tenths of it. */
static test_row into_pack(lw_sheet *sheet, const lw_sheet_input *input)
{
    const lw_plan_kind *kind = input->kind;
    const lw_shelf *shelf = &input->plan->brief.shelf;
    const lw_circuit_card *circuit = &kind->circuit;
    const double isc_a = kind->design.panels * shelf->panel[kind->design.panel].isc_a;
    const double most_a = shelf->charger[kind->design.charger].most_a;
    double low = 0.6 * isc_a, high = 1.1 * isc_a;
    if (circuit->there) {
        const lw_circuit_reading *noon = &circuit->readings.at[LW_LAMP_NOON_CHARGING][LW_TP_CHARGE_A];
        low = noon->low * 0.6 / 0.9;
        high = noon->high / 0.9;
    } else if (shelf->charger[kind->design.charger].kind == LW_SHELF_TRACKING) {
        const double full_v = kind->design.series * input->build->charge.cell.full_v;
        low = 0.35 * lw_design_panel_w(shelf, &kind->design) / full_v;
        high = 0.95 * lw_design_panel_w(shelf, &kind->design) / (0.85 * full_v);
    }
    return (test_row){SAY("into the pack at noon, pack half full"),
                      amperes(fmin(high, 1.1 * most_a)),
                      fmin(low, 0.9 * most_a),
                      fmin(high, 1.1 * most_a),
                      "A",
                      SAY("measure 1 and 2 again, then the wires")};
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
        {SAY("panel alone, in full sun"), volts(panel->voc_v * 1.02), panel->voc_v * hot * 0.97, panel->voc_v * 1.02,
         "V", SAY("shade, dirt, a broken cell, wrong panel")},
        {SAY("panel alone, short through the meter"), "A d.c. 10", 0.6 * panel->isc_a * kind->design.panels,
         1.1 * panel->isc_a * kind->design.panels, "A", SAY("dirt, clouds, a bad joint")},
        {SAY("charger output, full pack"), volts(s * limits->full_worst_v), s * full * 0.985, s * limits->full_worst_v,
         "V", SAY("STOP above the higher value: wrong charger")},
        into_pack(sheet, input),
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
    return (test_row){SAY("into the head, lamp on"), amperes(high), low, high, "A", SAY("a string is open or shorted")};
}

/* Out of the pack with the lamp on, where the whole lamp was solved as a circuit. */
static void out_of_pack(lw_sheet *sheet, const lw_sheet_input *input, int *n)
{
    const lw_lamp_readings *r = &input->kind->circuit.readings;
    const lw_circuit_reading *empty = &r->at[LW_LAMP_EMPTY][LW_TP_PACK_A], *dusk = &r->at[LW_LAMP_DUSK][LW_TP_PACK_A];
    const double low = 0.95 * fmin(empty->low, dusk->low), high = 1.05 * fmax(empty->high, dusk->high);
    const test_row one = {SAY("out of the pack, lamp on"),   amperes(high), low, high, "A",
                          SAY("a string is open or shorted")};
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
        {SAY("pack at its terminals, lamp off"), volts(high), low, high, "V", SAY("charge it, or a group is weak")},
        {SAY("each group; they differ by less than 0.05 V"), volts(high / s), low / s, high / s, "V",
         SAY("the low group holds a weak cell")},
        {SAY("over the fuse, lamp on"), "mV d.c. 200", 0.0, 0.1, "V", SAY("clean the holder")},
        into_head(sheet, input, low, high),
        {SAY("pack's own use by day, panel off"), "mA d.c. 20", 0.0, own_a, "A", SAY("something stays on: find it")},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        row(sheet, ++*n, &rows[i]);
    out_of_pack(sheet, input, n);
}

/* What the nights of the plan do to the pack, from the poorest days to the best. */
static void after_a_week(lw_sheet *sheet, const lw_sheet_input *input, int *n)
{
    const lw_pack_rest *rest = &input->build->rest;
    const test_row rows[] = {
        {SAY("pack at dusk, before the lamp lights"), volts(rest->dusk_high_v), rest->dusk_low_v, rest->dusk_high_v,
         "V", SAY("below: clean the panel; above: STOP, wrong charger")},
        {SAY("pack at dawn, lamp off again"), volts(rest->dusk_high_v), rest->dawn_low_v, rest->dawn_high_v, "V",
         SAY("below after sun: do 6 again; above: the lamp was dark")},
    };
    lw_sheet_need(sheet, sheet->tight ? 46.0 : 58.0); /* its lines and the signature stay together */
    lw_sheet_heading(sheet, SAY("After a week outside"));
    head(sheet);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++)
        row(sheet, ++*n, &rows[i]);
    lw_sheet_gap(sheet, 3.0);
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    int n = 0, step = 0;
    lw_sheet_caution(
        sheet,
        SAY("Set the meter before it touches anything. On amperes the meter is a short circuit: never across the "
            "pack. Eyes off bare LEDs."));
    lw_sheet_load_cautions(sheet, input);
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
    after_a_week(sheet, input, &n);
    lw_sheet_value(sheet, SAY("Tested by, date"), "____________________");
}

const lw_sheet_kind lw_sheet_test = {
    .name = "test",
    .group = "bench",
    .title = "Test sheet",
    .each_kind = true,
    .draw = draw,
};
