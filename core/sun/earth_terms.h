/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Series for the Earth's heliocentric longitude, latitude and distance: sum over powers of time of the sums of
 * amplitude cos(phase + rate t).
 */
#ifndef LANEWICK_EARTH_TERMS_H
#define LANEWICK_EARTH_TERMS_H

#include <stddef.h>

typedef struct lw_term {
    double amplitude, phase, rate;
} lw_term;

typedef struct lw_series {
    const lw_term *terms;
    size_t count;
} lw_series;

extern const lw_series lw_earth_longitude[5];
extern const lw_series lw_earth_latitude[1];
extern const lw_series lw_earth_distance[3];

#endif
