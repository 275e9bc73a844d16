/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Document of a lamp's circuit and its readings: see lanewick/circuit_json.h.
 */
#include "lanewick/circuit_json.h"

#include "doc.h"
#include "json_help.h"
#include "plan_json.h"

/* The finer checks stand in lw_lamp_circuit_check. */
static void whole(lw_doc *doc, const char *key, int low, int high, int *value)
{
    *value = lw_doc_integer_or(doc, key, low, high, (lw_doc_or){*value, "", NULL});
}

static void read_panel(lw_doc *lamp, lw_lamp_circuit *out)
{
    lw_doc doc = lw_doc_part(lamp, "panel", false);
    whole(&doc, "cells", 1, 144, &out->panel.cells);
    lw_doc_set(&doc, "voc_v", 0.4, 60.0, "V", &out->panel.voc_v);
    lw_doc_set(&doc, "isc_a", 0.01, 20.0, "A", &out->panel.isc_a);
    lw_doc_set(&doc, "vmp_v", 0.3, 60.0, "V", &out->panel.vmp_v);
    lw_doc_set(&doc, "imp_a", 0.005, 20.0, "A", &out->panel.imp_a);
    lw_doc_set(&doc, "shunt_ohm", 10.0, 1e7, "ohm", &out->panel.shunt_ohm);
    out->panel.blocking_diode = lw_doc_flag_or(&doc, "blocking_diode", out->panel.blocking_diode, NULL);
    (void)lw_doc_done(&doc);
}

static void read_charger(lw_doc *lamp, lw_lamp_circuit *out)
{
    lw_doc doc = lw_doc_part(lamp, "charger", false);
    out->charger.switching = lw_doc_choice(&doc, "kind", "linear|switching", out->charger.switching, NULL) == 1;
    lw_doc_set(&doc, "limit_a", 0.01, 30.0, "A", &out->charger.limit_a);
    lw_doc_set(&doc, "dropout_v", 0.02, 3.0, "V", &out->charger.dropout_v);
    lw_doc_set(&doc, "efficiency", 0.5, 0.99, "", &out->charger.efficiency);
    lw_doc_set(&doc, "tolerance_pct", 0.0, 5.0, "%", &out->charger.tolerance_pct);
    lw_doc_set(&doc, "end_v_per_cell", 0.0, 5.0, "V", &out->charger.end_v);
    out->charger.long_life = lw_doc_flag_or(&doc, "long_life", out->charger.long_life, NULL);
    (void)lw_doc_done(&doc);
}

static void read_pack(lw_doc *lamp, lw_lamp_circuit *out)
{
    lw_doc doc = lw_doc_part(lamp, "pack", false);
    out->pack.voltage_class = (lw_charge_class)lw_doc_choice(&doc, "voltage_class", LW_CHARGE_CLASS_WORDS,
                                                             (int)out->pack.voltage_class, NULL);
    whole(&doc, "series", 1, 14, &out->pack.series);
    whole(&doc, "parallel", 1, 200, &out->pack.parallel);
    lw_doc_set(&doc, "cell_ohm", 0.002, 2.0, "ohm", &out->pack.cell_ohm);
    lw_doc_set(&doc, "empty_v_per_cell", 0.0, 4.0, "V", &out->pack.empty_v);
    (void)lw_doc_done(&doc);
}

static void read_protection(lw_doc *lamp, lw_lamp_circuit *out)
{
    lw_doc doc = lw_doc_part(lamp, "protection", false);
    lw_doc_set(&doc, "board_ohm", 0.001, 2.0, "ohm", &out->protection.board_ohm);
    lw_doc_set(&doc, "trip_a", 0.0, 200.0, "A", &out->protection.trip_a);
    lw_doc_set(&doc, "fuse_a", 0.0, 40.0, "A", &out->protection.fuse_a);
    out->protection.fuse_kind =
        (lw_fuse_kind)lw_doc_choice(&doc, "fuse_kind", LW_FUSE_KIND_WORDS, (int)out->protection.fuse_kind, NULL);
    out->protection.reverse =
        (lw_reverse_guard)lw_doc_choice(&doc, "reverse_guard", LW_REVERSE_WORDS, (int)out->protection.reverse, NULL);
    (void)lw_doc_done(&doc);
}

static void read_switch(lw_doc *lamp, lw_lamp_circuit *out)
{
    lw_doc doc = lw_doc_part(lamp, "switch", false);
    lw_doc_set(&doc, "r10_ohm", 100.0, 1e7, "ohm", &out->dusk.r10_ohm);
    lw_doc_set(&doc, "gamma", 0.2, 1.5, "", &out->dusk.gamma);
    lw_doc_set(&doc, "resistor_ohm", 100.0, 1e8, "ohm", &out->dusk.resistor_ohm);
    lw_doc_set(&doc, "r1_ohm", 100.0, 1e8, "ohm", &out->dusk.r1_ohm);
    lw_doc_set(&doc, "r2_ohm", 100.0, 1e8, "ohm", &out->dusk.r2_ohm);
    lw_doc_set(&doc, "r3_ohm", 100.0, 1e8, "ohm", &out->dusk.r3_ohm);
    lw_doc_set(&doc, "supply_ma", 0.0005, 50.0, "mA", &out->dusk.supply_ma);
    lw_doc_set(&doc, "transistor_ohm", 0.0005, 10.0, "ohm", &out->dusk.fet_ohm);
    lw_doc_set(&doc, "gate_v", 1.0, 10.0, "V", &out->dusk.fet_gate_v);
    out->dusk.sensor = (lw_switch_sensor)lw_doc_choice(&doc, "sensor", LW_SENSE_WORDS, (int)out->dusk.sensor, NULL);
    lw_doc_set(&doc, "vbe_v", 0.45, 0.75, "V", &out->dusk.vbe_v);
    lw_doc_set(&doc, "current_gain", 30.0, 1000.0, "", &out->dusk.gain);
    (void)lw_doc_done(&doc);
}

