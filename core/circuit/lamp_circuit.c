/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A lamp's parts, its named conditions and the names of its test points.
 */
#include "lamp_inside.h"
#include "lanewick/wire.h"

#include <math.h>
#include <string.h>

lw_lamp_circuit lw_lamp_circuit_default(void)
{
    return (lw_lamp_circuit){
        .panel = {36, 21.6, 0.63, 17.5, 0.57, 3000.0, true},
        .charger = {true, 2.0, 0.3, 0.90, 1.0, false, 0.0},
        .pack = {LW_CHARGE_4V2, 3, 2, 0.06, 0.0},
        .protection = {0.05, 6.0, 3.15, LW_FUSE_BLADE, LW_REVERSE_NONE},
        .dusk = {15000.0, 0.6, 22000.0, 100e3, 100e3, 220e3, 0.6, 0.03, 4.5, LW_SENSE_COMPARATOR, 0.60, 220.0},
        .head = {6, 3, 2.85, 0.05, 2.0, 47.0, 0.12, LW_HEAD_DIRECT, 0.88, 3.0},
        .panel_wire = {4.0, 1.0},
        .pack_wire = {0.3, 1.0},
        .head_wire = {2.0, 0.75},
    };
}

static bool check_panel(const lw_lamp_circuit *l, lw_error *err)
{
    if (!lw_in_range(err, "panel.cells", l->panel.cells, 1, 144, "") ||
        !lw_in_range(err, "panel.voc_v", l->panel.voc_v, 0.4, 60, "V") ||
        !lw_in_range(err, "panel.isc_a", l->panel.isc_a, 0.01, 20, "A") ||
        !lw_in_range(err, "panel.vmp_v", l->panel.vmp_v, 0.3, 0.95 * l->panel.voc_v, "V") ||
        !lw_in_range(err, "panel.imp_a", l->panel.imp_a, 0.005, 0.99 * l->panel.isc_a, "A") ||
        !lw_in_range(err, "panel.shunt_ohm", l->panel.shunt_ohm, 10, 1e7, "ohm"))
        return false;
    const double per_cell = l->panel.voc_v / l->panel.cells;
    return (per_cell > 0.4 && per_cell < 0.85) ||
           lw_fail(err, LW_WRONG_INPUT, "panel.cells",
                   "panel.cells is %d, which makes %.3g V open a cell; a silicon cell has 0.5 to 0.75 V.",
                   l->panel.cells, per_cell);
}

lw_charge_limits lw_lamp_limits(const lw_lamp_circuit *lamp, double tolerance)
{
    lw_charge_limits limits = lw_charge_limits_for(lamp->pack.voltage_class, lamp->charger.long_life, tolerance);
    if (lamp->charger.end_v > 0.0) {
        limits.recharge_v += lamp->charger.end_v - limits.full_v;
        limits.full_v = lamp->charger.end_v;
        limits.full_worst_v = lamp->charger.end_v * (1.0 + tolerance);
    }
    if (lamp->pack.empty_v > 0.0)
        lw_charge_limits_end_at(&limits, lamp->pack.empty_v);
    return limits;
}

static bool check_charging(const lw_lamp_circuit *l, lw_error *err)
{
    const lw_charge_limits limits = lw_lamp_limits(l, l->charger.tolerance_pct / 100.0);
    if (!lw_in_range(err, "charger.limit_a", l->charger.limit_a, 0.01, 30, "A") ||
        !lw_in_range(err, "charger.dropout_v", l->charger.dropout_v, 0.02, 3, "V") ||
        !lw_in_range(err, "charger.efficiency", l->charger.efficiency, 0.5, 0.99, "") ||
        !lw_in_range(err, "charger.end_v", l->charger.end_v, 0.0, 5.0, "V") ||
        !lw_in_range(err, "charger.tolerance_pct", l->charger.tolerance_pct, 0, 5, "%") ||
        !lw_in_range(err, "pack.series", l->pack.series, 1, 14, "") ||
        !lw_in_range(err, "pack.parallel", l->pack.parallel, 1, 200, "") ||
        !lw_in_range(err, "pack.cell_ohm", l->pack.cell_ohm, 0.002, 2, "ohm") ||
        !lw_in_range(err, "pack.empty_v", l->pack.empty_v, 0.0, limits.full_v - 0.1, "V") ||
        !lw_charge_limits_check(&limits, err))
        return false;
    if (l->pack.series * limits.full_worst_v > LW_ELV_LIMIT_V)
        return lw_fail(err, LW_REFUSED, "pack.series", "%d groups pass the %g V of extra-low voltage.", l->pack.series,
                       LW_ELV_LIMIT_V);
    return true;
}

