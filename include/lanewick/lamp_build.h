/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A planned lamp worked out for the bench: head board, wires, dusk switch, charge limits. What the building
 * sheets print; every value comes from the rooms that know it.
 */
#ifndef LANEWICK_LAMP_BUILD_H
#define LANEWICK_LAMP_BUILD_H

#include "lanewick/cell_class.h"
#include "lanewick/charging.h"
#include "lanewick/dusk.h"
#include "lanewick/plan.h"
#include "lanewick/wiring.h"

typedef struct lw_head_board {
    int series, strings;             /* LEDs in each string, strings side by side */
    double led_a, rated_a, string_v; /* current of one LED, volts of a string without its resistor */
    double light_lm, wanted_lm;      /* of all LEDs at that current and heat; wanted_lm 0: only watts are known */
    double resistor_ohm, resistor_w; /* in each string */
    bool shares;                     /* the resistor only evens the strings; else it sets the current */
    double pitch_mm, width_mm, height_mm;
    int rows; /* strings below one another before the next block begins */
} lw_head_board;

/* LEDs as lw_led_typical() at half their rated current or less, together the head's planned watts, on a board of 10 K/W
 * to air of 25 degC. Series count by the driver: buck below 0.8 of the empty pack, boost above 1.15 of the full one
 * (lw_led_string_fits), else what the empty pack still lights. LW_NOT_COMPUTABLE when the driver cannot light one. */
LW_MUST_CHECK bool lw_head_board_of(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design,
                                    lw_head_board *out, lw_error *err);
/* Middle of an LED from the board's top left corner; strings and LEDs count from 0. The plus end is at the left. */
void lw_head_led_place(const lw_head_board *board, int string, int led, double *x_mm, double *y_mm);

/* Bare wire on the back of the head board, level or upright, from the top left corner; strings meet at two rails, rails
 * at a bar along the top (plus) and the foot (minus). */
typedef struct lw_head_wire {
    double x0_mm, y0_mm, x1_mm, y1_mm;
} lw_head_wire;
typedef struct lw_head_pin {
    char kind;       /* D an LED, R a resistor */
    int string, led; /* from 0 */
    int pin;         /* 1 plus, 2 minus */
    double x_mm, y_mm;
} lw_head_pin;
enum { LW_HEAD_WIRES = 1024 };
/* Both return their number, at most LW_HEAD_WIRES. */
size_t lw_head_wires(const lw_head_board *board, lw_head_wire out[LW_HEAD_WIRES]);
size_t lw_head_pins(const lw_head_board *board, lw_head_pin out[LW_HEAD_WIRES]);
/* Reads the wires back: as many nets as the circuit has, every string from plus through resistor and LEDs to minus.
 * LW_BUG names what is open or shorted. */
LW_MUST_CHECK bool lw_head_wires_join(const lw_head_board *board, const lw_head_wire *wires, size_t count,
                                      lw_error *err);

/* The switch made by hand that the brief names, else a plain dusk switch, from the shelf's parts. */
LW_MUST_CHECK bool lw_dusk_board_of(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design,
                                    lw_arena *scratch, lw_dusk_board *out, lw_error *err);

/* The planned lamp as a circuit: panel, charger, pack, wires, switch, driver, head. Cells, panel and charger by the
 * shelf; board of 50 mohm that opens at three times the greatest current (common practice). LW_NOT_COMPUTABLE: no head,
 * no fuse, or parts that make no circuit. */
LW_MUST_CHECK bool lw_plan_circuit_of(const lw_brief *brief, const lw_lamp_kind *lamp, const lw_design *design,
                                      const lw_dusk_board *dusk, lw_lamp_circuit *out, lw_error *err);
/* Month by month at the place's climate: air of the afternoon, panel cells 28 K above it at 900 W/m2 (NOCT 45 degC). */
lw_charge_year lw_charge_year_of(const lw_brief *brief, const lw_climate *climate, const lw_design *design);

typedef struct lw_charge_card {
    int series;
    lw_charge_limits cell; /* full_v as the charger ends, full_worst_v with 1 % of tolerance; empty_v as the nights */
    double cold_stop_c, hot_stop_c;    /* NAN: the charger has none */
    double ice_ohm, room_ohm, hot_ohm; /* thermistor of 10 kohm, B 3950 K, at 0, 25 and 45 degC */
} lw_charge_card;
/* NULL for cells of unknown class. */
const lw_cell_class *lw_shelf_cell_class(const lw_shelf_cell *cell);
/* How cells of the shelf are charged. An unknown class never gets as far: plans refuse it. */
lw_charge_class lw_charge_class_of(const lw_shelf_cell *cell);
lw_charge_card lw_charge_card_of(const lw_brief *brief, const lw_design *design);

/* Volts at the terminals with the lamp off, V. Dusk: from the evening before the lowest charge of the simulated years
 * to a charger at the upper end of its tolerance; dawn: from that lowest charge to a full pack after the shortest
 * night's use. Open voltage of the class (cell_class.h) at those charges. */
typedef struct lw_pack_rest {
    double dusk_low_v, dusk_high_v, dawn_low_v, dawn_high_v;
} lw_pack_rest;
lw_pack_rest lw_pack_rest_of(const lw_brief *brief, const lw_plan_kind *kind);

typedef struct lw_lamp_build {
    bool has_head, has_wiring, has_dusk;
    lw_head_board head;
    lw_wiring wiring;
    lw_dusk_board dusk;
    lw_charge_card charge;
    lw_pack_rest rest;
} lw_lamp_build;

/* Everything at once; the arena (128 kB) is given back. */
void lw_lamp_build_of(const lw_plan *plan, const lw_plan_kind *kind, lw_arena *scratch, lw_lamp_build *out);

#endif
