/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The sun that a bench has for its charging, from the climate of its place.
 */
#ifndef LANEWICK_DESK_BENCH_H
#define LANEWICK_DESK_BENCH_H

#include "lanewick/brief.h"
#include "lanewick/error.h"

#include <stdbool.h>

typedef struct lw_bench_sun {
    double tilt_deg, facing_deg;    /* of the panel: the latitude, 10..60 degrees, to the equator */
    double kwh_m2_day[12];          /* behind its glass, mean day of each month */
    double wh_day[12], poor_wh[12]; /* for the bench: on the mean day, and what one day in five does not reach */
    char basis[200];                /* of the climate */
} lw_bench_sun;

/* panel_w 1..2000. Of the rated energy behind the glass 75 % reaches the chargers: heat, dirt, wiring and the store
 * between (common practice). The climate is that of the place as a brief tells it (its own means or weather file in
 * `folder`, NULL: here); without those it is that of the position. */
LW_MUST_CHECK bool lw_desk_bench_sun(const lw_place *place, const char *folder, double panel_w, lw_bench_sun *out,
                                     lw_error *err);

#endif
