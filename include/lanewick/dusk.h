/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dusk switch: daylight against the height of the sun, photoresistor, divider and comparator, spread by tolerances.
 */
#ifndef LANEWICK_DUSK_H
#define LANEWICK_DUSK_H

#include "lanewick/arena.h"
#include "lanewick/error.h"

#include <stdint.h>

/* Illuminance on the open horizontal under the sun alone, lux; altitude_deg geometric, -18 to 90; sky_divisor 1 clear,
 * 2 thin cloud, 3 average cloud, 10 dark stratus. Janiczek & DeYoung (1987), US Naval Observatory Circular 171. The
 * model steps by 40 % at -0.833 degree, where its refraction ends. */
double lw_sun_lux(double altitude_deg, double sky_divisor);
/* The sun's geometric altitude for that illuminance; LW_NOT_COMPUTABLE when no altitude gives it. */
LW_MUST_CHECK bool lw_sun_altitude_for_lux(double lux, double sky_divisor, double *altitude_deg, lw_error *err);

/* Photoresistor: R = r10 (E / 10 lx)^-gamma. */
double lw_ldr_ohm(double r10_ohm, double gamma, double lux);
double lw_ldr_lux(double r10_ohm, double gamma, double ohm);

/* Reference R1 (to supply), R2 (to ground), R3 (from the output): its two levels as parts of the supply, lower while
 * the output is low (lamp off). */
void lw_comparator_levels(double r1_ohm, double r2_ohm, double r3_ohm, double *low, double *high);

typedef struct lw_dusk_divider {
    double r10_ohm, gamma, resistor_ohm;
    bool ldr_to_ground; /* else the photoresistor goes to the supply */
} lw_dusk_divider;

/* Node voltage as a part of the supply at this illuminance, and the illuminance at which the node has that part. */
double lw_dusk_node(const lw_dusk_divider *divider, double lux);
double lw_dusk_lux(const lw_dusk_divider *divider, double node);

/* What is known of the parts of a comparator switch with the photoresistor to the supply. */
typedef struct lw_dusk_parts {
    double r10_low_ohm, r10_high_ohm, gamma_low, gamma_high;
    double resistor_ohm, r1_ohm, r2_ohm, r3_ohm;
    double tolerance; /* of the four resistors, as a part of one */
    double offset;    /* comparator input offset over the least supply, either sign */
} lw_dusk_parts;

typedef struct lw_dusk_spread {
    double nominal, worst_low, worst_high; /* lux; nominal: middle of every band (geometric for R10) */
    double p0135, p05, p50, p95, p99865;
} lw_dusk_spread;

/* The same draws one by one: what every drawn switch goes on and off at, lux. */
LW_MUST_CHECK bool lw_dusk_draws(const lw_dusk_parts *parts, size_t samples, uint64_t seed, double *lux_on,
                                 double *lux_off, lw_error *err);

/* The lamp's own light on its sensor, lux: intensity_cd towards it, incidence_deg to its axis, tube_factor: the part
 * that a shade lets through. Inverse-square law. */
double lw_own_light_lx(double intensity_cd, double distance_m, double incidence_deg, double tube_factor);

/* Worst case over all corners, and percentiles of `samples` draws with every part uniform in its band. The arena holds
 * two lists of `samples` numbers. Bands so wide that the node cannot reach a level are LW_NOT_COMPUTABLE. */
LW_MUST_CHECK bool lw_dusk_tolerance(const lw_dusk_parts *parts, size_t samples, uint64_t seed, lw_arena *arena,
                                     lw_dusk_spread *on, lw_dusk_spread *off, lw_error *err);

#endif
