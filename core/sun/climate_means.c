/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Climate from the user's own monthly means; catches radiation in a wrong unit. What is left out is filled
 * with rough values that only steer the model of the days and the cell temperature.
 */
#include "climate_inner.h"
#include "lanewick/extraterrestrial.h"

#include <math.h>
#include <stdio.h>

/* No month on Earth passes a clearness of 0.85 or stays below 0.05. */
static const double clearest = 0.85, darkest = 0.05;

typedef struct lw_means {
    const double *ghi, *t_c, *range_k, *wind_ms, *rain_mm; /* 12 each; all but ghi may be NULL */
} lw_means;

static const char *wrong_unit(double clearness)
{
    static const struct {
        double factor;
        const char *text;
    } units[] = {{1000.0, "; it looks like Wh/m2 a day: divide by 1000"},
                 {1000.0 / 24.0,
                  "; it looks like a mean in W/m2 (multiply by 0.024) or the sum of the month (divide by its days)"},
                 {3.6, "; it looks like MJ/m2 a day: divide by 3.6"},
                 {0.001, "; it looks like MWh/m2 a day: multiply by 1000"}};
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
        if (clearness / units[i].factor >= 0.2 && clearness / units[i].factor <= 0.8)
            return units[i].text;
    return "";
}

/* The year as a whole tells a wrong unit best; then each month must be possible. */
static bool check_radiation(double lat_deg, const double *ghi, const double *h0, lw_error *err)
{
    double sum = 0.0, sum0 = 0.0;
    for (int m = 0; m < 12; m++) {
        sum += ghi[m];
        sum0 += h0[m];
    }
    for (int m = 0; m < 12; m++) {
        const double low = h0[m] > 0.3 ? darkest * h0[m] : 0.0, high = clearest * h0[m] + 0.02;
        if (ghi[m] >= low && ghi[m] <= high)
            continue;
        char field[32];
        snprintf(field, sizeof field, "ghi_kwh_m2_day[%d]", m + 1);
        return lw_fail(err, LW_WRONG_INPUT, field,
                       "%s is %g, at latitude %g it must lie between %.2f and %.2f kWh/m2 a day%s", field, ghi[m],
                       lat_deg, low, high, wrong_unit(sum / sum0));
    }
    return true;
}

/* Rough zonal temperature: 28 degC at the equator, falling with the square of latitude and 5.5 K/km. */
static double zonal_t_c(double lat_deg, double elev_m, int month)
{
    const double season = cos((month - 6.3) * 30.0 * LW_RAD) * (lat_deg < 0.0 ? -1.0 : 1.0);
    return 28.0 - 0.0085 * lat_deg * lat_deg + 0.25 * fabs(lat_deg) * season - 0.0055 * elev_m;
}

static bool optional(const double *values, const char *field, double low, double high, const char *unit, lw_error *err)
{
    return !values || lw_all_in_range(err, field, values, 12, low, high, unit);
}

static bool check_ranges(const lw_means *given, lw_error *err)
{
    return lw_all_in_range(err, "ghi_kwh_m2_day", given->ghi, 12, 0.0, 1e6, "kWh/m2 a day") &&
           optional(given->t_c, "t_mean_c", -70.0, 50.0, "degC", err) &&
           optional(given->range_k, "t_range_c", 0.0, 35.0, "K", err) &&
           optional(given->wind_ms, "wind_10m_ms", 0.0, 30.0, "m/s", err) &&
           optional(given->rain_mm, "rain_mm", 0.0, 5000.0, "mm", err);
}

static double or_else(const double *values, int month, double fallback)
{
    return values ? values[month] : fallback;
}

static void fill_month(lw_climate *out, int m, double h0, const lw_means *given)
{
    out->ghi_kwh_m2_day[m] = given->ghi[m];
    out->clearness[m] = h0 > 0.0 ? fmin(given->ghi[m] / h0, clearest) : 0.0;
    out->t_mean_c[m] = or_else(given->t_c, m, zonal_t_c(out->lat_deg, out->elev_m, m));
    out->t_range_c[m] = or_else(given->range_k, m, 10.0);
    out->wind_10m_ms[m] = or_else(given->wind_ms, m, 3.0);
    out->rain_mm[m] = or_else(given->rain_mm, m, 60.0);
    lw_climate_days(out, m, 0.0, 0.15 * 0.15); /* without neighbours the day residual keeps its whole scatter */
}

static void say_basis(lw_climate *out, const lw_means *given)
{
    const bool all = given->t_c && given->range_k && given->wind_ms && given->rain_mm;
    snprintf(out->basis, sizeof out->basis, "monthly radiation as given%s%s%s%s%s",
             all ? "" : "; not given and roughly filled:", given->t_c ? "" : " temperature",
             given->range_k ? "" : " daily range", given->wind_ms ? "" : " wind", given->rain_mm ? "" : " rain");
}

bool lw_climate_from_means(double lat_deg, double lon_deg, double elev_m, const double ghi_kwh_m2_day[12],
                           const double *t_mean_c, const double *t_range_c, const double *wind_10m_ms,
                           const double *rain_mm, lw_climate *out, lw_error *err)
{
    const lw_means given = {ghi_kwh_m2_day, t_mean_c, t_range_c, wind_10m_ms, rain_mm};
    double h0[12];
    if (!lw_climate_place(lat_deg, lon_deg, elev_m, out, err) || !check_ranges(&given, err))
        return false;
    for (int m = 0; m < 12; m++)
        h0[m] = lw_h0_month_kwh_m2(lat_deg, m + 1);
    if (!check_radiation(lat_deg, ghi_kwh_m2_day, h0, err))
        return false;
    if (isnan(elev_m))
        out->elev_m = 0.0;
    for (int m = 0; m < 12; m++)
        fill_month(out, m, h0[m], &given);
    say_basis(out, &given);
    return true;
}
