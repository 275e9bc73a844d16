/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The LED board drawn from its strings: see lanewick/led_board.h.
 */
#include "lanewick/led_board.h"

#include <math.h>
#include <string.h>

/* Common practice: 8 mm at the sides for screws, copper 1 mm from the edge, 0.3 mm between nets or more. */
static const double side_mm = 8.0, edge_mm = 1.0, clearance_mm = 0.4, screw_mm = 3.2, rise_k = 15.0;
static const double terminal_pad_mm = 3.2, terminal_hole_mm = 1.4;
enum { MOST_ROWS = 8, MOST_LEDS = 250 };

/* Lands of the string's resistor, by the watts it may burn (IEC 60115 sizes; from memory). */
typedef struct resistor {
    double watts, length_mm, width_mm, land_mm, height_mm, gap_mm, drill_mm;
} resistor;
static const resistor on_surface[] = {{0.25, 3.2, 1.6, 1.2, 1.8, 1.8, 0.0}, {1.0, 6.3, 3.2, 1.6, 3.4, 4.6, 0.0}};
static const resistor with_wires[] = {{0.5, 6.5, 2.5, 2.0, 2.0, 8.16, 0.9}, {5.0, 15.0, 5.0, 2.4, 2.4, 17.92, 1.1}};

static const resistor *resistor_for(double watts, bool wires)
{
    if (!wires && 2.0 * watts <= on_surface[1].watts)
        return &on_surface[2.0 * watts <= on_surface[0].watts ? 0 : 1];
    return &with_wires[2.0 * watts <= with_wires[0].watts ? 0 : 1];
}

/* What is being drawn. */
typedef struct drawing {
    const lw_led_board_wish *wish;
    const resistor *r;
    lw_led_board *out;
    double block_mm; /* width of a block */
    double foot_mm;  /* lower edge of the lowest row */
} drawing;

static void copper(lw_led_board *out, int net, double x0, double y0, double x1, double y1)
{
    if (out->copper_count < LW_BOARD_COPPER)
        out->copper[out->copper_count++] = (lw_board_copper){{x0, y0, x1, y1}, net};
}

static void pad(lw_led_board *out, lw_board_pad one)
{
    if (out->pad_count < LW_BOARD_PADS)
        out->pad[out->pad_count++] = one;
}

static int part(lw_led_board *out, char kind, int number, double x, double y, double length, double width)
{
    if (out->part_count >= LW_BOARD_PARTS)
        return -1;
    out->part[out->part_count] =
        (lw_board_part){kind, number, {x - 0.5 * length, y - 0.5 * width, x + 0.5 * length, y + 0.5 * width}};
    return (int)out->part_count++;
}

/* One string from its rail of plus to its rail of minus. */
static void draw_string(const drawing *d, int string, double left, double y)
{
    lw_led_board *out = d->out;
    const lw_led_board_wish *w = d->wish;
    const lw_led_lands *led = &w->led;
    const resistor *r = d->r;
    const double half = 0.5 * (w->pitch_mm - clearance_mm), rail_end = left + out->rail_mm + r->land_mm;
    const int first = LW_BOARD_FIRST + string * w->series;
    const int rp = part(out, 'R', string + 1, rail_end + 0.5 * r->gap_mm, y, r->length_mm, r->width_mm);
    copper(out, LW_BOARD_PLUS, left, y - half, rail_end, y + half);
    pad(out, (lw_board_pad){rail_end - 0.5 * r->land_mm, y, r->land_mm, r->height_mm, r->drill_mm, r->drill_mm > 0.0,
                            LW_BOARD_PLUS, rp, 1});
    double begin = rail_end + r->gap_mm;
    pad(out, (lw_board_pad){begin + 0.5 * r->land_mm, y, r->land_mm, r->height_mm, r->drill_mm, r->drill_mm > 0.0,
                            first, rp, 2});
    const double x_first = begin + r->land_mm + 0.5 * w->pitch_mm;
    for (int k = 0; k < w->series; k++) {
        const double x = x_first + k * w->pitch_mm, gap = 0.5 * led->gap_mm;
        const int net = first + k, next = k + 1 < w->series ? net + 1 : LW_BOARD_MINUS;
        const int dp = part(out, 'D', string * w->series + k + 1, x, y, led->length_mm, led->width_mm);
        const bool round = led->drill_mm > 0.0;
        copper(out, net, begin, y - half, x - gap, y + half);
        pad(out, (lw_board_pad){x - gap - 0.5 * led->plus_mm, y, led->plus_mm, led->height_mm, led->drill_mm, round,
                                net, dp, 1});
        pad(out, (lw_board_pad){x + gap + 0.5 * led->minus_mm, y, led->minus_mm, led->height_mm, led->drill_mm, round,
                                next, dp, 2});
        begin = x + gap;
    }
    copper(out, LW_BOARD_MINUS, begin, y - half, left + d->block_mm, y + half);
}

static void draw_block(const drawing *d, int block)
{
    lw_led_board *out = d->out;
    const double left = side_mm + block * (d->block_mm + clearance_mm), right = left + d->block_mm;
    const double pitch = d->wish->pitch_mm, top = out->height_mm - edge_mm;
    const int first = block * out->rows;
    const int last = first + out->rows < out->strings ? first + out->rows : out->strings;
    copper(out, LW_BOARD_PLUS, left, d->foot_mm + 0.5 * clearance_mm, left + out->rail_mm, top);
    copper(out, LW_BOARD_MINUS, right - out->rail_mm, edge_mm, right,
           d->foot_mm + out->rows * pitch - 0.5 * clearance_mm);
    for (int s = first; s < last; s++)
        draw_string(d, s, left, d->foot_mm + (out->rows - (s - first) - 0.5) * pitch);
}

