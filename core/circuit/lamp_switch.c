/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The switch of a lamp's netlist, by its sensor: see lamp_nodes.h.
 */
#include "lamp_nodes.h"

#include "lanewick/dusk.h"
#include "lanewick/panel_switch.h"
#include "lanewick/trigger.h"

#include <math.h>

static const double gate_ohm = 470e3;

void lw_lamp_resistor(lw_netlist *net, const char *name, int a, int b, double ohm)
{
    lw_netlist_add(net, (lw_element){.kind = LW_RESISTANCE, .name = name, .a = a, .b = b, .value = fmax(ohm, 1e-6)});
}

void lw_lamp_diode(lw_netlist *net, int a, int b, double saturation_a, double ideality)
{
    lw_netlist_add(net, (lw_element){.kind = LW_DIODE, .a = a, .b = b, .value = saturation_a, .ideality = ideality});
}

static void add_photoresistor(lw_netlist *net, const lw_lamp_circuit *l, double lux)
{
    const double ohm = fmin(2e7, fmax(50.0, lw_ldr_ohm(l->dusk.r10_ohm, l->dusk.gamma, lux)));
    lw_lamp_resistor(net, "photoresistor", BUS, NODE, ohm);
    lw_lamp_resistor(net, "divider", NODE, GROUND, l->dusk.resistor_ohm);
}

static void add_comparator(lw_netlist *net, const lw_lamp_circuit *l)
{
    const double supply_v = 3.7 * l->pack.series;
    lw_lamp_resistor(net, "r1", BUS, REFERENCE, l->dusk.r1_ohm);
    lw_lamp_resistor(net, "r2", REFERENCE, GROUND, l->dusk.r2_ohm);
    lw_lamp_resistor(net, "r3", REFERENCE, OUTPUT, l->dusk.r3_ohm);
    lw_lamp_resistor(net, "comparator supply", BUS, GROUND, supply_v / (l->dusk.supply_ma / 1000.0));
    lw_netlist_add(
        net, (lw_element){.kind = LW_COMPARATOR, .a = OUTPUT, .b = BUS, .c = REFERENCE, .d = NODE, .value = 500.0});
}

/* The bleeder lies on the panel's side of the blocking diode; a small diode keeps the input at the supply by day. */
static void add_panel_sensor(lw_netlist *net, const lw_lamp_circuit *l)
{
    lw_lamp_resistor(net, "bleeder", PANEL, GROUND, l->dusk.resistor_ohm);
    lw_lamp_resistor(net, "sensor", PANEL, NODE, lw_panel_input_ohm);
    lw_lamp_diode(net, NODE, BUS, 1e-12, 1.5);
    add_comparator(net, l);
}

static void add_trigger(lw_netlist *net, const lw_lamp_circuit *l)
{
    const double thermal25_v = lw_lamp_thermal_v * 298.15 / 300.15;
    const double saturation = 1e-4 * exp(-l->dusk.vbe_v / thermal25_v);
    lw_element first = {.kind = LW_TRANSISTOR, .value = saturation, .gain = l->dusk.gain, .early_v = 100.0};
    lw_element second = first, third = first;
    first.a = FIRST_COLLECTOR, first.b = REFERENCE, first.c = NODE;
    second.a = SECOND_COLLECTOR, second.b = REFERENCE, second.c = FIRST_COLLECTOR;
    third.a = OUTPUT, third.b = BUS, third.c = THIRD_BASE, third.pnp = true;
    lw_netlist_add(net, first);
    lw_netlist_add(net, second);
    lw_netlist_add(net, third);
    lw_lamp_resistor(net, "r1", BUS, FIRST_COLLECTOR, l->dusk.r1_ohm);
    lw_lamp_resistor(net, "r2", REFERENCE, GROUND, l->dusk.r2_ohm);
    lw_lamp_resistor(net, "r3", SECOND_COLLECTOR, THIRD_BASE, l->dusk.r3_ohm);
    lw_lamp_resistor(net, "base", BUS, THIRD_BASE, gate_ohm);
    lw_lamp_resistor(net, "gate", OUTPUT, GROUND, gate_ohm);
}

