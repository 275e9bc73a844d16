/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Advice about the white of a lamp, by its correlated colour temperature.
 *
 * Blue content, W of blue light hazard weighting for each lumen: 2.5e-4 at 2700 K, 6e-4 at 4000 K, 1e-3 at 6500 K (IEC
 * TR 62778, from memory), straight lines between and the end values beyond. Exempt (RG0) is up to 100 W/(m2 sr), IEC
 * 62471.
 */
#ifndef LANEWICK_LIGHT_COLOUR_H
#define LANEWICK_LIGHT_COLOUR_H

#include <stdbool.h>

typedef struct lw_light_colour {
    double blue_w_per_lm, blue_over_warm, exempt_cd_m2;
    const char *grade, *insects, *glare, *advice;
} lw_light_colour;

lw_light_colour lw_light_colour_of(double colour_k, bool hooded, bool near_houses, bool near_water);

#endif
