/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a brief says of a switch made by hand: its parts on the shelf, where its sensor sits.
 */
#include "brief_read.h"

#include <math.h>

/* Two numbers, the lower first; missing: as they are. */
static void read_band(lw_doc *doc, const char *key, double least, double most, const char *unit, double *low,
                      double *high)
{
    double both[2];
    if (!lw_doc_has(doc, key) || !lw_doc_numbers(doc, key, least, most, unit, both, 2))
        return;
    *low = both[0];
    *high = both[1];
    if (both[0] > both[1])
        lw_doc_fail(doc, key, "is %g to %g; the lower number stands first.", both[0], both[1]);
}

static void read_resistors(lw_doc *doc, lw_resistors *out)
{
    out->series = (lw_eseries)lw_doc_choice(doc, "series", LW_ESERIES_WORDS, (int)out->series, NULL);
    const double usual_pct = 100.0 * lw_eseries_tolerance(out->series);
    out->tolerance = lw_doc_number_or(doc, "tolerance_pct", 0.0, 20.0,
                                      (lw_doc_or){out->series == LW_E12 ? 5.0 : usual_pct, "%", NULL}) /
                     100.0;
    if (!lw_doc_has(doc, "values_ohm"))
        return;
    const json_t *values = lw_doc_list(doc, "values_ohm", 3, LW_RESISTOR_VALUES);
    out->count = json_array_size(values);
    if (values)
        (void)lw_doc_numbers(doc, "values_ohm", 1.0, 1e8, "ohm", out->value_ohm, out->count);
}

void lw_brief_read_switch_parts(lw_doc *shelf, lw_shelf *out)
{
    lw_doc doc = lw_doc_part(shelf, "switch_parts", false);
    lw_switch_parts *parts = &out->switch_parts;
    *parts = lw_switch_parts_default();
    read_resistors(&doc, &parts->resistors);
    read_band(&doc, "r10_ohm", 100.0, 1e7, "ohm", &parts->r10_low_ohm, &parts->r10_high_ohm);
    read_band(&doc, "gamma", 0.2, 1.5, "", &parts->gamma_low, &parts->gamma_high);
    parts->supply_a = lw_doc_number_or(&doc, "comparator_ma", 0.0005, 50.0, (lw_doc_or){0.6, "mA", NULL}) / 1000.0;
    parts->offset_v = lw_doc_number_or(&doc, "offset_mv", 0.0, 100.0, (lw_doc_or){5.0, "mV", NULL}) / 1000.0;
    parts->headroom_v = lw_doc_number_or(&doc, "input_below_supply_v", 0.0, 3.0, (lw_doc_or){1.5, "V", NULL});
    read_band(&doc, "vbe_v", 0.45, 0.75, "V", &parts->vbe_low_v, &parts->vbe_high_v);
    read_band(&doc, "current_gain", 30.0, 1000.0, "", &parts->gain_low, &parts->gain_high);
    read_band(&doc, "panel_shunt_ohm", 100.0, 1e7, "ohm", &parts->shunt_low_ohm, &parts->shunt_high_ohm);
    parts->leak_a = lw_doc_number_or(&doc, "leak_ua", 0.0, 1000.0, (lw_doc_or){20.0, "uA", NULL}) * 1e-6;
    out->switch_price_minor = lw_doc_has(&doc, "price") ? lw_brief_read_price(&doc, &out->currency) : 0;
    (void)lw_doc_done(&doc);
}

void lw_brief_read_sensor(lw_doc *build, lw_build *out)
{
    lw_doc doc = lw_doc_part(build, "sensor", false);
    out->sensor.distance_m = lw_doc_number_or(&doc, "distance_m", 0.02, 20.0, (lw_doc_or){NAN, "m", NULL});
    out->sensor.angle_deg = lw_doc_number_or(&doc, "angle_deg", 0.0, 180.0, (lw_doc_or){NAN, "degrees", NULL});
    out->sensor.incidence_deg = lw_doc_number_or(&doc, "incidence_deg", 0.0, 180.0, (lw_doc_or){NAN, "degrees", NULL});
    out->sensor.tube_factor = lw_doc_number_or(&doc, "tube_factor", 0.0, 1.0, (lw_doc_or){NAN, "", NULL});
    (void)lw_doc_done(&doc);
}