static void read_head(lw_doc *lamp, lw_lamp_circuit *out)
{
    lw_doc doc = lw_doc_part(lamp, "head", false);
    whole(&doc, "strings", 1, 200, &out->head.strings);
    whole(&doc, "leds_in_series", 1, 20, &out->head.leds);
    lw_doc_set(&doc, "vf_v", 1.5, 4.5, "V", &out->head.vf_v);
    lw_doc_set(&doc, "led_a", 0.0005, 3.0, "A", &out->head.led_a);
    lw_doc_set(&doc, "led_max_a", 0.0005, 10.0, "A", &out->head.led_max_a);
    lw_doc_set(&doc, "slope_ohm", 0.01, 200.0, "ohm", &out->head.slope_ohm);
    lw_doc_set(&doc, "ballast_ohm", 0.01, 1e5, "ohm", &out->head.ballast_ohm);
    out->head.driver = (lw_head_driver)lw_doc_choice(&doc, "driver", LW_HEAD_DRIVER_WORDS, (int)out->head.driver, NULL);
    lw_doc_set(&doc, "driver_efficiency", 0.3, 0.99, "", &out->head.driver_efficiency);
    lw_doc_set(&doc, "driver_start_v", 0.5, 60.0, "V", &out->head.driver_start_v);
    (void)lw_doc_done(&doc);
}

static void read_wire(lw_doc *lamp, const char *key, lw_lamp_wire *out)
{
    lw_doc doc = lw_doc_part(lamp, key, false);
    lw_doc_set(&doc, "length_m", 0.01, 200.0, "m", &out->length_m);
    lw_doc_set(&doc, "area_mm2", 0.05, 50.0, "mm2", &out->area_mm2);
    (void)lw_doc_done(&doc);
}

bool lw_lamp_circuit_from_json(const char *text, size_t length, lw_lamp_circuit *out, lw_error *err)
{
    lw_doc_file file;
    if (!lw_doc_file_open(&file, text, length, "lanewick.circuit/1", err))
        return false;
    *out = lw_lamp_circuit_default();
    read_panel(&file.doc, out);
    read_charger(&file.doc, out);
    read_pack(&file.doc, out);
    read_protection(&file.doc, out);
    read_switch(&file.doc, out);
    read_head(&file.doc, out);
    read_wire(&file.doc, "panel_wire", &out->panel_wire);
    read_wire(&file.doc, "pack_wire", &out->pack_wire);
    read_wire(&file.doc, "head_wire", &out->head_wire);
    return lw_doc_file_close(&file) && lw_lamp_circuit_check(out, err);
}

bool lw_test_point_there(lw_test_point point, bool own_switch)
{
    return !own_switch ||
           (point != LW_TP_NODE_V && point != LW_TP_REFERENCE_V && point != LW_TP_GATE_V && point != LW_TP_SWITCH_V);
}

static json_t *condition(const lw_lamp_readings *readings, lw_lamp_condition c, bool own_switch)
{
    json_t *points = json_object();
    for (int p = 0; p < LW_TEST_POINTS; p++) {
        const lw_circuit_reading *r = &readings->at[c][p];
        if (!lw_test_point_there((lw_test_point)p, own_switch))
            continue;
        json_t *one = json_object();
        json_object_set_new(one, "expected", lw_json_number(r->expected));
        json_object_set_new(one, "low", lw_json_number(r->low));
        json_object_set_new(one, "high", lw_json_number(r->high));
        json_object_set_new(points, lw_test_point_name((lw_test_point)p), one);
    }
    json_t *object = json_object();
    json_object_set_new(object, "text", json_string(lw_lamp_condition_text(c)));
    json_object_set_new(object, "points", points);
    return object;
}

json_t *lw_lamp_readings_json(const lw_lamp_readings *readings, bool own_switch)
{
    json_t *conditions = json_object(), *findings = json_array();
    for (int c = 0; c < LW_LAMP_CONDITIONS; c++)
        json_object_set_new(conditions, lw_lamp_condition_name((lw_lamp_condition)c),
                            condition(readings, (lw_lamp_condition)c, own_switch));
    for (size_t i = 0; i < readings->finding_count; i++) {
        const lw_lamp_finding *f = &readings->findings[i];
        json_array_append_new(findings, json_pack("{s:s,s:s,s:s}", "level", lw_finding_level_text(f->level),
                                                  "condition", lw_lamp_condition_name(f->condition), "text", f->text));
    }
    return json_pack("{s:o,s:o,s:b}", "conditions", conditions, "findings", findings, "refused",
                     lw_lamp_refusal(readings) != NULL);
}

char *lw_lamp_readings_to_json(const lw_lamp_readings *readings)
{
    return lw_json_line(lw_lamp_readings_json(readings, false));
}
