/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The hand-soldered head board's wires, and reading them back: see lanewick/lamp_build.h. Two wires are joined where
 * the end of one lies on the other.
 */
#include "lanewick/lamp_build.h"

#include <math.h>

static const double led_half_mm = 1.75, resistor_mm = 6.0;

typedef struct list {
    lw_head_wire *wire;
    size_t count;
} list;

static void add(list *l, double x0, double y0, double x1, double y1)
{
    if (l->count < LW_HEAD_WIRES)
        l->wire[l->count++] = (lw_head_wire){x0, y0, x1, y1};
}

static double plus_x(const lw_head_board *board, int string)
{
    double x, y;
    lw_head_led_place(board, string, 0, &x, &y);
    return x - 1.2 * board->pitch_mm;
}

static double minus_x(const lw_head_board *board, int string)
{
    double x, y;
    lw_head_led_place(board, string, board->series - 1, &x, &y);
    return x + 0.6 * board->pitch_mm;
}

static void string_wires(const lw_head_board *board, int string, list *l)
{
    double x, y;
    lw_head_led_place(board, string, 0, &x, &y);
    add(l, plus_x(board, string), y, x - board->pitch_mm, y);
    double from = x - board->pitch_mm + resistor_mm;
    for (int k = 0; k < board->series; k++) {
        lw_head_led_place(board, string, k, &x, &y);
        add(l, from, y, x - led_half_mm, y);
        from = x + led_half_mm;
    }
    add(l, from, y, minus_x(board, string), y);
}

size_t lw_head_wires(const lw_head_board *board, lw_head_wire out[LW_HEAD_WIRES])
{
    list l = {out, 0};
    const double top = 0.3 * board->pitch_mm, foot = board->height_mm - 0.3 * board->pitch_mm;
    int last_block = 0;
    for (int first = 0; first < board->strings; first += board->rows) {
        const int last = first + board->rows < board->strings ? first + board->rows - 1 : board->strings - 1;
        double x, y0, y1;
        lw_head_led_place(board, first, 0, &x, &y0);
        lw_head_led_place(board, last, 0, &x, &y1);
        add(&l, plus_x(board, first), top, plus_x(board, first), y1);
        add(&l, minus_x(board, first), y0, minus_x(board, first), foot);
        last_block = first;
    }
    if (last_block > 0) {
        add(&l, plus_x(board, 0), top, plus_x(board, last_block), top);
        add(&l, minus_x(board, 0), foot, minus_x(board, last_block), foot);
    }
    for (int s = 0; s < board->strings; s++)
        string_wires(board, s, &l);
    return l.count;
}

size_t lw_head_pins(const lw_head_board *board, lw_head_pin out[LW_HEAD_WIRES])
{
    size_t n = 0;
    for (int s = 0; s < board->strings; s++) {
        double x, y;
        lw_head_led_place(board, s, 0, &x, &y);
        if (n + 2 + 2 * (size_t)board->series > LW_HEAD_WIRES)
            break;
        out[n++] = (lw_head_pin){'R', s, 0, 1, x - board->pitch_mm, y};
        out[n++] = (lw_head_pin){'R', s, 0, 2, x - board->pitch_mm + resistor_mm, y};
        for (int k = 0; k < board->series; k++) {
            lw_head_led_place(board, s, k, &x, &y);
            out[n++] = (lw_head_pin){'D', s, k, 1, x - led_half_mm, y};
            out[n++] = (lw_head_pin){'D', s, k, 2, x + led_half_mm, y};
        }
    }
    return n;
}

static bool on_wire(const lw_head_wire *w, double x, double y)
{
    static const double near_mm = 1e-6;
    return x >= fmin(w->x0_mm, w->x1_mm) - near_mm && x <= fmax(w->x0_mm, w->x1_mm) + near_mm &&
           y >= fmin(w->y0_mm, w->y1_mm) - near_mm && y <= fmax(w->y0_mm, w->y1_mm) + near_mm;
}

static bool touch(const lw_head_wire *a, const lw_head_wire *b)
{
    return on_wire(a, b->x0_mm, b->y0_mm) || on_wire(a, b->x1_mm, b->y1_mm) || on_wire(b, a->x0_mm, a->y0_mm) ||
           on_wire(b, a->x1_mm, a->y1_mm);
}

/* Wires that hang together get one number; returns how many there are. */
static int label(const lw_head_wire *wires, size_t count, int *net)
{
    int nets = 0;
    for (size_t i = 0; i < count; i++)
        net[i] = -1;
    for (size_t seed = 0; seed < count; seed++) {
        if (net[seed] >= 0)
            continue;
        net[seed] = nets;
        for (bool grows = true; grows;) {
            grows = false;
            for (size_t i = 0; i < count; i++)
                for (size_t k = 0; k < count && net[i] < 0; k++)
                    if (net[k] == nets && touch(&wires[i], &wires[k])) {
                        net[i] = nets;
                        grows = true;
                    }
        }
        nets++;
    }
    return nets;
}

static int net_at(const lw_head_wire *wires, size_t count, const int *net, const lw_head_pin *pin)
{
    for (size_t i = 0; i < count; i++)
        if (on_wire(&wires[i], pin->x_mm, pin->y_mm))
            return net[i];
    return -1;
}

bool lw_head_wires_join(const lw_head_board *board, const lw_head_wire *wires, size_t count, lw_error *err)
{
    int net[LW_HEAD_WIRES];
    lw_head_pin pins[LW_HEAD_WIRES];
    const int wanted = 2 + board->series * board->strings;
    if (count > LW_HEAD_WIRES)
        return lw_fail(err, LW_BUG, "head", "There are too many wires on the head board.");
    const int nets = label(wires, count, net);
    if (nets != wanted)
        return lw_fail(err, LW_BUG, "head", "The head board's wires make %d nets, not %d.", nets, wanted);
    const size_t n = lw_head_pins(board, pins);
    const int plus = net_at(wires, count, net, &pins[0]);
    int minus = -1, at = plus;
    for (size_t i = 0; i + 1 < n; i += 2) {
        const int from = net_at(wires, count, net, &pins[i]), to = net_at(wires, count, net, &pins[i + 1]);
        const bool first = pins[i].kind == 'R', last = !first && pins[i].led == board->series - 1;
        minus = last && minus < 0 ? to : minus;
        if (from < 0 || to < 0 || from == to || from != (first ? plus : at) || (last && to != minus))
            return lw_fail(err, LW_BUG, "head", "String %d of the head board is open or shorted at %c%d.",
                           pins[i].string + 1, pins[i].kind, pins[i].led + 1);
        at = to;
    }
    return plus != minus;
}
