/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lamp as a netlist. Ground is the minus of the bus: the pack's minus lies behind the protection board.
 */
#include "lamp_nodes.h"
#include "lanewick/units.h"

#include <math.h>
#include <string.h>

/* One diode from the label at 60 degC: slope 1.2 a cell, open voltage 0.3 %/K lower; series resistance so that the
 * working point of the label lies on the curve at 25 degC. */
static void add_panel(lw_netlist *net, const lw_lamp_build *b, const lw_lamp_situation *now)
{
    const lw_lamp_circuit *l = &b->lamp;
    const double slope25_v = l->panel.cells * 1.2 * lw_lamp_thermal_v * 298.15 / 300.15;
    const double hot = 333.15 / 300.15, ideality = l->panel.cells * 1.2 * hot;
    const double saturation = l->panel.isc_a * exp(-l->panel.voc_v * 0.895 / (ideality * lw_lamp_thermal_v));
    const double at25 = l->panel.isc_a * exp(-l->panel.voc_v / slope25_v);
    const double curve_v = slope25_v * log((l->panel.isc_a - l->panel.imp_a) / at25 + 1.0);
    const double series = fmax(0.0, (curve_v - l->panel.vmp_v) / l->panel.imp_a);
    const double light_a = now->lux / 1e5 * l->panel.isc_a * b->light_factor;
    lw_netlist_add(net, (lw_element){.kind = LW_CURRENT, .a = GROUND, .b = CELL, .value = light_a});
    lw_lamp_diode(net, CELL, GROUND, saturation, ideality);
    lw_lamp_resistor(net, "shunt", CELL, GROUND, l->panel.shunt_ohm);
    lw_lamp_resistor(net, "panel", CELL, PANEL, series);
    if (l->panel.blocking_diode)
        lw_lamp_diode(net, PANEL, BEYOND, 1e-6, 1.1);
    else
        lw_lamp_resistor(net, "no diode", PANEL, BEYOND, 1e-4);
    if (now->torn) {
        lw_lamp_resistor(net, "open", BEYOND, GROUND, 1e8);
        lw_lamp_resistor(net, "wires touch", INPUT, GROUND, 0.05);
    } else {
        lw_lamp_resistor(net, "panel wire", BEYOND, INPUT, b->wire_factor * lw_lamp_wire_ohm(&l->panel_wire));
    }
}

static void add_charger(lw_netlist *net, const lw_lamp_build *b)
{
    const lw_lamp_circuit *l = &b->lamp;
    const lw_charge_limits limits = lw_lamp_limits(l, 0.0);
    const double hot_vmp_v = l->panel.vmp_v - 0.003 * 35.0 * l->panel.voc_v;
    lw_netlist_add(net,
                   (lw_element){.kind = LW_CHARGER,
                                .name = "charger",
                                .a = INPUT,
                                .b = BUS,
                                .value = l->charger.limit_a,
                                .charger = {.full_v = limits.full_v * l->pack.series * b->full_factor,
                                            .regulation_ohm = 0.02 * l->pack.series,
                                            .start_v = l->charger.switching ? 0.95 * hot_vmp_v : l->charger.dropout_v,
                                            .input_ohm = 0.05 * l->panel.vmp_v / l->panel.imp_a,
                                            .efficiency = l->charger.switching ? l->charger.efficiency : 0.0,
                                            .dropout_v = l->charger.dropout_v}});
    lw_lamp_resistor(net, "charger leak", INPUT, GROUND, 1e6);
}

static void add_pack(lw_netlist *net, const lw_lamp_build *b, const lw_lamp_situation *now)
{
    const lw_lamp_circuit *l = &b->lamp;
    const double emf = (now->cell_v + b->cell_v) * l->pack.series;
    const bool transistor = l->protection.reverse == LW_REVERSE_TRANSISTOR;
    const double guard = !transistor ? 0.0 : now->reversed ? 1e7 : 0.03;
    lw_netlist_add(net, (lw_element){.kind = LW_VOLTAGE, .a = EMF, .b = MINUS, .value = now->reversed ? -emf : emf});
    lw_lamp_resistor(net, "pack", EMF, TERM, l->pack.series * l->pack.cell_ohm / l->pack.parallel);
    lw_lamp_resistor(net, "board", MINUS, GROUND, l->protection.board_ohm);
    lw_lamp_resistor(net, "fuse", TERM, FUSED, 0.08 / l->protection.fuse_a + guard);
    lw_lamp_resistor(net, "pack wire", FUSED, BUS, b->wire_factor * lw_lamp_wire_ohm(&l->pack_wire));
    if (l->protection.reverse == LW_REVERSE_DIODE)
        lw_lamp_diode(net, GROUND, BUS, 1e-9, 1.2);
    lw_lamp_resistor(net, "body", BUS, BODY, 2.0);
    lw_lamp_diode(net, GROUND, BODY, 1e-13, 1.0);
}

