/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lane document, format lanewick.lane/1 (docs/lane.md): a field, its lamps, a head.
 */
#ifndef LANEWICK_LANE_JSON_H
#define LANEWICK_LANE_JSON_H

#include "lanewick/head.h"
#include "lanewick/lane.h"

enum { LW_LANE_MAX_WINDOWS = 50 };

typedef struct lw_window {
    double x_m, y_m, z_m, facing_deg; /* facing: where the window looks, degrees in plan */
} lw_window;

typedef struct lw_lane {
    char name[120];
    lw_field field;
    lw_lamp lamps[LW_LANE_MAX_LAMPS];
    size_t lamp_count;
    double reach_heights; /* 0: all lamps count */
    double ground_reflectance;
    lw_window windows[LW_LANE_MAX_WINDOWS];
    size_t window_count;
    bool crossing;        /* judge by C classes */
    char wanted_class[8]; /* "" when none is wanted */
    lw_head head;         /* of all lamps */
} lw_lane;

/* Reads the document. The lamps' beams are there when the head is plain, a closed form without a bottle; else the
 * caller works the head out (lanewick/head.h) and calls lw_lane_use_beam. */
LW_MUST_CHECK bool lw_lane_from_json(const char *text, size_t length, lw_lane *lane, lw_error *err);
void lw_lane_use_beam(lw_lane *lane, const lw_beam *beam);

/* The share of their first light that the lamps of the lane still count (maintenance and the diffuser's years). */
double lw_lane_left(const lw_lane *lane);

/* Light on a window of new and clean lamps behind a new diffuser: light that disturbs is judged by its first, greatest
 * value (CIE 150, from memory), not by what is left of it. */
double lw_lane_window_lx(const lw_lane *lane, const lw_window *window);
/* The wanted class is there and its average, minimum and uniformity are met. */
bool lw_lane_class_met(const lw_lane *lane, const lw_field_sum *sum);
/* The average passes 1.5 times that of the wanted P class: more light than needed (EN 13201-2, note, from memory). */
bool lw_lane_too_bright(const lw_lane *lane, const lw_field_sum *sum);

/* Advice about the heads' white near houses. Only when head.colour_k is stated. */
lw_light_colour lw_lane_colour(const lw_lane *lane, const lw_field_sum *sum);

/* The answer: average_lx, minimum_lx, uniformity, class, points[] and more; free() it. */
LW_MUST_CHECK char *lw_lane_to_json(const lw_lane *lane, const lw_field_sum *sum, const lw_field_point *points,
                                    size_t count);

#endif
