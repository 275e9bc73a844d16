/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Steps of the synthetic years, shared by core/sun/years*.c:
 *   prepare (once a place): sun of every hour, tables of every month
 *   draw (once a year): how far this year's months and day spread are from the long means
 *   days (once a month): clearness, temperature, wind and rain of each day
 *   hours (once a day): radiation of each hour
 * LW_LANES years run side by side; a lane never looks at another one.
 */
#ifndef LANEWICK_YEARS_INNER_H
#define LANEWICK_YEARS_INNER_H

#include "lanewick/rng.h"
#include "lanewick/weather.h"
#include "lanewick/years.h"
#include "markov.h"

/* Deviation of a day by its normal score -4..4, in steps of 1/16. */
enum { LW_SCORES = 129, LW_MONTH_DAYS = 31 };
static const double lw_lowest_day = 0.05, lw_highest_day = 0.80; /* clearness of a day */

typedef struct lw_synth_month {
    int days;
    double clearness, day_sd, rho;          /* long mean; of the days; of their normal scores from day to day */
    double spread, year_sd, day_spread;     /* relative: error of the mean, of a year's mean, error of day_sd */
    double deviation[LW_SCORES];            /* of a day by its normal score: mean 0, standard deviation 1 */
    int matrix;                             /* of the Markov chain */
    double air_c, air_sd_k, range_k;        /* mean, of the daily means, mean daily range */
    double wind_m_s, wet_score, wet_day_mm; /* a day is wet when its score passes wet_score */
} lw_synth_month;

typedef struct lw_synth_hour {
    double horizontal; /* extraterrestrial on the horizontal [W/m2]; 0: dark */
    double sin_height; /* of the sun at the middle of the hour, at least 0.03 */
    double clear;      /* clearness of a cloudless hour */
    double per_mu;     /* normal over horizontal: 1 / mean cosine of the zenith */
    double most_beam;  /* highest direct normal irradiance [W/m2] */
} lw_synth_hour;

struct lw_synth {
    lw_synth_options options;
    double lat_deg, lon_deg, elev_m, utc_offset_h;
    lw_synth_month month[LW_MONTHS];
    lw_markov matrix[LW_MARKOV_MATRICES];
    double day_sum[LW_DAYS]; /* of horizontal over the day [Wh/m2] */
    double air_shape[24];    /* hour's temperature above the day's mean, per kelvin of daily range */
    double wind_course[24];  /* -1..1, greatest in the afternoon */
    lw_synth_hour hour[LW_HOURS];
};

/* The generator of lanewick/rng.h with its state turned, so that the lanes step together. */
typedef struct lw_lane_rng {
    uint64_t s[4][LW_LANES];
} lw_lane_rng;

/* A year under way in each lane. */
typedef struct lw_year_lanes {
    lw_rng days[LW_LANES], air[LW_LANES];
    lw_lane_rng hours;
    double mean_factor[LW_MONTHS][LW_LANES]; /* on the month's clearness */
    double sd_factor[LW_MONTHS][LW_LANES];   /* on the spread of its days */
    double score[LW_LANES];                  /* normal score of the last day */
    double chain[LW_LANES];                  /* last day's deviation, for the Markov chain */
    double warm[LW_LANES], gust[LW_LANES];   /* last day's scores of temperature and wind */
    double hour_score[LW_LANES];             /* of the last hour */
    double wind_swing[LW_LANES];             /* amplitude of the wind over the day, relative to its mean */
} lw_year_lanes;

/* The days of a month; [0] of air and gust is the last day of the month before, day d is [d + 1]. */
typedef struct lw_month_lanes {
    double clearness[LW_MONTH_DAYS][LW_LANES];
    double score[LW_MONTH_DAYS][LW_LANES]; /* of clearness, low is cloudy */
    double range_k[LW_MONTH_DAYS][LW_LANES];
    double air_c[LW_MONTH_DAYS + 1][LW_LANES];
    double wind_m_s[LW_MONTH_DAYS + 1][LW_LANES];
    double rain_mm[LW_MONTH_DAYS][LW_LANES];
} lw_month_lanes;

/* One day of hours in each lane. */
typedef struct lw_day_rows {
    double (*ghi)[LW_LANES], (*dhi)[LW_LANES], (*dni)[LW_LANES], (*air)[LW_LANES], (*wind)[LW_LANES];
} lw_day_rows;

void lw_synth_draw(const lw_synth *synth, uint32_t first_year, lw_year_lanes *lanes);
void lw_synth_days(const lw_synth *synth, int month, int first_day, lw_year_lanes *lanes, lw_month_lanes *out);
void lw_synth_hours(const lw_synth *synth, int day, const double clearness[LW_LANES], lw_year_lanes *lanes,
                    const lw_day_rows *out);

#endif
