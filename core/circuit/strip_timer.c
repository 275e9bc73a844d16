/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The timer's board: see lanewick/strip_board.h. Q5 lets the counter U2 run in the dark. Its chosen output stops its
 * own oscillator through D4 and holds the lamp's gate low through Q6, or first frees the timer chip U3, which then
 * holds the gate low for the dark part of each of its periods.
 */
#include "lanewick/strip_board.h"

#include <string.h>

enum { Q_LINK = 3, RQ6 = 4 };

/* Rows: 0 plus, 1 spare, 2 to 9 the chips, 10 end of the time, 11 high in the dark, 12 middle of the oscillator, 13
 * minus, 14 bases, 15 reset (left) and gate (right). */
static const lw_strip_part common[] = {
    {"X1", 2, {{0, 0}, {13, 0}}, false, "+-"},
    {"X2", 1, {{11, 1}}, false, "D"},
    {"L1", 2, {{9, 2}, {13, 2}}, true, NULL},
    {"L2", 2, {{4, 3}, {10, 3}}, true, NULL}, /* from the chosen output */
    {"Rq6", 2, {{10, 16}, {14, 16}}, false, NULL},
    {"Rq5", 2, {{11, 3}, {14, 3}}, false, NULL},
    {"U2",
     16,
     {{2, 4},
      {3, 4},
      {4, 4},
      {5, 4},
      {6, 4},
      {7, 4},
      {8, 4},
      {9, 4},
      {9, 7},
      {8, 7},
      {7, 7},
      {6, 7},
      {5, 7},
      {4, 7},
      {3, 7},
      {2, 7}},
     false,
     NULL},
    {"Q5", 3, {{15, 5}, {14, 5}, {13, 5}}, false, "CBE"},
    {"L3", 2, {{0, 8}, {2, 8}}, true, NULL},
    {"L4", 2, {{6, 8}, {15, 8}}, true, NULL},
    {"Rt", 2, {{8, 9}, {12, 9}}, false, NULL},
    {"Ct", 2, {{9, 10}, {12, 10}}, false, NULL},
    {"Rs", 2, {{7, 11}, {12, 11}}, false, NULL},
    {"Rm", 2, {{0, 12}, {6, 12}}, false, NULL},
    {"D4", 2, {{10, 12}, {7, 12}}, false, NULL},
    {"Q6", 3, {{15, 18}, {14, 18}, {13, 18}}, false, "CBE"},
    {"X3", 1, {{15, 21}}, false, "G"},
};
static const lw_strip_part level[] = {
    {"L5", 2, {{2, 14}, {13, 14}}, true, NULL},
    {"L6", 2, {{5, 15}, {10, 15}}, true, NULL},
    {"Rl", 2, {{4, 17}, {8, 17}}, false, NULL},
    {"Rh", 2, {{4, 18}, {9, 18}}, false, NULL},
    {"L7", 2, {{3, 19}, {6, 19}}, true, NULL},
    {"U3", 8, {{2, 20}, {3, 20}, {4, 20}, {5, 20}, {5, 23}, {4, 23}, {3, 23}, {2, 23}}, false, NULL},
    {"L8", 2, {{4, 24}, {6, 24}}, true, NULL},
    {"L9", 2, {{0, 25}, {2, 25}}, true, NULL},
    {"D5", 2, {{8, 25}, {6, 25}}, false, NULL},
    {"D6", 2, {{6, 26}, {9, 26}}, false, NULL},
    {"Cl", 2, {{6, 27}, {13, 27}}, false, NULL},
};
/* Under U2, between the bases, between the two chips, under U3. */
static const lw_strip_hole cuts[] = {
    {2, 5},  {3, 5},  {4, 5},  {5, 5},  {6, 5},  {7, 5},  {8, 5},  {9, 5},  {14, 13}, {15, 13}, {2, 13},
    {3, 13}, {4, 13}, {5, 13}, {6, 13}, {7, 13}, {8, 13}, {9, 13}, {2, 21}, {3, 21},  {4, 21},  {5, 21},
};
enum { TIMER_CUTS = 10 };