/* A photoresistor sits in a tube and looks past the head; a panel has no tube and its back to the head. */
static void end_sensor(lw_build *build, bool panel)
{
    if (isnan(build->sensor.distance_m))
        build->sensor.distance_m = 0.4;
    if (isnan(build->sensor.angle_deg))
        build->sensor.angle_deg = 150.0;
    if (isnan(build->sensor.incidence_deg))
        build->sensor.incidence_deg = panel ? 120.0 : 85.0;
    if (isnan(build->sensor.tube_factor))
        build->sensor.tube_factor = panel ? 1.0 : 0.1;
}

/* Only what the brief left out: told is the sensor as it was read. */
static void assume_sensor(const lw_build *told, const lw_build *used, bool panel, lw_assumptions *assumed)
{
    const char *why = panel ? "the panel above the head, its back to it, unless told otherwise"
                            : "on top of the head, in a black tube, unless told otherwise";
    if (isnan(told->sensor.distance_m))
        lw_assume(assumed, "build.sensor.distance_m", why, "%.2g m", used->sensor.distance_m);
    if (isnan(told->sensor.angle_deg))
        lw_assume(assumed, "build.sensor.angle_deg", why, "%.0f degrees", used->sensor.angle_deg);
    if (isnan(told->sensor.incidence_deg))
        lw_assume(assumed, "build.sensor.incidence_deg", why, "%.0f degrees", used->sensor.incidence_deg);
    if (isnan(told->sensor.tube_factor))
        lw_assume(assumed, "build.sensor.tube_factor", why, "%.2g", used->sensor.tube_factor);
}

static void assume_parts(const lw_brief *out, lw_assumptions *assumed)
{
    const lw_switch_parts *parts = &out->shelf.switch_parts, usual = lw_switch_parts_default();
    const bool panel = out->want.switch_sensor == LW_SENSE_PANEL;
    if (!panel && parts->r10_low_ohm == usual.r10_low_ohm && parts->r10_high_ohm == usual.r10_high_ohm)
        lw_assume(assumed, "shelf.switch_parts.r10_ohm", "band of a common photoresistor at 10 lx", "%.0f to %.0f ohm",
                  usual.r10_low_ohm, usual.r10_high_ohm);
    if (out->want.switch_sensor == LW_SENSE_TRANSISTORS)
        lw_assume(assumed, "shelf.switch_parts.vbe_v", "small silicon transistors at 0.1 mA, 25 degC; -2 mV/K",
                  "%.2g to %.2g V", parts->vbe_low_v, parts->vbe_high_v);
    else if (parts->supply_a == usual.supply_a)
        lw_assume(assumed, "shelf.switch_parts.comparator_ma", "a common bipolar comparator", "%.2g mA",
                  1e3 * usual.supply_a);
    if (panel)
        lw_assume(assumed, "shelf.switch_parts.panel_shunt_ohm",
                  "own leak of an old panel in the dark; as sensor it works from 30 lx up", "%.0f to %.0f ohm",
                  parts->shunt_low_ohm, parts->shunt_high_ohm);
}

/* What no one looks at without such a switch costs nothing and is not told as assumed. */
void lw_brief_end_switch(lw_doc *brief, lw_brief *out)
{
    lw_shelf *shelf = &out->shelf;
    const lw_build told = out->build;
    const bool panel = out->want.hand_switch && out->want.switch_sensor == LW_SENSE_PANEL;
    end_sensor(&out->build, panel);
    if (brief->root->failed)
        return;
    if (!out->want.hand_switch) {
        shelf->switch_price_minor = 0;
        return;
    }
    if (shelf->switch_price_minor == 0)
        lw_assume(brief->root->assumed, "shelf.switch_parts", "no price given for the parts of the dusk switch",
                  "price not counted");
    assume_parts(out, brief->root->assumed);
    assume_sensor(&told, &out->build, panel, brief->root->assumed);
    lw_error why = {0};
    if (!lw_brief_switch_check(out, &why) && brief->root->err) {
        *brief->root->err = why;
        brief->root->failed = true;
    }
}
