/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Dust on the panel: grows day by day, is washed off by rain or by the keeper.
 * Model and sources: docs/models/plane-irradiance.md.
 */
#ifndef LANEWICK_DUST_H
#define LANEWICK_DUST_H

#include "lanewick/error.h"
#include "lanewick/units.h"

typedef struct lw_dust {
    double loss_per_day;  /* share of light lost with each dry day, 0..0.05 */
    double most;          /* the loss does not grow beyond this share, 0..0.9 */
    double wash_rain_mm;  /* rain of a day that washes the glass, 0.1..100 */
    int clean_every_days; /* the keeper wipes the glass, 0: never, else 1..365 */
} lw_dust;

/* 0.2 % a day up to 25 %, washed by 5 mm, wiped every 30 days. */
lw_dust lw_dust_default(void);
LW_MUST_CHECK bool lw_dust_check(const lw_dust *dust, lw_error *err);

/* Share of light that passes the dust on each day of a year (0..1), the year before being like this one. */
void lw_dust_year(const lw_dust *dust, const double rain_mm[LW_DAYS], double factor[LW_DAYS]);

#endif
