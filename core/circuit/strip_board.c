/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading a strip board back: see lanewick/strip_board.h. A piece of copper is a run of holes between two cuts.
 */
#include "lanewick/strip_board.h"

#include <string.h>

/* Number of a hole's piece before links: counted along the rows; -1: drilled away or outside. */
static int piece_of(const lw_strip_board *board, lw_strip_hole hole)
{
    if (hole.row < 0 || hole.row >= board->rows || hole.column < 0 || hole.column >= board->columns)
        return -1;
    int before = 0;
    for (size_t i = 0; i < board->cuts; i++) {
        const lw_strip_hole *cut = &board->cut[i];
        if (cut->row == hole.row && cut->column == hole.column)
            return -1;
        before += cut->row == hole.row && cut->column < hole.column ? 1 : 0;
    }
    return hole.row * board->columns + before;
}

static bool holes_alone(const lw_strip_board *board, lw_error *err)
{
    for (size_t a = 0; a < board->parts; a++)
        for (int i = 0; i < board->part[a].pins; i++) {
            const lw_strip_hole *hole = &board->part[a].pin[i];
            for (size_t b = 0; b <= a; b++)
                for (int k = 0; k < (b == a ? i : board->part[b].pins); k++)
                    if (board->part[b].pin[k].row == hole->row && board->part[b].pin[k].column == hole->column)
                        return lw_fail(err, LW_BUG, "layout", "%s and %s share a hole.", board->part[a].name,
                                       board->part[b].name);
            if (piece_of(board, *hole) < 0)
                return lw_fail(err, LW_BUG, "layout", "Pin %d of %s stands on no copper.", i + 1, board->part[a].name);
        }
    return true;
}

static void rename_net(const lw_strip_board *board, int net[LW_STRIP_PARTS][LW_STRIP_PINS], int from, int to)
{
    for (size_t a = 0; a < board->parts; a++)
        for (int i = 0; i < board->part[a].pins; i++)
            if (net[a][i] == from)
                net[a][i] = to;
}

bool lw_strip_extract(const lw_strip_board *board, int net[LW_STRIP_PARTS][LW_STRIP_PINS], lw_error *err)
{
    if (board->parts > LW_STRIP_PARTS || !holes_alone(board, err))
        return board->parts <= LW_STRIP_PARTS ? false : lw_fail(err, LW_BUG, "layout", "Too many parts.");
    for (size_t a = 0; a < board->parts; a++)
        for (int i = 0; i < board->part[a].pins; i++)
            net[a][i] = piece_of(board, board->part[a].pin[i]);
    for (size_t a = 0; a < board->parts; a++)
        if (board->part[a].link)
            rename_net(board, net, net[a][1], net[a][0]);
    return true;
}

static bool find(const lw_strip_board *board, const lw_circuit_pin *pin, size_t *part)
{
    for (*part = 0; *part < board->parts; ++*part)
        if (strcmp(board->part[*part].name, pin->part) == 0)
            return pin->pin >= 1 && pin->pin <= board->part[*part].pins;
    return false;
}

static bool same_net(const lw_circuit_pin *a, const lw_circuit_pin *b)
{
    return a->net && b->net && strcmp(a->net, b->net) == 0;
}

bool lw_strip_is(const lw_strip_board *board, const lw_circuit_pin *circuit, size_t pins, lw_error *err)
{
    int net[LW_STRIP_PARTS][LW_STRIP_PINS];
    size_t laid = 0;
    if (!lw_strip_extract(board, net, err))
        return false;
    for (size_t a = 0; a < board->parts; a++)
        laid += board->part[a].link ? 0 : (size_t)board->part[a].pins;
    if (laid != pins)
        return lw_fail(err, LW_BUG, "layout", "The layout has %zu pins, the circuit %zu.", laid, pins);
    for (size_t i = 0; i < pins; i++) {
        size_t a, b;
        if (!find(board, &circuit[i], &a))
            return lw_fail(err, LW_BUG, "layout", "%s is not laid out.", circuit[i].part);
        for (size_t k = 0; k < i; k++)
            if (find(board, &circuit[k], &b) &&
                same_net(&circuit[i], &circuit[k]) != (net[a][circuit[i].pin - 1] == net[b][circuit[k].pin - 1]))
                return lw_fail(err, LW_BUG, "layout",
                               "Pin %d of %s and pin %d of %s: joined in one of circuit and layout.", circuit[i].pin,
                               circuit[i].part, circuit[k].pin, circuit[k].part);
    }
    return true;
}
