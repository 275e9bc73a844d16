/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A circuit on strip board: parts in the holes of a grid of 2.54 mm (IEC 60097), copper strips along the rows, cut
 * where told. What is joined to what is read back from the layout and compared with the circuit.
 */
#ifndef LANEWICK_STRIP_BOARD_H
#define LANEWICK_STRIP_BOARD_H

#include "lanewick/error.h"

#include <stddef.h>

enum { LW_STRIP_PARTS = 24, LW_STRIP_PINS = 8, LW_STRIP_ROWS = 24 };
static const double lw_strip_grid_mm = 2.54;

typedef struct lw_strip_hole {
    int row, column; /* from 0 at the top left, seen from the side of the parts */
} lw_strip_hole;

typedef struct lw_strip_part {
    const char *name;
    int pins;
    lw_strip_hole pin[LW_STRIP_PINS];
    bool link; /* a piece of wire */
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

/* The dusk switch: photoresistor (its two wires), dual comparator in a case of eight pins (1 output, 2 and 3 inputs, 4
 * minus, 5 and 6 inputs, 7 output, 8 plus: data sheets of the common part), N-channel transistor (1 gate, 2 drain, 3
 * source), terminals X1 (1 plus, 2 minus of the pack) and X2 (1 plus, 2 minus of the lamp). */
extern const lw_strip_board lw_strip_dusk;
extern const lw_circuit_pin lw_dusk_circuit[];
extern const size_t lw_dusk_circuit_pins;

/* Number of the piece of copper on which each pin stands, links followed. LW_BUG: a pin outside the board, on a cut, or
 * two pins in one hole. */
LW_MUST_CHECK bool lw_strip_extract(const lw_strip_board *board, int net[LW_STRIP_PARTS][LW_STRIP_PINS], lw_error *err);
/* Whether the layout joins exactly what the circuit joins; LW_BUG names the two pins that differ. */
LW_MUST_CHECK bool lw_strip_is(const lw_strip_board *board, const lw_circuit_pin *circuit, size_t pins, lw_error *err);

#endif
