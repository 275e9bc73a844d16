/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pictures of light: the lane from above with its lux, a head's intensity, a person under the lamp.
 */
#ifndef LANEWICK_SHEET_LIGHT_H
#define LANEWICK_SHEET_LIGHT_H

#include "lanewick/canvas.h"
#include "lanewick/lane.h"

/* Each picture fills the box (x, y, width, height) of the canvas, millimetres. */

/* Masts as numbered dots, lux as bands that grow darker with more light (even steps in lightness, read well in grey),
 * numbers in lux at the points of the grid as far as there is room. */
void lw_picture_lane(lw_canvas *canvas, double x, double y, double width, double height, const lw_field *field,
                     const lw_lamp *lamps, size_t lamp_count, const lw_field_point *points, size_t count);

/* Polar diagram of the intensity in the plane across the lane (full line) and along it (dashed). */
void lw_picture_intensity(lw_canvas *canvas, double x, double y, double width, double height, const lw_beam *beam);

/* The lamp seen from the side, a person of 1.7 m, lux on the ground and on the face in steps of distance. */
void lw_picture_section(lw_canvas *canvas, double x, double y, double width, double height, const lw_lamp *lamp);

#endif
