/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A circuit on strip board: parts in the holes of a grid of 2.54 mm (IEC 60097), copper strips along the rows, cut
 * where told. What is joined to what is read back from the layout and compared with the circuit.
 */
#ifndef LANEWICK_STRIP_BOARD_H
#define LANEWICK_STRIP_BOARD_H

#include "lanewick/error.h"
#include "lanewick/switching.h"

#include <stddef.h>

enum { LW_STRIP_PARTS = 32, LW_STRIP_PINS = 16, LW_STRIP_ROWS = 24, LW_STRIP_CIRCUIT = 80 };
static const double lw_strip_grid_mm = 2.54;

typedef struct lw_strip_hole {
    int row, column; /* from 0 at the top left, seen from the side of the parts */
} lw_strip_hole;

typedef struct lw_strip_part {
    const char *name;
    int pins;
    lw_strip_hole pin[LW_STRIP_PINS];
    bool link;           /* a piece of wire */
    const char *letters; /* of its pins; NULL: none */
} lw_strip_part;

typedef struct lw_strip_board {
    int rows, columns;
    const lw_strip_part *part;
    size_t parts;             /* at most LW_STRIP_PARTS */
    const lw_strip_hole *cut; /* holes at which the strip is drilled through */
    size_t cuts;
} lw_strip_board;

/* One pin of a circuit and the net that it belongs to; NULL: joined to nothing. */
typedef struct lw_circuit_pin {
    const char *part;
    int pin; /* from 1 */
    const char *net;
} lw_circuit_pin;

typedef struct lw_strip_layout {
    lw_strip_board board;
    const lw_circuit_pin *circuit;
    size_t pins;
} lw_strip_layout;

/* The dusk switch by its sensor. Terminals X1 (1 plus, 2 minus of the pack), X2 (1 plus, 2 minus of the lamp), X3 (1
 * high in the dark, 2 gate: to a timer's board), X4 (1 plus, 2 minus of the panel that is the sensor); U1 a dual
 * comparator in a case of eight pins (1 output, 2 and 3 inputs, 4 minus, 5 and 6 inputs, 7 output, 8 plus: data sheets
 * of the common part); small transistors 1 collector, 2 base, 3 emitter; the N-channel one 1 gate, 2 drain, 3 source.
 */
lw_strip_layout lw_strip_dusk(lw_switch_sensor sensor);

/* The timer's board beside it, with or without a lower level after its time. */
typedef struct lw_strip_timer {
    lw_strip_part part[LW_STRIP_PARTS];
    lw_circuit_pin pin[LW_STRIP_CIRCUIT];
    lw_strip_layout layout; /* points at the two above */
} lw_strip_timer;
/* output: of the counter chip U2 that ends the time, 10, 12, 13 or 14. U2 is the common counter of fourteen stages with
 * oscillator in a case of 16 pins, U3 the common timer chip in CMOS. Terminals X1 (1 plus, 2 minus), X2 (to the dusk
 * board's X3.1), X3 (to its X3.2). */
void lw_strip_timer_of(bool lower_level, int output, lw_strip_timer *out);

/* Number of the piece of copper on which each pin stands, links followed. LW_BUG: a pin outside the board, on a cut, or
 * two pins in one hole. */
LW_MUST_CHECK bool lw_strip_extract(const lw_strip_board *board, int net[LW_STRIP_PARTS][LW_STRIP_PINS], lw_error *err);
/* Whether the layout joins exactly what the circuit joins; LW_BUG names the two pins that differ. */
LW_MUST_CHECK bool lw_strip_is(const lw_strip_board *board, const lw_circuit_pin *circuit, size_t pins, lw_error *err);

#endif
