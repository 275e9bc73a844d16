/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The dusk switch on strip board, and its circuit: see lanewick/strip_board.h. The circuit is that of the sheet, with a
 * pull-up for comparators of open collector, a resistor before the gate and one that holds it low.
 */
#include "lanewick/strip_board.h"

/* Rows: 0 plus, 2 output, 3 photoresistor's node, 4 reference, 5 and 7 minus, 8 lamp's minus, 9 gate. */
static const lw_strip_part parts[] = {
    {"X1", 2, {{0, 0}, {7, 0}}, false},
    {"LDR", 2, {{0, 1}, {3, 1}}, false},
    {"Rb", 2, {{3, 2}, {7, 2}}, false},
    {"R1", 2, {{0, 3}, {4, 3}}, false},
    {"R2", 2, {{4, 4}, {7, 4}}, false},
    {"R3", 2, {{2, 5}, {4, 5}}, false},
    {"Rp", 2, {{0, 6}, {2, 6}}, false},
    {"L1", 2, {{5, 6}, {7, 6}}, true},
    {"Rg", 2, {{2, 7}, {9, 7}}, false},
    {"Rd", 2, {{5, 8}, {9, 8}}, false},
    {"U1", 8, {{2, 9}, {3, 9}, {4, 9}, {5, 9}, {5, 12}, {4, 12}, {3, 12}, {2, 12}}, false},
    {"L2", 2, {{0, 13}, {2, 13}}, true},
    {"L3", 2, {{2, 14}, {4, 14}}, true},
    {"Q1", 3, {{9, 15}, {8, 15}, {7, 15}}, false},
    {"X2", 2, {{0, 17}, {8, 17}}, false},
};
static const lw_strip_hole cuts[] = {{2, 10}, {3, 10}, {4, 10}};

const lw_strip_board lw_strip_dusk = {.rows = 10,
                                      .columns = 19,
                                      .part = parts,
                                      .parts = sizeof parts / sizeof parts[0],
                                      .cut = cuts,
                                      .cuts = sizeof cuts / sizeof cuts[0]};

const lw_circuit_pin lw_dusk_circuit[] = {
    {"X1", 1, "plus"},      {"X2", 1, "plus"},   {"LDR", 1, "plus"},     {"R1", 1, "plus"},      {"Rp", 1, "plus"},
    {"U1", 8, "plus"},      {"U1", 6, "plus"},   {"X1", 2, "minus"},     {"Rb", 2, "minus"},     {"R2", 2, "minus"},
    {"U1", 4, "minus"},     {"U1", 5, "minus"},  {"Rd", 1, "minus"},     {"Q1", 3, "minus"},     {"LDR", 2, "node"},
    {"Rb", 1, "node"},      {"U1", 2, "node"},   {"R1", 2, "reference"}, {"R2", 1, "reference"}, {"R3", 2, "reference"},
    {"U1", 3, "reference"}, {"U1", 1, "output"}, {"R3", 1, "output"},    {"Rp", 2, "output"},    {"Rg", 1, "output"},
    {"Rg", 2, "gate"},      {"Rd", 2, "gate"},   {"Q1", 1, "gate"},      {"Q1", 2, "lamp"},      {"X2", 2, "lamp"},
    {"U1", 7, NULL},
};
const size_t lw_dusk_circuit_pins = sizeof lw_dusk_circuit / sizeof lw_dusk_circuit[0];
