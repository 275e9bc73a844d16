/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A finished LED board looked at anew, from its copper alone: what hangs together, how near nets come to each other, to
 * the edge and to screws, and whether every LED bridges the right two pieces.
 */
#include "lanewick/led_board.h"

#include <math.h>

/* Distance between two boxes; 0: they touch. */
static double between(const lw_board_box *a, const lw_board_box *b)
{
    const double dx = fmax(0.0, fmax(a->x0_mm - b->x1_mm, b->x0_mm - a->x1_mm));
    const double dy = fmax(0.0, fmax(a->y0_mm - b->y1_mm, b->y0_mm - a->y1_mm));
    return hypot(dx, dy);
}

static bool inside(const lw_board_box *box, double x, double y)
{
    return x >= box->x0_mm && x <= box->x1_mm && y >= box->y0_mm && y <= box->y1_mm;
}

/* Pieces of copper that touch get the same label; returns the number of labels. */
static int label_pieces(const lw_led_board *b, int label[LW_BOARD_COPPER])
{
    int pieces = 0;
    for (size_t i = 0; i < b->copper_count; i++)
        label[i] = -1;
    for (size_t seed = 0; seed < b->copper_count; seed++) {
        if (label[seed] >= 0)
            continue;
        label[seed] = pieces;
        for (bool grows = true; grows;) {
            grows = false;
            for (size_t i = 0; i < b->copper_count; i++)
                for (size_t k = 0; k < b->copper_count && label[i] < 0; k++)
                    if (label[k] == pieces && between(&b->copper[i].box, &b->copper[k].box) < 1e-9) {
                        label[i] = pieces;
                        grows = true;
                    }
        }
        pieces++;
    }
    return pieces;
}

/* The piece under a point; -1: none. */
static int piece_at(const lw_led_board *b, const int *label, double x, double y)
{
    for (size_t i = 0; i < b->copper_count; i++)
        if (inside(&b->copper[i].box, x, y))
            return label[i];
    return -1;
}

static bool one_net_a_piece(const lw_led_board *b, const int *label, lw_error *err)
{
    for (size_t i = 0; i < b->copper_count; i++)
        for (size_t k = 0; k < i; k++)
            if ((label[i] == label[k]) != (b->copper[i].net == b->copper[k].net))
                return lw_fail(err, LW_BUG, "copper", "Nets %d and %d of the board are %s.", b->copper[i].net,
                               b->copper[k].net, label[i] == label[k] ? "one piece" : "the same and apart");
    return true;
}

static void distances(const lw_led_board *b, const int *label, lw_board_report *out)
{
    out->nearest_mm = out->edge_mm = out->hole_mm = INFINITY;
    for (size_t i = 0; i < b->copper_count; i++) {
        const lw_board_box *box = &b->copper[i].box;
        for (size_t k = 0; k < i; k++)
            if (label[i] != label[k])
                out->nearest_mm = fmin(out->nearest_mm, between(box, &b->copper[k].box));
        out->edge_mm = fmin(out->edge_mm, fmin(fmin(box->x0_mm, box->y0_mm),
                                               fmin(b->width_mm - box->x1_mm, b->height_mm - box->y1_mm)));
        for (size_t h = 0; h < b->mounting_count; h++) {
            const lw_board_hole *hole = &b->mounting[h];
            const lw_board_box point = {hole->x_mm, hole->y_mm, hole->x_mm, hole->y_mm};
            out->hole_mm = fmin(out->hole_mm, between(box, &point) - 0.5 * hole->diameter_mm);
        }
    }
}

/* From the terminal of plus through resistor and LEDs of every string to the terminal of minus, by pads alone. */
static bool strings_joined(const lw_led_board *b, const int *label, lw_board_report *out)
{
    int plus = -1, minus = -1;
    out->leds_across = true;
    for (size_t i = 0; i < b->pad_count; i++) {
        const lw_board_pad *pad = &b->pad[i];
        const int here = piece_at(b, label, pad->x_mm, pad->y_mm);
        if (here < 0)
            return false;
        if (pad->part < 0)
            *(pad->pin == 1 ? &plus : &minus) = here;
    }
    int at = plus, strings = 0;
    for (size_t i = 0; i + 1 < b->pad_count && b->pad[i].part >= 0; i += 2) {
        const int from = piece_at(b, label, b->pad[i].x_mm, b->pad[i].y_mm);
        const int to = piece_at(b, label, b->pad[i + 1].x_mm, b->pad[i + 1].y_mm);
        const bool first = b->part[b->pad[i].part].kind == 'R';
        out->leds_across = out->leds_across && from != to && from == (first ? plus : at);
        at = to;
        strings += at == minus ? 1 : 0;
    }
    return strings == b->strings && plus != minus;
}

bool lw_led_board_examine(const lw_led_board *board, lw_board_report *out, lw_error *err)
{
    int label[LW_BOARD_COPPER];
    out->pieces = label_pieces(board, label);
    if (!one_net_a_piece(board, label, err))
        return false;
    distances(board, label, out);
    out->strings_joined = strings_joined(board, label, out);
    if (out->pieces != board->nets || !out->strings_joined || !out->leds_across)
        return lw_fail(err, LW_BUG, "copper", "The board has %d pieces of copper for %d nets, or a string is open.",
                       out->pieces, board->nets);
    if (out->nearest_mm < board->clearance_mm - 1e-9 || out->edge_mm < 0.5 || out->hole_mm < 0.5)
        return lw_fail(err, LW_BUG, "copper", "Copper comes nearer than it may: %.3g, edge %.3g, screw %.3g mm.",
                       out->nearest_mm, out->edge_mm, out->hole_mm);
    return true;
}
