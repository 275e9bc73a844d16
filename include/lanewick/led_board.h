/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * An LED board for a board maker: copper, pads, holes and outline of a rectangular array of strings on one layer.
 * docs/models/led-board.md.
 *
 * Millimetres, origin at the lower left corner of the outline, y upward. Blocks of strings stand side by side. In each,
 * a rail of plus at the left hangs from a bar along the top edge and a rail of minus at the right stands on a bar along
 * the lower edge, so nothing crosses. Between them every net of a string is one large area of copper, from the minus
 * pad of one LED to the plus pad of the next: it carries the heat. Pads are openings of the mask in that copper.
 */
#ifndef LANEWICK_LED_BOARD_H
#define LANEWICK_LED_BOARD_H

#include "lanewick/error.h"

#include <stddef.h>

/* Lands of an LED seen from above, plus at the left. */
typedef struct lw_led_lands {
    const char *name;
    double length_mm, width_mm;          /* body, along the string and across */
    double plus_mm, minus_mm, height_mm; /* lands: along the string; both equally high */
    double gap_mm;                       /* between them */
    double drill_mm;                     /* wire holes; 0: soldered on the surface */
} lw_led_lands;

extern const lw_led_lands lw_led_lands_known[];
extern const size_t lw_led_lands_count;
/* NULL: not known. */
const lw_led_lands *lw_led_lands_find(const char *name);
LW_MUST_CHECK bool lw_led_lands_check(const lw_led_lands *lands, lw_error *err);

typedef struct lw_led_board_wish {
    int series, strings; /* 1..20, 1..200, at most 250 LEDs together */
    double led_a;        /* of each string, 0.001..3 A */
    double resistor_w;   /* burnt in each string's resistor, 0..2 W; its lands are for twice that */
    double pitch_mm;     /* LED to LED along the string and string to string, 5..40 */
    double copper_um;    /* 18..210 */
    lw_led_lands led;
} lw_led_board_wish;

enum {
    LW_BOARD_PLUS,
    LW_BOARD_MINUS,
    LW_BOARD_FIRST, /* net of string s before its LED k: LW_BOARD_FIRST + s x series + k */
    LW_BOARD_COPPER = 480,
    LW_BOARD_PADS = 960,
    LW_BOARD_HOLES = 1024,
    LW_BOARD_PARTS = 480
};

typedef struct lw_board_box {
    double x0_mm, y0_mm, x1_mm, y1_mm;
} lw_board_box;

typedef struct lw_board_copper { /* one rectangle; those of a net touch or overlap */
    lw_board_box box;
    int net;
} lw_board_copper;

typedef struct lw_board_part {
    char kind;  /* D an LED, R a resistor */
    int number; /* from 1 */
    lw_board_box body;
} lw_board_part;

typedef struct lw_board_pad {
    double x_mm, y_mm, width_mm, height_mm;
    double drill_mm; /* 0: no hole */
    bool round;
    int net, part, pin; /* part: place in parts[], -1 for a terminal; pin 1 is plus */
} lw_board_pad;

typedef struct lw_board_hole {
    double x_mm, y_mm, diameter_mm;
} lw_board_hole;

typedef struct lw_led_board {
    double width_mm, height_mm;
    int series, strings, nets, blocks, rows;
    bool through;                         /* parts with wires: copper and mask are those of the lower side */
    double rail_mm, bar_mm, clearance_mm; /* least copper to copper */
    double led_cm2;                       /* copper of one LED */
    double resistor_rated_w;              /* of the kind whose lands are drawn */
    lw_board_copper copper[LW_BOARD_COPPER];
    lw_board_pad pad[LW_BOARD_PADS];
    lw_board_hole mounting[8];
    lw_board_part part[LW_BOARD_PARTS];
    size_t copper_count, pad_count, mounting_count, part_count;
} lw_led_board;

/* About 90 kB. LW_WRONG_INPUT: out of range; a board over 600 x 450 mm, which board makers do not take in one piece. */
LW_MUST_CHECK bool lw_led_board_of(const lw_led_board_wish *wish, lw_led_board *out, lw_error *err);

/* How much warmer than still air the board gets: seven tenths of the watts become heat, and each face gives off 8 W/m2K
 * (common practice); a board screwed to metal stays cooler, one behind glass gets warmer. */
double lw_led_board_rise_k(const lw_led_board *board, double watts);

/* Width of a track on the outside that warms by rise_k: IPC-2221, I = 0.048 dT^0.44 A^0.725 (A in square mils). */
double lw_track_width_mm(double amps, double rise_k, double copper_um);

typedef struct lw_board_report {
    int pieces;                       /* of copper that hang together; as many as nets when all is well */
    double nearest_mm;                /* least distance between copper of two nets */
    double edge_mm;                   /* least distance of copper to the outline */
    double hole_mm;                   /* least distance of copper to a mounting hole's edge */
    bool strings_joined, leds_across; /* every pad lies on copper of its net; every LED bridges two nets in order */
} lw_board_report;

/* Looks at the copper alone and asks what is joined to what. LW_BUG when a piece holds two nets, a net is in two
 * pieces, a pad hangs in the air or a clearance is not kept. */
LW_MUST_CHECK bool lw_led_board_examine(const lw_led_board *board, lw_board_report *out, lw_error *err);

#endif
