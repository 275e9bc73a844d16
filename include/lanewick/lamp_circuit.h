/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The whole lamp as one circuit - panel, charger, pack, protection, dusk switch, head, wires - solved at named
 * conditions: what each test point should read, with a band for the scatter of parts, and what would hurt.
 */
#ifndef LANEWICK_LAMP_CIRCUIT_H
#define LANEWICK_LAMP_CIRCUIT_H

#include "lanewick/charging.h"
#include "lanewick/fuse.h"
#include "lanewick/netlist.h"
#include "lanewick/switching.h"

#include <stdint.h>

typedef struct lw_lamp_wire {
    double length_m, area_mm2; /* one way; IEC 60228 class 5 at 40 degC, there and back */
} lw_lamp_wire;

typedef enum lw_reverse_guard { LW_REVERSE_NONE, LW_REVERSE_DIODE, LW_REVERSE_TRANSISTOR } lw_reverse_guard;
#define LW_REVERSE_WORDS "none|shunt_diode|transistor"

/* What feeds the strings: nothing but the switch, or a driver behind it that keeps strings x led_a. */
typedef enum lw_head_driver { LW_HEAD_DIRECT, LW_HEAD_LINEAR, LW_HEAD_BUCK, LW_HEAD_BOOST } lw_head_driver;
#define LW_HEAD_DRIVER_WORDS "none|linear|buck|boost"

typedef struct lw_lamp_circuit {
    struct {
        int cells;
        double voc_v, isc_a, vmp_v, imp_a, shunt_ohm;
        bool blocking_diode;
    } panel;
    struct {
        bool switching;
        double limit_a, dropout_v, efficiency, tolerance_pct;
        bool long_life;
        double end_v; /* of a cell; 0: as the voltage class and long_life say */
    } charger;
    struct {
        lw_charge_class voltage_class;
        int series, parallel;
        double cell_ohm;
        double empty_v; /* of a cell, where the lamp goes off; 0: as the voltage class says */
    } pack;
    struct {
        double board_ohm, trip_a; /* protection board: its resistance, the current at which it opens; 0: no board */
        double fuse_a;            /* 0: no fuse */
        lw_fuse_kind fuse_kind;
        lw_reverse_guard reverse;
    } protection;
    struct {
        double r10_ohm, gamma, resistor_ohm, r1_ohm, r2_ohm, r3_ohm;
        double supply_ma;           /* of the comparator */
        double fet_ohm, fet_gate_v; /* on-resistance and the gate voltage for which it is guaranteed */
        lw_switch_sensor sensor;    /* resistor_ohm to r3_ohm as in lanewick/switch_values.h */
        double vbe_v, gain;         /* of the three small transistors, see lanewick/trigger.h */
    } dusk;
    struct {
        int strings, leds;
        double vf_v, led_a, slope_ohm, ballast_ohm;
        double led_max_a;
        lw_head_driver driver;
        double driver_efficiency, driver_start_v; /* buck and boost; input below which it gives nothing */
    } head;
    lw_lamp_wire panel_wire, pack_wire, head_wire;
} lw_lamp_circuit;

/* A one-group lamp of the workshop: every value may be changed. */
lw_lamp_circuit lw_lamp_circuit_default(void);

/* Ranges and what DESIGN section 6 refuses: no fuse, no protection board, a charger that may pass the hard limit, over
 * 60 V, an open panel over the charger's input is the plan's matter. */
LW_MUST_CHECK bool lw_lamp_circuit_check(const lw_lamp_circuit *lamp, lw_error *err);

typedef enum lw_lamp_condition {
    LW_LAMP_NOON_FULL,
    LW_LAMP_NOON_CHARGING,
    LW_LAMP_DUSK,
    LW_LAMP_MIDNIGHT,
    LW_LAMP_EMPTY,
    LW_LAMP_PANEL_OFF,
    LW_LAMP_SHORTED,
    LW_LAMP_REVERSED,
    LW_LAMP_CONDITIONS
} lw_lamp_condition;

typedef enum lw_test_point {
    LW_TP_PANEL_V,     /* panel terminals */
    LW_TP_PANEL_A,     /* out of the panel */
    LW_TP_CHARGER_V,   /* charger input */
    LW_TP_CHARGE_A,    /* out of the charger */
    LW_TP_PACK_V,      /* pack terminals, before the fuse */
    LW_TP_PACK_A,      /* out of the pack; below 0 it is charged */
    LW_TP_BUS_V,       /* behind fuse and wire */
    LW_TP_NODE_V,      /* the sensor's: middle of the photoresistor divider, or the comparator's input from the panel */
    LW_TP_REFERENCE_V, /* comparator's reference, or both emitters */
    LW_TP_GATE_V,      /* gate of the switch */
    LW_TP_SWITCH_V,    /* over the switching transistor */
    LW_TP_HEAD_V,      /* over the head's terminals */
    LW_TP_LAMP_A,      /* into the head */
    LW_TP_STRING_A,    /* in the first string */
    LW_TEST_POINTS
} lw_test_point;

const char *lw_lamp_condition_name(lw_lamp_condition condition);
const char *lw_lamp_condition_text(lw_lamp_condition condition);
const char *lw_test_point_name(lw_test_point point);
const char *lw_test_point_text(lw_test_point point, lw_switch_sensor sensor);
const char *lw_test_point_unit(lw_test_point point); /* V or A */

typedef struct lw_circuit_reading {
    double expected, low, high; /* 5 % and 95 % of lamps built from these parts */
} lw_circuit_reading;

/* LW_FINDING_DANGER: the lamp does not work, or parts are lost when it is wired wrong. LW_FINDING_REFUSED: something
 * would burn; such a lamp gets no wiring sheet. */
typedef enum lw_finding_level {
    LW_FINDING_GOOD,
    LW_FINDING_CAUTION,
    LW_FINDING_DANGER,
    LW_FINDING_REFUSED
} lw_finding_level;
const char *lw_finding_level_text(lw_finding_level level);

typedef struct lw_lamp_finding {
    lw_finding_level level;
    lw_lamp_condition condition;
    const char *refusal; /* a word for what refuses the lamp: short_not_ended, wire_burns, leds_burn_out; else NULL */
    char text[240];
} lw_lamp_finding;

enum { LW_LAMP_FINDINGS = 24 };
typedef struct lw_lamp_readings {
    lw_circuit_reading at[LW_LAMP_CONDITIONS][LW_TEST_POINTS];
    lw_lamp_finding findings[LW_LAMP_FINDINGS];
    size_t finding_count;
    lw_switch_sensor sensor; /* to name its test points */
} lw_lamp_readings;

/* The netlist of one condition; start[] (room for LW_LAMP_NODES) are voltages to begin with. */
enum { LW_LAMP_NODES = 28, LW_LAMP_ELEMENTS = 56 };
LW_MUST_CHECK bool lw_lamp_netlist(const lw_lamp_circuit *lamp, lw_lamp_condition condition, lw_arena *arena,
                                   lw_netlist *net, double start[LW_LAMP_NODES], lw_error *err);

/* The first finding that refuses the lamp, or NULL. */
const lw_lamp_finding *lw_lamp_refusal(const lw_lamp_readings *readings);

/* Every condition, with the band of `draws` lamps from scattered parts (0: no band), and the findings. */
LW_MUST_CHECK bool lw_lamp_read(const lw_lamp_circuit *lamp, int draws, uint64_t seed, lw_arena *arena,
                                lw_lamp_readings *out, lw_error *err);

#endif
