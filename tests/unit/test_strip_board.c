/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The dusk switch on strip board: what the layout joins is what the circuit joins, and the circuit read back from the
 * layout, solved, switches where the closed form says.
 */
#include "lanewick/dusk.h"
#include "lanewick/netlist.h"
#include "lanewick/strip_board.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static unsigned char memory[1 << 20];

/* Every layout: three sensors, timer and lower level with each of the counter's outputs. */
enum { LAYOUTS = LW_SENSE_COUNT + 8 };
static lw_strip_timer timers[8];

static lw_strip_layout layout_of(size_t i)
{
    static const int outputs[] = {14, 13, 12, 10};
    if (i < LW_SENSE_COUNT)
        return lw_strip_dusk((lw_switch_sensor)i);
    lw_strip_timer_of(i % 2 == 0, outputs[(i - LW_SENSE_COUNT) / 2], &timers[i - LW_SENSE_COUNT]);
    return timers[i - LW_SENSE_COUNT].layout;
}

static void joins_what_the_circuit_joins(void **state)
{
    (void)state;
    for (size_t i = 0; i < LAYOUTS; i++) {
        lw_error err = {0};
        const lw_strip_layout l = layout_of(i);
        if (!lw_strip_is(&l.board, l.circuit, l.pins, &err))
            fail_msg("layout %zu: %s", i, err.message);
    }
}

typedef struct box {
    int top, left, foot, right;
} box;

static box box_of(const lw_strip_part *p)
{
    box b = {100, 100, -1, -1};
    for (int i = 0; i < p->pins; i++) {
        b.top = p->pin[i].row < b.top ? p->pin[i].row : b.top;
        b.foot = p->pin[i].row > b.foot ? p->pin[i].row : b.foot;
        b.left = p->pin[i].column < b.left ? p->pin[i].column : b.left;
        b.right = p->pin[i].column > b.right ? p->pin[i].column : b.right;
    }
    return b;
}

/* No two parts lie over each other, and a part of two wires spans two holes or more. */
static void parts_do_not_overlap(void **state)
{
    (void)state;
    for (size_t n = 0; n < LAYOUTS; n++) {
        const lw_strip_board b = layout_of(n).board;
        for (size_t i = 0; i < b.parts; i++) {
            const box p = box_of(&b.part[i]);
            if (b.part[i].name[0] == 'X') /* terminals are single holes */
                continue;
            if (b.part[i].pins == 2 && (p.left != p.right || p.foot - p.top < 2))
                fail_msg("layout %zu: %s does not fit its holes", n, b.part[i].name);
            for (size_t k = 0; k < i; k++) {
                const box q = box_of(&b.part[k]);
                if (b.part[k].name[0] != 'X' && p.left <= q.right && q.left <= p.right && p.top <= q.foot &&
                    q.top <= p.foot)
                    fail_msg("layout %zu: %s lies over %s", n, b.part[i].name, b.part[k].name);
            }
        }
    }
}

static void broken_layouts_are_seen(void **state)
{
    (void)state;
    lw_strip_part parts[LW_STRIP_PARTS];
    const lw_strip_layout whole = lw_strip_dusk(LW_SENSE_COMPARATOR);
    lw_strip_board board = whole.board;
    lw_error err = {0};
    size_t rb = 0;
    memcpy(parts, whole.board.part, board.parts * sizeof parts[0]);
    while (strcmp(parts[rb].name, "Rb") != 0)
        rb++;
    board.part = parts;
    assert_true(lw_strip_is(&board, whole.circuit, whole.pins, &err));
    board.cuts = 2; /* the third is forgotten */
    assert_false(lw_strip_is(&board, whole.circuit, whole.pins, &err));
    board.cuts = 3;
    parts[rb].pin[1].row = 6; /* Rb ends on a dead strip */
    assert_false(lw_strip_is(&board, whole.circuit, whole.pins, &err));
    parts[rb].pin[1] = parts[0].pin[0]; /* two wires in one hole */
    assert_false(lw_strip_is(&board, whole.circuit, whole.pins, &err));
    parts[rb].pin[1] = (lw_strip_hole){40, 2};
    assert_false(lw_strip_is(&board, whole.circuit, whole.pins, &err));
}