static bool check_protection(const lw_lamp_circuit *l, lw_error *err)
{
    if (l->protection.fuse_a == 0.0)
        return lw_fail(err, LW_REFUSED, "protection.fuse_a", "A lithium pack without a fuse is refused.");
    if (l->protection.trip_a == 0.0)
        return lw_fail(err, LW_REFUSED, "protection.trip_a", "A lithium pack without a protection board is refused.");
    return lw_in_range(err, "protection.fuse_a", l->protection.fuse_a, 0.03, 40, "A") &&
           lw_in_range(err, "protection.trip_a", l->protection.trip_a, 0.1, 200, "A") &&
           lw_in_range(err, "protection.board_ohm", l->protection.board_ohm, 0.001, 2, "ohm");
}

static bool check_switch(const lw_lamp_circuit *l, lw_error *err)
{
    return lw_in_range(err, "dusk.r10_ohm", l->dusk.r10_ohm, 100, 1e7, "ohm") &&
           lw_in_range(err, "dusk.gamma", l->dusk.gamma, 0.2, 1.5, "") &&
           lw_in_range(err, "dusk.resistor_ohm", l->dusk.resistor_ohm, 100, 1e8, "ohm") &&
           lw_in_range(err, "dusk.r1_ohm", l->dusk.r1_ohm, 100, 1e8, "ohm") &&
           lw_in_range(err, "dusk.r2_ohm", l->dusk.r2_ohm, 100, 1e8, "ohm") &&
           lw_in_range(err, "dusk.r3_ohm", l->dusk.r3_ohm, 100, 1e8, "ohm") &&
           lw_in_range(err, "dusk.supply_ma", l->dusk.supply_ma, 0.0005, 50, "mA") &&
           lw_in_range(err, "dusk.fet_ohm", l->dusk.fet_ohm, 0.0005, 10, "ohm") &&
           lw_in_range(err, "dusk.fet_gate_v", l->dusk.fet_gate_v, 1.0, 10, "V") &&
           lw_in_range(err, "dusk.vbe_v", l->dusk.vbe_v, 0.45, 0.75, "V") &&
           lw_in_range(err, "dusk.gain", l->dusk.gain, 30, 1000, "");
}

static bool check_wire(const lw_lamp_wire *wire, const char *field, lw_error *err)
{
    return lw_in_range(err, field, wire->length_m, 0.01, 200, "m long") &&
           lw_in_range(err, field, wire->area_mm2, 0.05, 50, "mm2");
}

static bool check_driver(const lw_lamp_circuit *l, lw_error *err)
{
    const double string_v = l->head.leds * l->head.vf_v;
    /* a driver may go on below the class's cut-off, with less light */
    const double class_v = lw_charge_limits_for(l->pack.voltage_class, false, 0.0).empty_v;
    const double empty_v = l->pack.series * fmax(class_v, l->pack.empty_v);
    if (!lw_in_range(err, "head.driver_efficiency", l->head.driver_efficiency, 0.3, 0.99, "") ||
        !lw_in_range(err, "head.driver_start_v", l->head.driver_start_v, 0.5, 60.0, "V"))
        return false;
    if (l->head.driver == LW_HEAD_BOOST && string_v < l->pack.series * lw_lamp_limits(l, 0.0).full_v)
        return lw_fail(
            err, LW_WRONG_INPUT, "head.driver",
            "A boost driver cannot feed strings of %.3g V: the full pack alone would light them without limit.",
            string_v);
    return l->head.driver != LW_HEAD_BUCK || string_v < empty_v ||
           lw_fail(err, LW_WRONG_INPUT, "head.driver", "A buck driver cannot feed strings of %.3g V from %.3g V.",
                   string_v, empty_v);
}

bool lw_lamp_circuit_check(const lw_lamp_circuit *l, lw_error *err)
{
    return check_panel(l, err) && check_charging(l, err) && check_protection(l, err) && check_switch(l, err) &&
           lw_in_range(err, "head.strings", l->head.strings, 1, 200, "") &&
           lw_in_range(err, "head.leds", l->head.leds, 1, 20, "") &&
           lw_in_range(err, "head.vf_v", l->head.vf_v, 1.5, 4.5, "V") &&
           lw_in_range(err, "head.led_a", l->head.led_a, 0.0005, 3, "A") &&
           lw_in_range(err, "head.slope_ohm", l->head.slope_ohm, 0.01, 200, "ohm") &&
           lw_in_range(err, "head.ballast_ohm", l->head.ballast_ohm, 0.01, 1e5, "ohm") &&
           lw_in_range(err, "head.led_max_a", l->head.led_max_a, l->head.led_a, 10, "A") && check_driver(l, err) &&
           check_wire(&l->panel_wire, "panel_wire", err) && check_wire(&l->pack_wire, "pack_wire", err) &&
           check_wire(&l->head_wire, "head_wire", err);
}

double lw_lamp_wire_ohm(const lw_lamp_wire *wire)
{
    return 2.0 * wire->length_m / 1000.0 * lw_wire_ohm_per_km(wire->area_mm2, 5, LW_COPPER) *
           lw_wire_temperature_factor(LW_COPPER, 40.0);
}

