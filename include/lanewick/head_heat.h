/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Heat of a head on a night without wind: board, the air in a closed bottle, the bottle's wall, night air.
 *
 * Still air: h = c (rise/length)^(1/4) W/(m2 K), c = 1.42 upright, 1.32 warm face up, 0.59 warm face down (simplified
 * equations for air at atmospheric pressure, laminar; textbooks of heat transfer such as Holman, from memory).
 * Radiation: grey surfaces, e sigma (T1^2 + T2^2)(T1 + T2). Length: root of the area.
 */
#ifndef LANEWICK_HEAD_HEAT_H
#define LANEWICK_HEAD_HEAT_H

#include "lanewick/led.h"

/* Which of the board's faces lose heat; the area is that of all of them. */
typedef enum lw_plate_faces { LW_PLATE_BOTH, LW_PLATE_UP, LW_PLATE_DOWN, LW_PLATE_UPRIGHT } lw_plate_faces;
#define LW_PLATE_WORDS "both|up|down|upright"

typedef struct lw_head_heat {
    double board_m2; /* that faces air */
    lw_plate_faces faces;
    double emissivity; /* painted or resin 0.9, bright metal 0.1 */
    double bottle_m2;  /* of a closed bottle around it; 0: the board hangs in free air */
    double softens_c;  /* of the bottle: PET 67 (glass point 67..81 degC, from memory) */
} lw_head_heat;

typedef struct lw_head_warm {
    double board_c, inside_c, bottle_c, board_to_air_k_w;
} lw_head_warm;

/* Temperatures when the board loses watt. */
void lw_head_heat_solve(const lw_head_heat *head, double watt, double air_c, lw_head_warm *out);

/* Electrical point, light and heat of count LEDs together. LW_REFUSED when the bottle would soften. */
LW_MUST_CHECK bool lw_head_solve(const lw_led *led, double current_a, size_t count, const lw_head_heat *head,
                                 double air_c, lw_led_point *point, lw_head_warm *warm, lw_error *err);

#endif