/* `alike` equal strings of LEDs as one: exponential part and series part of the straight line around led_a. */
static void add_strings(lw_netlist *net, const lw_lamp_circuit *l, double vf_v, int alike, int at, int led)
{
    const double n = l->head.leds, amps = l->head.led_a;
    const double ideality = fmin(2.5, fmax(1.0, 0.7 * l->head.slope_ohm * amps / lw_lamp_thermal_v));
    const double series = fmax(0.0, l->head.slope_ohm - ideality * lw_lamp_thermal_v / amps);
    const double saturation = amps * exp(-(vf_v - amps * series) / (ideality * lw_lamp_thermal_v));
    lw_lamp_resistor(net, at == FIRST ? "first string" : "rest", HEAD_PLUS, at, l->head.ballast_ohm / alike);
    lw_lamp_diode(net, at, led, alike * saturation, n * ideality);
    lw_lamp_resistor(net, "led", led, HEAD_MINUS, n * series / alike);
}

/* The switch and what it feeds, seen from the other side: the driver's minus is ground here, the transistor stands in
 * its plus. */
static void add_driver(lw_netlist *net, const lw_lamp_circuit *l, const lw_lamp_situation *now)
{
    const bool converts = l->head.driver != LW_HEAD_LINEAR;
    const double dropout[] = {[LW_HEAD_LINEAR] = 0.3, [LW_HEAD_BUCK] = 0.3, [LW_HEAD_BOOST] = -100.0};
    const double string_v = l->head.leds * l->head.vf_v + l->head.ballast_ohm * l->head.led_a;
    lw_netlist_add(net, (lw_element){.kind = LW_CHARGER,
                                     .name = "driver",
                                     .a = DRAIN,
                                     .b = FED,
                                     .value = l->head.strings * l->head.led_a,
                                     .charger = {.full_v = 1.3 * string_v,
                                                 .regulation_ohm = 0.5,
                                                 .start_v = converts ? l->head.driver_start_v : 0.3,
                                                 .input_ohm = 0.5,
                                                 .efficiency = converts ? l->head.driver_efficiency : 0.0,
                                                 .dropout_v = dropout[l->head.driver]}});
    lw_lamp_resistor(net, "driver leak", FED, GROUND, 1e6);
    lw_lamp_resistor(net, "driver input", DRAIN, GROUND, now->shorted ? 0.005 : 1e6);
}

static void add_head(lw_netlist *net, const lw_lamp_build *b, const lw_lamp_situation *now)
{
    const lw_lamp_circuit *l = &b->lamp;
    const double half = 0.5 * b->wire_factor * lw_lamp_wire_ohm(&l->head_wire);
    const bool driven = l->head.driver != LW_HEAD_DIRECT;
    lw_lamp_resistor(net, "head wire", driven ? FED : BUS, HEAD_PLUS, half);
    lw_lamp_resistor(net, "head wire back", HEAD_MINUS, driven ? GROUND : DRAIN, half);
    if (driven)
        add_driver(net, l, now);
    else
        lw_lamp_resistor(net, "none", FED, GROUND, 1e6);
    add_strings(net, l, l->head.vf_v, 1, FIRST, FIRST_LED);
    if (l->head.strings > 1) {
        add_strings(net, l, b->rest_vf_v, l->head.strings - 1, REST, REST_LED);
    } else {
        lw_lamp_resistor(net, "none", REST, GROUND, 1e6);
        lw_lamp_resistor(net, "none", REST_LED, GROUND, 1e6);
    }
    if (now->shorted && !driven)
        lw_lamp_resistor(net, "short", HEAD_PLUS, HEAD_MINUS, 0.005);
}

