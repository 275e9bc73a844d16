/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * From the light at which a switch works to minutes of burning, at one place, mean over the year.
 */
#ifndef LANEWICK_DUSK_MINUTES_H
#define LANEWICK_DUSK_MINUTES_H

#include "lanewick/brief.h"

enum { LW_DUSK_HEIGHTS = 97 };

/* Half of the night below each height of the sun, -12 to 12 degrees in quarters, and the clear sky's light there. */
typedef struct lw_dusk_table {
    double half_min[LW_DUSK_HEIGHTS], ln_lux[LW_DUSK_HEIGHTS];
    double wished_min; /* half of the wished night */
} lw_dusk_table;

LW_MUST_CHECK bool lw_dusk_table_of(const lw_place *place, double wished_deg, lw_dusk_table *out, lw_error *err);
/* Minutes longer than wished at one end when the switch works at that light on its sensor and the sky lets a
 * sky_divisor-th through. Beyond the table: its end. */
double lw_dusk_longer_min(const lw_dusk_table *table, double lux, double sky_divisor);

#endif
