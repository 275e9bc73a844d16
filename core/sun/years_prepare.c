/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Synthetic years, the part that is the same for every year: docs/models/synthetic-years.md.
 */
#include "hour_clearness.h"
#include "lanewick/stats.h"
#include "lanewick/sun.h"
#include "lanewick/utc.h"
#include "years_inner.h"

#include <math.h>

/* Thirty correlated days have a smaller standard deviation than all days that could have been: measured with this
 * model, the typical month of 30 days falls short by 5 %. The climate's value is that of typical months. */
static const double sample_shortfall = 1.05;

/* Standardised stationary distribution of a matrix: deviation that a share p of its days stays below. */
static double matrix_quantile(const lw_markov *m, double p)
{
    double below = 0.0;
    int i = 0;
    while (i < LW_MARKOV_STATES - 1 && below + m->share[i] < p)
        below += m->share[i++];
    const double inside = m->share[i] > 0.0 ? fmin((p - below) / m->share[i], 1.0) : 0.5;
    return (m->low + (i + inside) * (m->high - m->low) / LW_MARKOV_STATES - m->mean) / m->sd;
}

/* The two nearest matrices' distributions, mixed by how near they are, brought to mean 0 and s.d. 1. */
static void set_deviation(const lw_synth *synth, lw_synth_month *month)
{
    const double place = fmin(fmax((month->clearness - 0.275) / 0.05, 0.0), LW_MARKOV_MATRICES - 1.0);
    const int k = place < LW_MARKOV_MATRICES - 2 ? (int)place : LW_MARKOV_MATRICES - 2;
    const double part = place - k;
    double weight = 0.0, mean = 0.0, square = 0.0;
    for (int i = 0; i < LW_SCORES; i++) {
        const double score = -4.0 + i / 16.0, p = lw_normal_distribution(score), w = exp(-0.5 * score * score);
        const double z =
            (1.0 - part) * matrix_quantile(&synth->matrix[k], p) + part * matrix_quantile(&synth->matrix[k + 1], p);
        month->deviation[i] = z;
        weight += w;
        mean += w * z;
        square += w * z * z;
    }
    mean /= weight;
    const double sd = sqrt(square / weight - mean * mean);
    for (int i = 0; i < LW_SCORES; i++)
        month->deviation[i] = (month->deviation[i] - mean) / sd;
}

/* Wet days from the month's rain: few heavy days where little falls, most days where much does (rough, of ours). */
static void set_rain(lw_synth_month *month, double rain_mm)
{
    const double share = fmin(fmax(1.0 - exp(-rain_mm / 150.0), 0.001), 0.95);
    month->wet_score = lw_normal_quantile(1.0 - share);
    month->wet_day_mm = rain_mm / (share * month->days);
}

static void set_month(lw_synth *synth, const lw_climate *c, int m, double horizontal_kwh)
{
    lw_synth_month *month = &synth->month[m];
    month->days = lw_days_in_month(LW_COMMON_YEAR, m + 1);
    const double mean = horizontal_kwh > 0.02 ? c->ghi_kwh_m2_day[m] / horizontal_kwh : 0.0;
    month->clearness = fmin(mean, 0.85);
    month->day_sd = c->clearness_day_sd[m] * sample_shortfall;
    month->rho = fmin(fmax(c->clearness_day_lag1[m], -0.3), 0.9);
    month->spread = c->ghi_spread_pct[m] / 100.0;
    month->year_sd = c->ghi_year_sd_pct[m] / 100.0;
    month->day_spread = c->clearness_day_sd[m] > 0.0 ? c->clearness_day_sd_spread[m] / c->clearness_day_sd[m] : 0.0;
    month->matrix = lw_markov_class(month->clearness);
    month->air_c = c->t_mean_c[m];
    month->range_k = c->t_range_c[m];
    /* Daily means: 0.6 to 1.2 K in the four tropical years, by their daily range; more where fronts pass (rough). */
    month->air_sd_k = 0.3 + 0.07 * month->range_k + 0.06 * fmax(fabs(c->lat_deg) - 20.0, 0.0);
    month->wind_m_s = c->wind_10m_ms[m];
    set_rain(month, c->rain_mm[m]);
    set_deviation(synth, month);
}

/* Daily course of temperature: Erbs, Klein & Beckman (1983), ASHRAE J. 25(6), 60 (from memory), t = 1..24 solar. */
static double air_shape(double t)
{
    const double tau = 2.0 * lw_pi * (t - 1.0) / 24.0;
    const double course = 0.4632 * cos(tau - 3.805) + 0.0984 * cos(2.0 * tau - 0.360) +
                          0.0168 * cos(3.0 * tau - 0.822) + 0.0138 * cos(4.0 * tau - 3.513);
    return course / 0.976; /* so that highest minus lowest is 1 */
}

