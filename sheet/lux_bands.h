/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Bands of lux on a piece of ground, computed much finer than the standard's grid.
 */
#ifndef LANEWICK_LUX_BANDS_H
#define LANEWICK_LUX_BANDS_H

#include "lanewick/sheet_light.h"

enum { LW_LUX_BANDS = 8 };

typedef struct lw_ground_view {
    double scale, left_m, low_m; /* mm per m; the scene's corner */
    double x, bottom;            /* that corner on paper, mm */
} lw_ground_view;

lw_point_mm lw_on_paper(const lw_ground_view *view, double x_m, double y_m);

/* Lower edge of a band in lux, and its colour. */
double lw_lux_band_lx(int band);
lw_ink lw_lux_band_ink(int band);

/* A rectangle on the ground: a corner, the direction of its length, length and width to the left of it. */
typedef struct lw_ground_patch {
    double x_m, y_m, cos_d, sin_d, length_m, width_m;
    const lw_field *inside; /* NULL: all of it; else only what lies in the field */
} lw_ground_patch;

/* Bands and the lines at their edges. false: not enough memory, nothing is drawn. */
bool lw_lux_bands(lw_canvas *canvas, const lw_ground_view *view, const lw_ground_patch *patch, const lw_lamp *lamps,
                  size_t lamp_count);

#endif