void lw_lamp_add_switch(lw_netlist *net, const lw_lamp_build *b, const lw_lamp_situation *now)
{
    const lw_lamp_circuit *l = &b->lamp;
    const bool direct = l->head.driver == LW_HEAD_DIRECT;
    if (l->dusk.sensor != LW_SENSE_PANEL)
        add_photoresistor(net, l, now->lux);
    if (l->dusk.sensor == LW_SENSE_TRANSISTORS)
        add_trigger(net, l);
    else if (l->dusk.sensor == LW_SENSE_PANEL)
        add_panel_sensor(net, l);
    else
        add_comparator(net, l);
    for (int spare = FIRST_COLLECTOR; spare <= THIRD_BASE && l->dusk.sensor != LW_SENSE_TRANSISTORS; spare++)
        lw_lamp_resistor(net, "none", spare, GROUND, 1e6);
    lw_netlist_add(net, (lw_element){.kind = LW_CONTROLLED,
                                     .a = DRAIN,
                                     .b = direct ? GROUND : BUS,
                                     .c = OUTPUT,
                                     .value = l->dusk.fet_ohm,
                                     .off_ohm = 1e7,
                                     .threshold_v = 0.6 * l->dusk.fet_gate_v});
    if (direct)
        lw_lamp_diode(net, GROUND, DRAIN, 1e-12, 1.0);
    else
        lw_lamp_diode(net, DRAIN, BUS, 1e-12, 1.0);
}

void lw_lamp_guess_switch(const lw_lamp_build *b, const lw_lamp_situation *now, double bus_v,
                          double start[LW_LAMP_NODES])
{
    double low, high;
    lw_comparator_levels(b->lamp.dusk.r1_ohm, b->lamp.dusk.r2_ohm, b->lamp.dusk.r3_ohm, &low, &high);
    start[OUTPUT] = now->was_on ? bus_v : 0.0;
    start[NODE] = now->lux > 100.0 ? bus_v : 0.0;
    start[REFERENCE] = bus_v * (now->was_on ? high : low);
    if (b->lamp.dusk.sensor != LW_SENSE_TRANSISTORS)
        return;
    /* dark: Q2 and Q3 conduct; bright: Q1 holds them off */
    start[REFERENCE] = fmax(0.0, now->was_on ? 0.4 * bus_v : 0.9 * bus_v);
    start[FIRST_COLLECTOR] = start[REFERENCE] + (now->was_on ? 0.6 : 0.05);
    start[SECOND_COLLECTOR] = now->was_on ? start[REFERENCE] + 0.05 : bus_v;
    start[THIRD_BASE] = now->was_on ? bus_v - 0.6 : bus_v;
}

double lw_lamp_switch_lux(const lw_lamp_circuit *l)
{
    const double supply_v = l->pack.series * (lw_lamp_limits(l, 0.0).full_v - 0.12);
    const lw_dusk_divider divider = {l->dusk.r10_ohm, l->dusk.gamma, l->dusk.resistor_ohm, false};
    double low, high;
    if (l->dusk.sensor == LW_SENSE_TRANSISTORS) {
        const lw_trigger trigger = {.r10_ohm = l->dusk.r10_ohm,
                                    .gamma = l->dusk.gamma,
                                    .resistor_ohm = l->dusk.resistor_ohm,
                                    .r1_ohm = l->dusk.r1_ohm,
                                    .r2_ohm = l->dusk.r2_ohm,
                                    .r3_ohm = l->dusk.r3_ohm,
                                    .vbe_v = l->dusk.vbe_v,
                                    .gain = l->dusk.gain,
                                    .celsius = 27.0,
                                    .supply_v = supply_v};
        lw_trigger_levels levels;
        return lw_trigger_at(&trigger, &levels, NULL) ? levels.lux_on : 0.1;
    }
    lw_comparator_levels(l->dusk.r1_ohm, l->dusk.r2_ohm, l->dusk.r3_ohm, &low, &high);
    if (l->dusk.sensor == LW_SENSE_PANEL)
        return 1e5 * low * supply_v * (1.0 / l->dusk.resistor_ohm + 1.0 / l->panel.shunt_ohm) / l->panel.isc_a;
    return lw_dusk_lux(&divider, low);
}