static void draw_terminals(lw_led_board *out)
{
    const double x = side_mm + 3.0, top = out->height_mm - edge_mm - 0.5 * out->bar_mm,
                 low = edge_mm + 0.5 * out->bar_mm;
    const lw_board_pad plus = {x, top, terminal_pad_mm, terminal_pad_mm, terminal_hole_mm, true, LW_BOARD_PLUS, -1, 1};
    lw_board_pad minus = plus;
    minus.y_mm = low;
    minus.net = LW_BOARD_MINUS;
    minus.pin = 2;
    pad(out, plus);
    pad(out, minus);
}

static void draw_screws(lw_led_board *out)
{
    const double in = 0.5 * side_mm, w = out->width_mm, h = out->height_mm;
    const int rows = h > 150.0 ? 3 : 2;
    for (int i = 0; i < rows; i++) {
        const double y = in + i * (h - 2.0 * in) / (rows - 1);
        out->mounting[out->mounting_count++] = (lw_board_hole){in, y, screw_mm};
        out->mounting[out->mounting_count++] = (lw_board_hole){w - in, y, screw_mm};
    }
}

static bool check(const lw_led_board_wish *w, lw_error *err)
{
    if (!lw_in_range(err, "series", w->series, 1, 20, "LEDs") || !lw_in_range(err, "strings", w->strings, 1, 200, "") ||
        !lw_in_range(err, "led_a", w->led_a, 0.001, 3.0, "A") ||
        !lw_in_range(err, "resistor_w", w->resistor_w, 0.0, 2.0, "W") ||
        !lw_in_range(err, "copper_um", w->copper_um, 18.0, 210.0, "um") || !lw_led_lands_check(&w->led, err) ||
        !lw_in_range(err, "pitch_mm", w->pitch_mm, 5.0, 40.0, "mm"))
        return false;
    if (w->series * w->strings > MOST_LEDS)
        return lw_fail(err, LW_WRONG_INPUT, "strings", "There would be %d LEDs on one board; %d are possible.",
                       w->series * w->strings, MOST_LEDS);
    const double least = 1.0 + fmax(fmax(w->led.length_mm, w->led.width_mm),
                                    fmax(w->led.plus_mm + w->led.minus_mm + w->led.gap_mm, w->led.height_mm));
    return w->pitch_mm >= least ||
           lw_fail(err, LW_WRONG_INPUT, "pitch_mm", "pitch_mm is %g mm; this LED with its lands needs %.3g mm.",
                   w->pitch_mm, least);
}

bool lw_led_board_of(const lw_led_board_wish *wish, lw_led_board *out, lw_error *err)
{
    memset(out, 0, sizeof *out);
    if (!check(wish, err))
        return false;
    drawing d = {.wish = wish, .out = out, .r = resistor_for(wish->resistor_w, wish->led.drill_mm > 0.0)};
    const double all_a = wish->strings * wish->led_a;
    out->series = wish->series;
    out->strings = wish->strings;
    out->nets = LW_BOARD_FIRST + wish->series * wish->strings;
    out->blocks = (wish->strings + MOST_ROWS - 1) / MOST_ROWS;
    out->rows = (wish->strings + out->blocks - 1) / out->blocks;
    out->blocks = (wish->strings + out->rows - 1) / out->rows;
    out->through = wish->led.drill_mm > 0.0;
    out->clearance_mm = fmin(clearance_mm, wish->led.gap_mm);
    out->bar_mm = fmax(5.0, lw_track_width_mm(all_a, rise_k, wish->copper_um));
    out->rail_mm = fmax(2.5, lw_track_width_mm(fmin(all_a, out->rows * wish->led_a), rise_k, wish->copper_um));
    out->resistor_rated_w = d.r->watts;
    out->led_cm2 = 0.01 * (wish->pitch_mm - clearance_mm) * (wish->pitch_mm - wish->led.gap_mm);
    d.block_mm = 2.0 * out->rail_mm + 2.0 * d.r->land_mm + d.r->gap_mm + (wish->series + 0.25) * wish->pitch_mm;
    d.foot_mm = edge_mm + out->bar_mm + clearance_mm;
    out->width_mm = 2.0 * side_mm + out->blocks * d.block_mm + (out->blocks - 1) * clearance_mm;
    out->height_mm = 2.0 * d.foot_mm + out->rows * wish->pitch_mm;
    if (out->width_mm > 600.0 || out->height_mm > 450.0)
        return lw_fail(err, LW_WRONG_INPUT, "pitch_mm",
                       "The board would be %.0f x %.0f mm; board makers take 600 x 450 mm. Put the LEDs closer or take "
                       "two heads.",
                       out->width_mm, out->height_mm);
    copper(out, LW_BOARD_PLUS, side_mm, out->height_mm - edge_mm - out->bar_mm, out->width_mm - side_mm,
           out->height_mm - edge_mm);
    copper(out, LW_BOARD_MINUS, side_mm, edge_mm, out->width_mm - side_mm, edge_mm + out->bar_mm);
    for (int b = 0; b < out->blocks; b++)
        draw_block(&d, b);
    draw_terminals(out);
    draw_screws(out);
    return true;
}

double lw_led_board_rise_k(const lw_led_board *board, double watts)
{
    const double area_m2 = 1e-6 * board->width_mm * board->height_mm;
    return 0.7 * watts / (2.0 * 8.0 * area_m2);
}
