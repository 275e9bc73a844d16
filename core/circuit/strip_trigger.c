/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The dusk switch of transistors on strip board, and its circuit: see lanewick/strip_board.h and lanewick/trigger.h.
 */
#include "strip_layouts.h"

/* Rows: 0 and 4 plus, 2 output, 3 base of Q3, 5 collector of Q2, 6 and 9 collector of Q1, 7 emitters, 8 photoresistor's
 * node, 10 minus, 11 lamp's minus, 12 gate. */
static const lw_strip_part parts[] = {
    {"X1", 2, {{0, 0}, {10, 0}}, false, "+-"},
    {"X3", 2, {{2, 1}, {12, 1}}, false, "DG"},
    {"LDR", 2, {{0, 2}, {8, 2}}, false, NULL},
    {"C1", 2, {{8, 3}, {10, 3}}, false, "+-"},
    {"Rb", 2, {{8, 4}, {10, 4}}, false, NULL},
    {"R1", 2, {{0, 5}, {6, 5}}, false, NULL},
    {"R2", 2, {{7, 6}, {10, 6}}, false, NULL},
    {"R3", 2, {{5, 7}, {3, 7}}, false, NULL},
    {"Re", 2, {{0, 8}, {3, 8}}, false, NULL},
    {"L1", 2, {{0, 9}, {4, 9}}, true, NULL},
    {"L2", 2, {{6, 10}, {9, 10}}, true, NULL},
    {"Q2", 3, {{5, 11}, {6, 11}, {7, 11}}, false, "CBE"},
    {"Q1", 3, {{9, 13}, {8, 13}, {7, 13}}, false, "CBE"},
    {"Q3", 3, {{2, 15}, {3, 15}, {4, 15}}, false, "CBE"},
    {"Rg", 2, {{2, 17}, {12, 17}}, false, NULL},
    {"Rd", 2, {{10, 18}, {12, 18}}, false, NULL},
    {"Q4", 3, {{12, 19}, {11, 19}, {10, 19}}, false, "GDS"},
    {"X2", 2, {{0, 21}, {11, 21}}, false, "+-"},
};

static const lw_circuit_pin circuit[] = {
    {"X1", 1, "plus"},    {"X2", 1, "plus"},    {"LDR", 1, "plus"},  {"R1", 1, "plus"},   {"Re", 1, "plus"},
    {"Q3", 3, "plus"},    {"X1", 2, "minus"},   {"Rb", 2, "minus"},  {"C1", 2, "minus"},  {"R2", 2, "minus"},
    {"Rd", 1, "minus"},   {"Q4", 3, "minus"},   {"LDR", 2, "node"},  {"C1", 1, "node"},   {"Rb", 1, "node"},
    {"Q1", 2, "node"},    {"R1", 2, "first"},   {"Q1", 1, "first"},  {"Q2", 2, "first"},  {"Q1", 3, "emitter"},
    {"Q2", 3, "emitter"}, {"R2", 1, "emitter"}, {"Q2", 1, "second"}, {"R3", 1, "second"}, {"R3", 2, "third"},
    {"Re", 2, "third"},   {"Q3", 2, "third"},   {"Q3", 1, "output"}, {"Rg", 1, "output"}, {"X3", 1, "output"},
    {"Rg", 2, "gate"},    {"Rd", 2, "gate"},    {"Q4", 1, "gate"},   {"X3", 2, "gate"},   {"Q4", 2, "lamp"},
    {"X2", 2, "lamp"},
};

lw_strip_layout lw_strip_trigger(void)
{
    return (lw_strip_layout){
        {13, 23, parts, sizeof parts / sizeof parts[0], NULL, 0}, circuit, sizeof circuit / sizeof circuit[0]};
}