/* The wind is strongest at 14.3 h solar time; how much stronger is drawn with each year. */
static void set_courses(lw_synth *synth)
{
    const double east_h = synth->lon_deg / 15.0 - synth->utc_offset_h;
    for (int h = 0; h < 24; h++) {
        synth->air_shape[h] = air_shape(h + 1.0 + east_h);
        synth->wind_course[h] = cos(2.0 * lw_pi * (h + 0.5 + east_h - 14.3) / 24.0);
    }
}

static lw_synth_hour synth_hour(const lw_sun_hour *sun, double solar_time_h)
{
    lw_synth_hour hour = {.horizontal = sun->horizontal_w_m2, .sin_height = fmax(sun->up, 0.03)};
    if (hour.horizontal <= 0.0)
        return hour;
    hour.clear = fmax(lw_tag_clear_sky(solar_time_h), 0.60);
    hour.per_mu = sun->normal_w_m2 / hour.horizontal;
    /* Cleanest beam through the air: form of Meinel & Meinel (1976), with 0.80 in place of their 0.70 (from memory). */
    hour.most_beam = sun->normal_w_m2 * pow(0.80, pow(fmin(hour.per_mu, 38.0), 0.678));
    return hour;
}

static bool set_sun(lw_synth *synth, double month_kwh[LW_MONTHS], lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used;
    lw_sun_hour *sun = lw_arena_take(arena, LW_HOURS, sizeof *sun, err);
    if (!sun || !lw_sun_year(synth->lat_deg, synth->lon_deg, synth->utc_offset_h,
                             (lw_sun_method)synth->options.sun_method, sun, err))
        return false;
    const double east_h = synth->lon_deg / 15.0 - synth->utc_offset_h;
    for (int day = 0, m = 0, first = 0; day < LW_DAYS; day++) {
        if (day - first == lw_days_in_month(LW_COMMON_YEAR, m + 1))
            first += lw_days_in_month(LW_COMMON_YEAR, m++ + 1);
        for (int h = 0; h < 24; h++) {
            const int i = 24 * day + h;
            synth->hour[i] = synth_hour(&sun[i], h + 0.5 + east_h);
            synth->day_sum[day] += synth->hour[i].horizontal;
        }
        month_kwh[m] += synth->day_sum[day] / 1000.0 / lw_days_in_month(LW_COMMON_YEAR, m + 1);
    }
    arena->used = used;
    return true;
}

size_t lw_synth_bytes(void)
{
    return sizeof(lw_synth) + LW_HOURS * sizeof(lw_sun_hour) + 256;
}

static bool check(const lw_climate *climate, const lw_synth_options *options, lw_error *err)
{
    if (!lw_in_range(err, "climate_uncertainty", options->climate_uncertainty, 0.0, 1.0, "") ||
        !lw_in_range(err, "day_spread_uncertainty", options->day_spread_uncertainty, 0.0, 1.0, "") ||
        !lw_all_in_range(err, "clearness", climate->clearness, LW_MONTHS, 0.0, 0.85, "") ||
        !lw_all_in_range(err, "clearness_day_sd", climate->clearness_day_sd, LW_MONTHS, 0.0, 0.4, ""))
        return false;
    const bool known = options->sun_method == LW_SUN_SPENCER_DAILY || options->sun_method == LW_SUN_ALMANAC;
    return known || lw_fail(err, LW_WRONG_INPUT, "sun_method", "sun_method is %d, it must be %d or %d",
                            options->sun_method, LW_SUN_SPENCER_DAILY, LW_SUN_ALMANAC);
}

lw_synth *lw_synth_prepare(const lw_climate *climate, double utc_offset_h, const lw_synth_options *options,
                           lw_arena *arena, lw_error *err)
{
    const size_t used = arena->used;
    double month_kwh[LW_MONTHS] = {0.0};
    if (!check(climate, options, err))
        return NULL;
    lw_synth *synth = lw_arena_take(arena, 1, sizeof *synth, err);
    if (!synth)
        return NULL;
    synth->options = *options;
    synth->lat_deg = climate->lat_deg;
    synth->lon_deg = climate->lon_deg;
    synth->elev_m = climate->elev_m;
    synth->utc_offset_h = utc_offset_h;
    if (!set_sun(synth, month_kwh, arena, err)) {
        arena->used = used;
        return NULL;
    }
    for (int k = 0; k < LW_MARKOV_MATRICES; k++)
        synth->matrix[k] = lw_markov_of(k);
    for (int m = 0; m < LW_MONTHS; m++)
        set_month(synth, climate, m, month_kwh[m]);
    set_courses(synth);
    return synth;
}