static void guess(const lw_lamp_build *b, const lw_lamp_situation *now, double start[LW_LAMP_NODES])
{
    const double bus = (now->reversed ? -1.0 : 1.0) * now->cell_v * b->lamp.pack.series;
    memset(start, 0, LW_LAMP_NODES * sizeof *start);
    start[EMF] = start[TERM] = start[FUSED] = start[BUS] = start[BODY] = bus;
    lw_lamp_guess_switch(b, now, bus, start);
    if (now->lux > 100.0 && !now->torn)
        start[CELL] = start[PANEL] = start[BEYOND] = start[INPUT] = 0.8 * b->lamp.panel.vmp_v;
    if (b->lamp.head.driver != LW_HEAD_DIRECT) {
        const double string_v = b->lamp.head.leds * b->lamp.head.vf_v;
        start[DRAIN] = now->was_on && !now->shorted ? bus : 0.0;
        start[FED] = start[HEAD_PLUS] = start[FIRST] = start[REST] = now->was_on && !now->shorted ? string_v : 0.0;
        return;
    }
    start[HEAD_PLUS] = start[FIRST] = start[REST] = bus;
    start[HEAD_MINUS] = start[DRAIN] = now->was_on ? 0.0 : bus;
}

lw_lamp_build lw_lamp_nominal(const lw_lamp_circuit *lamp)
{
    return (lw_lamp_build){
        .lamp = *lamp, .rest_vf_v = lamp->head.vf_v, .wire_factor = 1.0, .full_factor = 1.0, .light_factor = 1.0};
}

static bool build_netlist(const lw_lamp_build *build, lw_lamp_condition condition, lw_arena *arena, lw_netlist *net,
                          double start[LW_LAMP_NODES], lw_error *err)
{
    const lw_lamp_situation now = lw_lamp_situation_of(&build->lamp, condition);
    if (!lw_netlist_begin(net, LW_LAMP_ELEMENTS, arena, err))
        return false;
    for (int i = 1; i < NODES; i++)
        (void)lw_netlist_node(net);
    add_panel(net, build, &now);
    add_charger(net, build);
    add_pack(net, build, &now);
    lw_lamp_add_switch(net, build, &now);
    add_head(net, build, &now);
    guess(build, &now, start);
    return true;
}

static double current_of(const lw_netlist *net, const lw_solution *s, const char *name)
{
    for (size_t i = 0; i < net->count; i++)
        if (net->elements[i].name && strcmp(net->elements[i].name, name) == 0)
            return s->element_a[i];
    return 0.0;
}

bool lw_lamp_build_solve(const lw_lamp_build *build, lw_lamp_condition condition, lw_arena *arena,
                         double near[LW_LAMP_NODES], double points[LW_TEST_POINTS], lw_error *err)
{
    lw_netlist net;
    lw_solution s;
    double start[LW_LAMP_NODES];
    const size_t used = arena->used;
    if (!build_netlist(build, condition, arena, &net, start, err) ||
        !lw_netlist_solve(&net, near[BUS] != 0.0 ? near : start, arena, &s, err))
        return false;
    const double *v = s.node_v;
    if (near[BUS] == 0.0)
        memcpy(near, v, NODES * sizeof *near);
    points[LW_TP_PANEL_V] = v[PANEL];
    points[LW_TP_PANEL_A] = current_of(&net, &s, "panel");
    points[LW_TP_CHARGER_V] = v[INPUT];
    points[LW_TP_CHARGE_A] = current_of(&net, &s, "charger");
    points[LW_TP_PACK_V] = v[TERM] - v[MINUS];
    points[LW_TP_PACK_A] = current_of(&net, &s, "pack");
    points[LW_TP_BUS_V] = v[BUS];
    points[LW_TP_NODE_V] = v[NODE];
    points[LW_TP_REFERENCE_V] = v[REFERENCE];
    points[LW_TP_GATE_V] = v[OUTPUT];
    points[LW_TP_SWITCH_V] = build->lamp.head.driver == LW_HEAD_DIRECT ? v[DRAIN] : v[BUS] - v[DRAIN];
    points[LW_TP_HEAD_V] = v[HEAD_PLUS] - v[HEAD_MINUS];
    points[LW_TP_LAMP_A] = current_of(&net, &s, "head wire");
    points[LW_TP_STRING_A] = current_of(&net, &s, "first string");
    arena->used = used;
    return true;
}

bool lw_lamp_netlist(const lw_lamp_circuit *lamp, lw_lamp_condition condition, lw_arena *arena, lw_netlist *net,
                     double start[LW_LAMP_NODES], lw_error *err)
{
    const lw_lamp_build build = lw_lamp_nominal(lamp);
    return lw_lamp_circuit_check(lamp, err) && build_netlist(&build, condition, arena, net, start, err);
}
