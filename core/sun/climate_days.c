/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * How wild the days of a month are: c = standard deviation of daily clearness / (1 - monthly clearness), its
 * scatter, the correlation of neighbouring days, and what both imply for single years. Constants: ridge
 * regressions over 17,000 station-months, data/climate/fit/fit_days.py prints them.
 */
#include "climate_inner.h"

#include <math.h>

static double clamp(double x, double low, double high)
{
    return x < low ? low : (x > high ? high : x);
}

/* Stands for the vapour pressure of the air: the night's lowest temperature is near the dew point. */
static double vapour(double t_c, double range_k)
{
    return exp(0.065 * clamp(t_c - range_k / 2.0, -25.0, 28.0)) / 5.0;
}

double lw_day_sd_log(double lat_deg, int month, double clearness, double rain_mm, double range_k, double t_c)
{
    const double lat = fmin(fabs(lat_deg), 50.0) / 30.0, kt = clamp(clearness, 0.15, 0.82);
    return -2.3246 + 0.8146 * lat - 0.5711 * lat * lat + 1.6564 * kt - 2.1633 * kt * kt +
           0.0334 * log1p(rain_mm / 30.0) + 0.0626 * range_k / 10.0 +
           0.1185 * clamp(lw_noon_height(lat_deg, month), 0.25, 1.0) - 0.3304 * vapour(t_c, range_k) +
           1.0592 * lat * kt;
}

/* Means by latitude, freed of what 30 days hide: a correlation found in n days is low by about (1 + 4 rho) / n
 * (Kendall 1954, Biometrika 41, 403). Stations scatter by 0.09 about it; clearness tells nothing more. */
static double day_lag1(double lat_deg)
{
    return 0.35 - 0.05 * clamp((fabs(lat_deg) - 30.0) / 10.0, 0.0, 1.0);
}

/* Measured scatter of log c about the model between stations, without the scatter that a sample of 30 days has
 * anyway (0.13): 0.23 in the tropics, 0.12 from 38 degrees on. */
static double model_scatter(double lat_deg)
{
    return 0.23 - 0.11 * clamp((fabs(lat_deg) - 25.0) / 13.0, 0.0, 1.0);
}

void lw_climate_days(lw_climate *c, int month, double log_residual, double variance)
{
    const double kt = c->clearness[month];
    if (kt <= 0.0)
        return;
    const double t = c->t_mean_c[month], range = c->t_range_c[month], scatter = model_scatter(c->lat_deg);
    const double rho = day_lag1(c->lat_deg);
    const double sd =
        (1.0 - kt) * exp(lw_day_sd_log(c->lat_deg, month, kt, c->rain_mm[month], range, t) + log_residual);
    c->clearness_day_sd[month] = sd;
    c->clearness_day_sd_spread[month] = sd * sqrt(scatter * scatter + variance);
    c->clearness_day_lag1[month] = rho;
    /* Scatter of the mean of 30.4 such days: what the weather of single days alone does to a single year. */
    c->ghi_year_sd_pct[month] = 100.0 * sd / kt * sqrt((1.0 + rho) / (1.0 - rho) / 30.4);
}
