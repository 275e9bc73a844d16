/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The LED boards of a plan as files for a board maker.
 */
#ifndef LANEWICK_DESK_BOARD_H
#define LANEWICK_DESK_BOARD_H

#include "lanewick/gerber.h"
#include "lanewick/plan.h"

typedef struct lw_board_request {
    const lw_plan *plan;
    lw_led_lands lands;
    double pitch_mm, copper_um;
} lw_board_request;

typedef struct lw_board_made {
    char lamp[LW_NAME];
    char file[LW_BOARD_FILES][120];
    double led_a, light_lm, width_mm, height_mm, led_cm2;
    double resistor_ohm, resistor_rated_w;
    double rise_k; /* of the board over still air, all LEDs lit */
    int series, strings;
    lw_board_report report;
} lw_board_made;

/* One board for each kind of lamp of the plan, made[] with room for LW_BRIEF_LAMPS; each file whole or not at all. A
 * refused plan gets none: LW_REFUSED. */
LW_MUST_CHECK bool lw_desk_boards(const lw_board_request *request, const char *folder, lw_board_made *made,
                                  size_t *count, lw_error *err);

#endif