static const struct {
    const char *name, *text;
} conditions[LW_LAMP_CONDITIONS] = {
    [LW_LAMP_NOON_FULL] = {"noon_full", "noon, pack full"},
    [LW_LAMP_NOON_CHARGING] = {"noon_charging", "noon, pack half full"},
    [LW_LAMP_DUSK] = {"dusk", "just after switch-on"},
    [LW_LAMP_MIDNIGHT] = {"midnight", "midnight, pack half full"},
    [LW_LAMP_EMPTY] = {"empty", "before dawn, pack empty"},
    [LW_LAMP_PANEL_OFF] = {"panel_off", "panel torn off by day, its wires touch"},
    [LW_LAMP_SHORTED] = {"shorted", "head (or its driver's input) shorted by night, nothing has acted yet"},
    [LW_LAMP_REVERSED] = {"reversed", "pack connected the wrong way round"},
};

static const struct {
    const char *name, *text;
} points[LW_TEST_POINTS] = {
    [LW_TP_PANEL_V] = {"panel_v", "panel terminals"},
    [LW_TP_PANEL_A] = {"panel_a", "current out of the panel"},
    [LW_TP_CHARGER_V] = {"charger_v", "charger input"},
    [LW_TP_CHARGE_A] = {"charge_a", "current out of the charger"},
    [LW_TP_PACK_V] = {"pack_v", "pack terminals"},
    [LW_TP_PACK_A] = {"pack_a", "current out of the pack"},
    [LW_TP_BUS_V] = {"bus_v", "behind fuse and wire"},
    [LW_TP_NODE_V] = {"node_v", "middle of the photoresistor divider"},
    [LW_TP_REFERENCE_V] = {"reference_v", "comparator reference"},
    [LW_TP_GATE_V] = {"gate_v", "comparator output, gate of the switch"},
    [LW_TP_SWITCH_V] = {"switch_v", "over the switching transistor"},
    [LW_TP_HEAD_V] = {"head_v", "over the head's terminals"},
    [LW_TP_LAMP_A] = {"lamp_a", "current into the head"},
    [LW_TP_STRING_A] = {"string_a", "current in the first string"},
};

const char *lw_lamp_condition_name(lw_lamp_condition condition)
{
    return conditions[condition].name;
}

const char *lw_lamp_condition_text(lw_lamp_condition condition)
{
    return conditions[condition].text;
}

const char *lw_test_point_name(lw_test_point point)
{
    return points[point].name;
}

const char *lw_test_point_text(lw_test_point point, lw_switch_sensor sensor)
{
    static const char *const of_transistors[] = {"middle of the photoresistor divider", "both emitters",
                                                 "collector of Q3, gate of the switch"};
    static const char *const of_panel[] = {"comparator input from the panel", "comparator reference",
                                           "comparator output, gate of the switch"};
    const bool own = point >= LW_TP_NODE_V && point <= LW_TP_GATE_V;
    if (own && sensor == LW_SENSE_TRANSISTORS)
        return of_transistors[point - LW_TP_NODE_V];
    if (own && sensor == LW_SENSE_PANEL)
        return of_panel[point - LW_TP_NODE_V];
    return points[point].text;
}

const char *lw_test_point_unit(lw_test_point point)
{
    const char *name = points[point].name;
    return name[strlen(name) - 1] == 'a' ? "A" : "V";
}

lw_lamp_situation lw_lamp_situation_of(const lw_lamp_circuit *lamp, lw_lamp_condition condition)
{
    const lw_charge_limits limits = lw_lamp_limits(lamp, 0.0);
    const double middle_v = lamp->pack.voltage_class == LW_CHARGE_LFP ? 3.28 : 3.70, noon_lx = 90000.0;
    /* dark enough that the lamp is on, also where it is wished on late in the dusk */
    const double night_lx = fmin(0.05, 0.3 * lw_lamp_switch_lux(lamp));
    switch (condition) {
    case LW_LAMP_NOON_FULL:
        return (lw_lamp_situation){.lux = noon_lx, .cell_v = limits.full_v - 0.01};
    case LW_LAMP_NOON_CHARGING:
        return (lw_lamp_situation){.lux = noon_lx, .cell_v = middle_v};
    case LW_LAMP_DUSK:
        return (lw_lamp_situation){
            .lux = 0.6 * lw_lamp_switch_lux(lamp), .cell_v = limits.full_v - 0.12, .was_on = true};
    case LW_LAMP_EMPTY:
        return (lw_lamp_situation){.lux = night_lx, .cell_v = limits.empty_v, .was_on = true};
    case LW_LAMP_PANEL_OFF:
        return (lw_lamp_situation){.lux = noon_lx, .cell_v = middle_v, .torn = true};
    case LW_LAMP_SHORTED:
        return (lw_lamp_situation){.lux = night_lx, .cell_v = limits.full_v - 0.12, .was_on = true, .shorted = true};
    case LW_LAMP_REVERSED:
        return (lw_lamp_situation){.lux = night_lx, .cell_v = middle_v, .reversed = true};
    case LW_LAMP_MIDNIGHT:
    case LW_LAMP_CONDITIONS:
        break;
    }
    return (lw_lamp_situation){.lux = night_lx, .cell_v = middle_v, .was_on = true};
}
