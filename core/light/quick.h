/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The two quantities that a search of masts looks at, without the others and without trigonometry at the points:
 * horizontal light, and the smaller semi-cylindrical light of both ways along the lane. The same formulas as
 * lw_lux_add() (lanewick/light.h), which the tests compare.
 */
#ifndef LANEWICK_QUICK_H
#define LANEWICK_QUICK_H

#include "lanewick/lane.h"

/* Adds lamp by lamp: horizontal_lx[count]; ahead_lx and back_lx[count] (NULL: faces are not asked for). */
void lw_quick_light(const lw_lamp *lamp, const lw_field_point *points, size_t count, double *horizontal_lx,
                    double *ahead_lx, double *back_lx);

/* The usual head, a flat diffuse board, on the ground alone: places in arrays of their own, several at once. */
bool lw_quick_is_board(const lw_beam *beam);
void lw_quick_board(const lw_lamp *lamp, const double *restrict x_m, const double *restrict y_m, size_t count,
                    double *restrict horizontal_lx);

#endif