static const lw_circuit_pin timer_circuit[] = {
    {"X1", 1, "plus"},   {"Rm", 1, "plus"},   {"U2", 16, "plus"},  {"X1", 2, "minus"},  {"U2", 8, "minus"},
    {"Q5", 3, "minus"},  {"Q6", 3, "minus"},  {"X2", 1, "dark"},   {"Rq5", 1, "dark"},  {"Rq5", 2, "base5"},
    {"Q5", 2, "base5"},  {"Q5", 1, "reset"},  {"Rm", 2, "reset"},  {"U2", 12, "reset"}, {"U2", 11, "in"},
    {"Rs", 1, "in"},     {"D4", 2, "in"},     {"U2", 10, "out"},   {"Rt", 1, "out"},    {"U2", 9, "back"},
    {"Ct", 1, "back"},   {"Rt", 2, "middle"}, {"Ct", 2, "middle"}, {"Rs", 2, "middle"}, {"D4", 1, "end"},
    {"Rq6", 2, "base6"}, {"Q6", 2, "base6"},  {"Q6", 1, "gate"},   {"X3", 1, "gate"},   {"U2", 4, NULL},
    {"U2", 5, NULL},     {"U2", 6, NULL},     {"U2", 7, NULL},     {"U2", 13, NULL},    {"U2", 14, NULL},
};
static const lw_circuit_pin level_circuit[] = {
    {"U3", 1, "minus"},  {"Cl", 2, "minus"},  {"U3", 8, "plus"},   {"U3", 4, "end"},    {"U3", 3, "pulse"},
    {"Rq6", 1, "pulse"}, {"Rl", 1, "pulse"},  {"Rh", 1, "pulse"},  {"Rl", 2, "up"},     {"D5", 1, "up"},
    {"D5", 2, "charge"}, {"D6", 1, "charge"}, {"Cl", 1, "charge"}, {"U3", 2, "charge"}, {"U3", 6, "charge"},
    {"D6", 2, "down"},   {"Rh", 2, "down"},   {"U3", 5, NULL},     {"U3", 7, NULL},
};

/* The counter's pins of its outputs, and where a link to each begins. */
static const struct {
    int output, pin;
    lw_strip_hole from;
} outputs[] = {{14, 3, {4, 3}}, {13, 2, {3, 3}}, {12, 1, {2, 3}}, {10, 15, {1, 3}}};
/* Output 10 is at the other side of the chip: over the spare row 1. */
static const lw_strip_part over = {"L0", 2, {{1, 9}, {3, 9}}, true, NULL};

static void add_pins(lw_strip_timer *out, const lw_circuit_pin *pins, size_t count)
{
    memcpy(&out->pin[out->layout.pins], pins, count * sizeof *pins);
    out->layout.pins += count;
}

static void choose_output(lw_strip_timer *out, int output)
{
    for (size_t i = 0; i < sizeof outputs / sizeof outputs[0]; i++) {
        const bool chosen = outputs[i].output == output;
        const lw_circuit_pin pin = {"U2", outputs[i].pin, chosen ? "end" : NULL};
        add_pins(out, &pin, 1);
        if (!chosen)
            continue;
        out->part[Q_LINK].pin[0] = outputs[i].from;
        out->part[Q_LINK].pin[1] = (lw_strip_hole){10, outputs[i].from.column};
    }
}

void lw_strip_timer_of(bool lower_level, int output, lw_strip_timer *out)
{
    const size_t shared = sizeof common / sizeof common[0], more = lower_level ? sizeof level / sizeof level[0] : 0;
    const size_t all_cuts = sizeof cuts / sizeof cuts[0];
    memset(out, 0, sizeof *out);
    memcpy(out->part, common, sizeof common);
    memcpy(&out->part[shared], level, more * sizeof level[0]);
    add_pins(out, timer_circuit, sizeof timer_circuit / sizeof timer_circuit[0]);
    choose_output(out, output);
    if (lower_level) {
        out->part[RQ6].pin[0] = (lw_strip_hole){4, 16};
        add_pins(out, level_circuit, sizeof level_circuit / sizeof level_circuit[0]);
    } else {
        const lw_circuit_pin straight = {"Rq6", 1, "end"};
        add_pins(out, &straight, 1);
    }
    size_t parts = shared + more;
    if (output == 10)
        out->part[parts++] = over;
    out->layout.board =
        (lw_strip_board){16, lower_level ? 29 : 23, out->part, parts, cuts, lower_level ? all_cuts : TIMER_CUTS};
    out->layout.circuit = out->pin;
}
