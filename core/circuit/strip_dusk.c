/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The dusk switches with a comparator on strip board, and their circuits: see lanewick/strip_board.h. The circuit is
 * that of the sheet, with a pull-up for comparators of open collector, a resistor before the gate and one that holds it
 * low.
 */
#include "strip_layouts.h"

/* Rows: 0 plus, 2 output, 3 photoresistor's node, 4 reference, 5 and 7 minus, 8 lamp's minus, 9 gate. */
static const lw_strip_part parts[] = {
    {"X1", 2, {{0, 0}, {7, 0}}, false, "+-"},
    {"X3", 2, {{2, 1}, {9, 1}}, false, "DG"},
    {"C1", 2, {{3, 2}, {7, 2}}, false, "+-"},
    {"LDR", 2, {{0, 3}, {3, 3}}, false, NULL},
    {"Rb", 2, {{3, 4}, {7, 4}}, false, NULL},
    {"R1", 2, {{0, 5}, {4, 5}}, false, NULL},
    {"R2", 2, {{4, 6}, {7, 6}}, false, NULL},
    {"R3", 2, {{2, 7}, {4, 7}}, false, NULL},
    {"Rp", 2, {{0, 8}, {2, 8}}, false, NULL},
    {"L1", 2, {{5, 8}, {7, 8}}, true, NULL},
    {"Rg", 2, {{2, 9}, {9, 9}}, false, NULL},
    {"Rd", 2, {{5, 10}, {9, 10}}, false, NULL},
    {"U1", 8, {{2, 11}, {3, 11}, {4, 11}, {5, 11}, {5, 14}, {4, 14}, {3, 14}, {2, 14}}, false, NULL},
    {"L2", 2, {{0, 15}, {2, 15}}, true, NULL},
    {"L3", 2, {{2, 16}, {4, 16}}, true, NULL},
    {"Q1", 3, {{9, 17}, {8, 17}, {7, 17}}, false, "GDS"},
    {"X2", 2, {{0, 19}, {8, 19}}, false, "+-"},
};
static const lw_strip_hole cuts[] = {{2, 12}, {3, 12}, {4, 12}};

/* clang-format off */
#define AROUND_COMPARATOR \
    {"X1", 1, "plus"},      {"X2", 1, "plus"},   {"R1", 1, "plus"},      {"Rp", 1, "plus"},      {"U1", 8, "plus"}, \
    {"U1", 6, "plus"},      {"X1", 2, "minus"},  {"Rb", 2, "minus"},     {"R2", 2, "minus"},     {"U1", 4, "minus"}, \
    {"U1", 5, "minus"},     {"Rd", 1, "minus"},  {"Q1", 3, "minus"},     {"C1", 1, "node"},      {"C1", 2, "minus"}, \
    {"U1", 2, "node"},      {"R1", 2, "reference"}, {"R2", 1, "reference"}, {"R3", 2, "reference"}, \
    {"U1", 3, "reference"}, {"U1", 1, "output"}, {"R3", 1, "output"},    {"Rp", 2, "output"},    {"Rg", 1, "output"}, \
    {"X3", 1, "output"},    {"Rg", 2, "gate"},   {"Rd", 2, "gate"},      {"Q1", 1, "gate"},      {"X3", 2, "gate"}, \
    {"Q1", 2, "lamp"},      {"X2", 2, "lamp"},   {"U1", 7, NULL}
/* clang-format on */

static const lw_circuit_pin circuit[] = {AROUND_COMPARATOR, {"LDR", 1, "plus"}, {"LDR", 2, "node"}, {"Rb", 1, "node"}};

/* The panel in the photoresistor's place: row 1 is its plus. */
static const lw_strip_part panel_parts[] = {
    {"X1", 2, {{0, 0}, {7, 0}}, false, "+-"},
    {"X3", 2, {{2, 1}, {9, 1}}, false, "DG"},
    {"X4", 2, {{1, 2}, {7, 2}}, false, "P-"},
    {"Rb", 2, {{1, 3}, {7, 3}}, false, NULL},
    {"Rs", 2, {{1, 4}, {3, 4}}, false, NULL},
    {"D1", 2, {{3, 5}, {0, 5}}, false, NULL},
    {"C1", 2, {{3, 6}, {7, 6}}, false, "+-"},
    {"R1", 2, {{0, 7}, {4, 7}}, false, NULL},
    {"R2", 2, {{4, 8}, {7, 8}}, false, NULL},
    {"R3", 2, {{2, 9}, {4, 9}}, false, NULL},
    {"Rp", 2, {{0, 10}, {2, 10}}, false, NULL},
    {"L1", 2, {{5, 10}, {7, 10}}, true, NULL},
    {"Rg", 2, {{2, 11}, {9, 11}}, false, NULL},
    {"Rd", 2, {{5, 12}, {9, 12}}, false, NULL},
    {"U1", 8, {{2, 13}, {3, 13}, {4, 13}, {5, 13}, {5, 16}, {4, 16}, {3, 16}, {2, 16}}, false, NULL},
    {"L2", 2, {{0, 17}, {2, 17}}, true, NULL},
    {"L3", 2, {{2, 18}, {4, 18}}, true, NULL},
    {"Q1", 3, {{9, 19}, {8, 19}, {7, 19}}, false, "GDS"},
    {"X2", 2, {{0, 21}, {8, 21}}, false, "+-"},
};
static const lw_strip_hole panel_cuts[] = {{2, 14}, {3, 14}, {4, 14}};
static const lw_circuit_pin panel_circuit[] = {AROUND_COMPARATOR,  {"X4", 1, "panel"}, {"X4", 2, "minus"},
                                               {"Rb", 1, "panel"}, {"Rs", 1, "panel"}, {"Rs", 2, "node"},
                                               {"D1", 1, "node"},  {"D1", 2, "plus"}};

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

lw_strip_layout lw_strip_dusk(lw_switch_sensor sensor)
{
    if (sensor == LW_SENSE_TRANSISTORS)
        return lw_strip_trigger();
    if (sensor == LW_SENSE_PANEL)
        return (lw_strip_layout){{10, 23, panel_parts, COUNT(panel_parts), panel_cuts, COUNT(panel_cuts)},
                                 panel_circuit,
                                 COUNT(panel_circuit)};
    return (lw_strip_layout){{10, 21, parts, COUNT(parts), cuts, COUNT(cuts)}, circuit, COUNT(circuit)};
}
