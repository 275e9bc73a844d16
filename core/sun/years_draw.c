/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Synthetic years: how far the months and the day spread of one year lie from the long means. One draw a year:
 * the climate's own uncertainty, the variation from year to year, and the uncertainty of the day spread. Where the
 * shares come from: docs/models/synthetic-years.md.
 */
#include "years_inner.h"

#include <math.h>

/* Error of the monthly means: two thirds of its variance is common to all months of a place. */
static const double spread_common = 0.82, spread_month = 0.57, spread_lag = 0.5;
/* From year to year: the months' own part is the climate's ghi_year_sd_pct; on top a part common to the year. */
static const double year_common = 0.025, year_lag = 0.15;
/* Day spread: of the uncertainty of log c, the part common to all months of a place and that of single months. */
static const double days_common = 0.50, days_month = 0.52;

/* Wind over the day: the four real years ask for amplitudes of 0.22 to 0.77 to cool a panel as they do. */
static const double wind_swing = 0.45, wind_swing_sd = 0.22;

enum { STREAM_YEAR = 0x79656172, STREAM_DAYS, STREAM_AIR, STREAM_HOURS };

static double bounded(double x, double low, double high)
{
    return x < low ? low : (x > high ? high : x);
}

static void draw_lane(const lw_synth *synth, uint32_t year, int lane, lw_year_lanes *lanes)
{
    const lw_synth_options *o = &synth->options;
    lw_rng rng = lw_rng_stream(o->seed, year, STREAM_YEAR);
    const double place = lw_rng_normal(&rng), whole = lw_rng_normal(&rng), days = lw_rng_normal(&rng);
    double error = lw_rng_normal(&rng), weather = lw_rng_normal(&rng);
    for (int m = 0; m < LW_MONTHS; m++) {
        const lw_synth_month *month = &synth->month[m];
        error = spread_lag * error + sqrt(1.0 - spread_lag * spread_lag) * lw_rng_normal(&rng);
        weather = year_lag * weather + sqrt(1.0 - year_lag * year_lag) * lw_rng_normal(&rng);
        double factor = 1.0 + o->climate_uncertainty * month->spread * (spread_common * place + spread_month * error);
        if (!o->exact_means)
            factor += month->year_sd * weather + year_common * whole;
        lanes->mean_factor[m][lane] = bounded(factor, 0.4, 1.8);
        lanes->sd_factor[m][lane] = exp(o->day_spread_uncertainty * month->day_spread *
                                        (days_common * days + days_month * lw_rng_normal(&rng)));
    }
}

void lw_synth_draw(const lw_synth *synth, uint32_t first_year, lw_year_lanes *lanes)
{
    for (int l = 0; l < LW_LANES; l++) {
        const uint32_t year = first_year + (uint32_t)l;
        draw_lane(synth, year, l, lanes);
        lanes->days[l] = lw_rng_stream(synth->options.seed, year, STREAM_DAYS);
        lanes->air[l] = lw_rng_stream(synth->options.seed, year, STREAM_AIR);
        const lw_rng hours = lw_rng_stream(synth->options.seed, year, STREAM_HOURS);
        for (int i = 0; i < 4; i++)
            lanes->hours.s[i][l] = hours.s[i];
        lanes->score[l] = lw_rng_normal(&lanes->days[l]);
        lanes->chain[l] = 0.0; /* January starts from December's mean */
        lanes->warm[l] = lw_rng_normal(&lanes->air[l]);
        lanes->gust[l] = lw_rng_normal(&lanes->air[l]);
        lanes->hour_score[l] = 0.0;
        lanes->wind_swing[l] = bounded(wind_swing + wind_swing_sd * lw_rng_normal(&lanes->air[l]), 0.0, 0.9);
    }
}
