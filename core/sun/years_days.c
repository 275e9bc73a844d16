/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Synthetic years: the days of a month. Clearness: deviations by the Markov matrices' distribution (Aguiar,
 * Collares-Pereira & Conde 1988), ordered by a Gaussian AR(1) series as in Graham, Hollands & Huget (1988), Solar
 * Energy 40, 83, or by the chain itself; sized by the climate's day spread; brought to the month's mean. Temperature,
 * wind and rain follow the clouds: docs/models/synthetic-years.md.
 */
#include "lanewick/stats.h"
#include "years_inner.h"

#include <math.h>

static const double air_lag = 0.45, air_cloud = 0.30;    /* daily mean temperature: lag, link to clearness */
static const double wind_lag = 0.40, wind_log_sd = 0.40; /* daily mean wind */
static const double range_slope = 0.65;                  /* relative daily range by relative clearness */
static const double rain_cloud = 0.70;                   /* link of wet days to cloudy days */

static double bounded(double x, double low, double high)
{
    return x < low ? low : (x > high ? high : x);
}

static double by_score(const double deviation[LW_SCORES], double score)
{
    const double place = bounded((score + 4.0) * 16.0, 0.0, LW_SCORES - 1.001);
    const int i = (int)place;
    return deviation[i] + (place - i) * (deviation[i + 1] - deviation[i]);
}

/* One step of the published chain: the state of yesterday's value, a uniform number against the cumulated row, the
 * value inside the new state in proportion. Returns the standardised deviation. */
static double chain_step(const lw_markov *m, double yesterday, double uniform)
{
    const double width = (m->high - m->low) / LW_MARKOV_STATES;
    const double state = (m->mean + m->sd * yesterday - m->low) / width;
    const double *row = m->step[(int)bounded(state, 0.0, LW_MARKOV_STATES - 1.0)];
    int j = 0;
    while (uniform >= row[j])
        j++;
    const double below = j ? row[j - 1] : 0.0;
    const double inside = (uniform - below) / (row[j] - below);
    return (m->low + (j + inside) * width - m->mean) / m->sd;
}

static double next_deviation(const lw_synth *synth, const lw_synth_month *month, lw_year_lanes *lanes, int l)
{
    if (synth->options.day_series == LW_DAYS_CHAIN) {
        const double uniform = lw_rng_uniform(&lanes->days[l]);
        lanes->chain[l] = chain_step(&synth->matrix[month->matrix], lanes->chain[l], uniform);
        lanes->score[l] = lanes->chain[l];
        return lanes->chain[l];
    }
    lanes->score[l] =
        month->rho * lanes->score[l] + sqrt(1.0 - month->rho * month->rho) * lw_rng_normal(&lanes->days[l]);
    return by_score(month->deviation, lanes->score[l]);
}

/* Mean of a lane's days, each weighted by what the sun gives above the air. */
static double lane_mean(const lw_month_lanes *out, const double *day_sum, int days, int l)
{
    double sum = 0.0, weight = 0.0;
    for (int d = 0; d < days; d++) {
        sum += out->clearness[d][l] * day_sum[d];
        weight += day_sum[d];
    }
    return weight > 0.0 ? sum / weight : 0.0;
}

/* Turns deviations into clearness with exactly the wanted mean, no day beyond what days can be. */
static void size_lane(const lw_synth_month *month, double mean_factor, double sd_factor, const double *day_sum, int l,
                      lw_month_lanes *out)
{
    enum { TURNS = 4 };
    const double want = bounded(month->clearness * mean_factor, lw_lowest_day, 0.82);
    const double rest = 1.0 - month->clearness;
    const double sd = month->day_sd * sd_factor * (rest > 0.0 ? (1.0 - want) / rest : 1.0);
    const double highest = fmax(lw_highest_day, want + 0.05);
    for (int d = 0; d < month->days; d++)
        out->clearness[d][l] = want + sd * out->clearness[d][l];
    for (int turn = 0; turn < TURNS; turn++) {
        const double shift = want - lane_mean(out, day_sum, month->days, l);
        for (int d = 0; d < month->days; d++)
            out->clearness[d][l] = bounded(out->clearness[d][l] + shift, lw_lowest_day, highest);
    }
    const double mean = lane_mean(out, day_sum, month->days, l), scale = mean > 0.0 ? want / mean : 1.0;
    for (int d = 0; d < month->days; d++)
        out->clearness[d][l] *= scale;
}

static void weather_of_day(const lw_synth_month *month, double want, int d, int l, lw_year_lanes *lanes,
                           lw_month_lanes *out)
{
    lw_rng *rng = &lanes->air[l];
    const double cloud = out->score[d][l], own = sqrt(1.0 - air_cloud * air_cloud);
    lanes->warm[l] =
        air_lag * lanes->warm[l] + sqrt(1.0 - air_lag * air_lag) * (own * lw_rng_normal(rng) + air_cloud * cloud);
    lanes->gust[l] = wind_lag * lanes->gust[l] + sqrt(1.0 - wind_lag * wind_lag) * lw_rng_normal(rng);
    const double relative = want > 0.0 ? out->clearness[d][l] / want - 1.0 : 0.0;
    out->range_k[d][l] = month->range_k * bounded(1.0 + range_slope * relative, 0.3, 1.6);
    out->air_c[d + 1][l] = month->air_c + month->air_sd_k * lanes->warm[l];
    out->wind_m_s[d + 1][l] = month->wind_m_s * exp(wind_log_sd * lanes->gust[l] - 0.5 * wind_log_sd * wind_log_sd);
    const double wet = sqrt(1.0 - rain_cloud * rain_cloud) * lw_rng_normal(rng) - rain_cloud * cloud;
    const double amount = -log(1.0 - lw_rng_uniform(rng)) * month->wet_day_mm;
    out->rain_mm[d][l] = wet > month->wet_score ? amount : 0.0;
}

void lw_synth_days(const lw_synth *synth, int month, int first_day, lw_year_lanes *lanes, lw_month_lanes *out)
{
    const lw_synth_month *of = &synth->month[month];
    for (int l = 0; l < LW_LANES; l++) {
        out->air_c[0][l] = of->air_c + of->air_sd_k * lanes->warm[l];
        out->wind_m_s[0][l] = of->wind_m_s * exp(wind_log_sd * lanes->gust[l] - 0.5 * wind_log_sd * wind_log_sd);
        for (int d = 0; d < of->days; d++) {
            out->clearness[d][l] = next_deviation(synth, of, lanes, l);
            out->score[d][l] = lanes->score[l];
        }
        size_lane(of, lanes->mean_factor[month][l], lanes->sd_factor[month][l], &synth->day_sum[first_day], l, out);
        const double want = lane_mean(out, &synth->day_sum[first_day], of->days, l);
        for (int d = 0; d < of->days; d++)
            weather_of_day(of, want, d, l, lanes, out);
    }
}
