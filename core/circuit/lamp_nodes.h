/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Nodes of a lamp's netlist. Ground is the minus of the bus: the pack's minus lies behind the protection board.
 */
#ifndef LANEWICK_LAMP_NODES_H
#define LANEWICK_LAMP_NODES_H

#include "lamp_inside.h"

enum {
    GROUND,
    CELL,   /* inside the panel */
    PANEL,  /* its terminals */
    BEYOND, /* behind the blocking diode */
    INPUT,  /* charger input */
    MINUS,  /* minus of the pack */
    EMF,    /* inside the pack */
    TERM,   /* plus of the pack */
    FUSED,  /* behind fuse and reverse guard */
    BUS,
    BODY, /* inside the integrated circuits: their substrate diode */
    NODE,
    REFERENCE,
    OUTPUT,
    HEAD_PLUS,
    FIRST,
    FIRST_LED,
    REST,
    REST_LED,
    HEAD_MINUS,
    DRAIN,           /* behind the switch: on the way to ground, or, with a driver, on the way to its input */
    FED,             /* the driver's output */
    FIRST_COLLECTOR, /* of the trigger's transistors */
    SECOND_COLLECTOR,
    THIRD_BASE,
    NODES
};

static const double lw_lamp_thermal_v = 0.0258649; /* at the netlist's 27 degC */

void lw_lamp_resistor(lw_netlist *net, const char *name, int a, int b, double ohm);
void lw_lamp_diode(lw_netlist *net, int a, int b, double saturation_a, double ideality);

/* The switch: its sensor, what decides, the transistor that carries the lamp's current. */
void lw_lamp_add_switch(lw_netlist *net, const lw_lamp_build *build, const lw_lamp_situation *now);
void lw_lamp_guess_switch(const lw_lamp_build *build, const lw_lamp_situation *now, double bus_v,
                          double start[LW_LAMP_NODES]);

#endif
