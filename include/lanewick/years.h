/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Synthetic years of hourly weather from twelve monthly means: as many years as wanted, each different, each
 * with the day-to-day and hour-to-hour spread of the place. Equations, sources, what was measured and the
 * limits: docs/models/synthetic-years.md.
 *
 *     lw_synth_options options = {.seed = 1};
 *     lw_synth *synth = lw_synth_prepare(&climate, 2.0, &options, &arena, &err);
 *     lw_synth_year(synth, 17, &year);
 *
 * Year number and seed alone decide a year: the same bits whatever the order, the number of threads, or
 * whether it came out of lw_synth_year or of lw_synth_block.
 */
#ifndef LANEWICK_YEARS_H
#define LANEWICK_YEARS_H

#include "lanewick/arena.h"
#include "lanewick/climate.h"
#include "lanewick/units.h"

#include <stdbool.h>
#include <stddef.h>
#include <stdint.h>

typedef struct lw_weather_year lw_weather_year; /* lanewick/weather.h */

/* Where the days' deviations from the monthly mean come from; their size is always the climate's clearness_day_sd. */
typedef enum lw_day_series {
    LW_DAYS_PLACE, /* the matrices' distribution of days, with the correlation from day to day of the place */
    LW_DAYS_CHAIN  /* the matrices as published, distribution and correlation */
} lw_day_series;

/* All zero is a sound choice: years that vary around the long means, climate and day spread taken as exact. */
typedef struct lw_synth_options {
    uint64_t seed;
    /* true: every year has exactly the given monthly means; false: the means of a year vary around them by
     * ghi_year_sd_pct of the climate. */
    bool exact_means;
    /* 0..1: share of ghi_spread_pct with which each year's draw moves the monthly means, alike in
     * neighbouring months (0: the means are taken as known). Applies with exact_means too. */
    double climate_uncertainty;
    /* 0..1: share of clearness_day_sd_spread with which each year's draw moves the day-to-day spread. */
    double day_spread_uncertainty;
    lw_day_series day_series;
    int sun_method; /* an lw_sun_method of lanewick/sun.h; 0: one declination a day */
} lw_synth_options;

enum { LW_LANES = 16 };

/* LW_LANES years side by side, lane i being year first_year + i; units and conventions of lw_weather_year:
 * hour h is the mean of the clock hour ending at (h % 24) + 1 of day h / 24, local standard time. */
typedef struct lw_weather_block {
    double ghi_w_m2[LW_HOURS][LW_LANES];
    double dhi_w_m2[LW_HOURS][LW_LANES];
    double dni_w_m2[LW_HOURS][LW_LANES];
    double air_c[LW_HOURS][LW_LANES];
    double wind_m_s[LW_HOURS][LW_LANES]; /* at 10 m */
    double rain_mm[LW_DAYS][LW_LANES];
} lw_weather_block;

/* What does not change from year to year: the sun of every hour, the tables of each month. It lives in the
 * caller's arena, about lw_synth_bytes() of it, and is only read afterwards: threads may share it. */
typedef struct lw_synth lw_synth;

size_t lw_synth_bytes(void);

/* NULL with an error: LW_WRONG_INPUT for an option outside its range, a UTC offset beyond -12..14 h or a
 * climate with a clearness above 0.85; LW_NOT_COMPUTABLE when the arena is too small. */
LW_MUST_CHECK lw_synth *lw_synth_prepare(const lw_climate *climate, double utc_offset_h,
                                         const lw_synth_options *options, lw_arena *arena, lw_error *err);

/* One year. Always succeeds. */
void lw_synth_year(const lw_synth *synth, uint32_t year, lw_weather_year *out);

/* LW_LANES years at once, for the night engine: about as quick as two single ones. Always succeeds. */
void lw_synth_block(const lw_synth *synth, uint32_t first_year, lw_weather_block *out);

#endif