/* The net of a pin as a node of the solver, minus as ground. */
static int node_of(int net[LW_STRIP_PARTS][LW_STRIP_PINS], const char *name, int pin, int known[64], lw_netlist *out)
{
    const lw_strip_board b = lw_strip_dusk(LW_SENSE_COMPARATOR).board;
    size_t ground = 0, part = 0;
    while (strcmp(b.part[ground].name, "X1") != 0)
        ground++;
    while (strcmp(b.part[part].name, name) != 0)
        part++;
    const int here = net[part][pin - 1];
    if (here == net[ground][1])
        return 0;
    for (int i = 1; i <= out->nodes; i++)
        if (known[i] == here)
            return i;
    const int node = lw_netlist_node(out);
    known[node] = here;
    return node;
}

/* Gate's volts at that light, from the layout alone. */
static double gate_v(double lux, double before_v)
{
    static const struct {
        const char *name;
        double ohm;
    } resistors[] = {{"Rb", 22e3}, {"R1", 100e3}, {"R2", 100e3}, {"R3", 220e3},
                     {"Rp", 10e3}, {"Rg", 100.0}, {"Rd", 470e3}};
    const lw_strip_board board = lw_strip_dusk(LW_SENSE_COMPARATOR).board;
    int net[LW_STRIP_PARTS][LW_STRIP_PINS], known[64] = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_netlist n;
    lw_solution s;
    lw_error err = {0};
    assert_true(lw_strip_extract(&board, net, &err) && lw_netlist_begin(&n, 24, &arena, &err));
    const int plus = node_of(net, "X1", 1, known, &n);
    lw_netlist_add(&n, (lw_element){.kind = LW_VOLTAGE, .a = plus, .value = 12.0});
    for (size_t i = 0; i < sizeof resistors / sizeof resistors[0]; i++)
        lw_netlist_add(&n, (lw_element){.kind = LW_RESISTANCE,
                                        .a = node_of(net, resistors[i].name, 1, known, &n),
                                        .b = node_of(net, resistors[i].name, 2, known, &n),
                                        .value = resistors[i].ohm});
    lw_netlist_add(&n, (lw_element){.kind = LW_RESISTANCE,
                                    .a = node_of(net, "LDR", 1, known, &n),
                                    .b = node_of(net, "LDR", 2, known, &n),
                                    .value = lw_ldr_ohm(15e3, 0.6, lux)});
    const int output = node_of(net, "U1", 1, known, &n);
    lw_netlist_add(&n, (lw_element){.kind = LW_COMPARATOR,
                                    .a = output,
                                    .b = node_of(net, "U1", 8, known, &n),
                                    .c = node_of(net, "U1", 3, known, &n),
                                    .d = node_of(net, "U1", 2, known, &n),
                                    .value = 2000.0});
    const int gate = node_of(net, "Q1", 1, known, &n);
    double start[64] = {0.0};
    start[plus] = 12.0;
    start[output] = start[gate] = before_v;
    start[node_of(net, "U1", 3, known, &n)] = 6.0 + (before_v - 6.0) / 6.0;
    start[node_of(net, "U1", 2, known, &n)] = 6.0;
    assert_true(lw_netlist_solve(&n, start, &arena, &s, &err));
    return s.node_v[gate];
}

/* On at 2.829, off at 9.863 lx, and between them as before (closed form; a general circuit solver gives 2.832, 9.851).
 */
static void the_layout_switches(void **state)
{
    (void)state;
    assert_true(gate_v(2.70, 0.0) > 11.8 && gate_v(2.95, 0.0) < 0.2);
    assert_true(gate_v(9.60, 12.0) > 11.8 && gate_v(10.2, 12.0) < 0.2);
    assert_true(gate_v(5.3, 0.0) < 0.2 && gate_v(5.3, 12.0) > 11.8);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(joins_what_the_circuit_joins), cmocka_unit_test(parts_do_not_overlap),
        cmocka_unit_test(broken_layouts_are_seen), cmocka_unit_test(the_layout_switches)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
