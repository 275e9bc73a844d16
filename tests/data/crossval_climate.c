/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Cross-validation of the climate with the program's own code: every measured station is estimated with its
 * own number and all stations nearer than R km left out, for several R. Prints errors and coverage by band of
 * latitude and fails when they pass the limits stated in docs/models/climate.md. The regression constants
 * were found with all stations; data/climate/fit prints what leaving out changes there (0.1 to 0.4 points).
 */
#include "core/sun/climate_inner.h"
#include "csv.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MAX_STATIONS = 2000, BANDS = 5 };
static const double band_edge[BANDS + 1] = {0.0, 15.0, 25.0, 35.0, 45.0, 60.0};

typedef struct station {
    double lat_deg, lon_deg, elev_m, ghi[12], day_sd[12];
    uint32_t wmo;
} station;

/* Sums of one band: relative errors, absolute errors, coverage of the spread, day spread. */
typedef struct tally {
    double n, error, error2, diff, diff2, ghi, inside1, inside2, spread, day_error, day_error2, day_inside;
} tally;

static size_t read_stations(const char *path, station *out)
{
    csv c;
    size_t n = 0;
    for (csv_open(&c, path); csv_next(&c); n++) {
        if (n == MAX_STATIONS)
            csv_stop(&c, "too many rows");
        station *s = &out[n];
        s->lat_deg = csv_number(&c, csv_column(&c, "lat_deg"), -90, 90, NAN);
        s->lon_deg = csv_number(&c, csv_column(&c, "lon_deg"), -180, 180, NAN);
        s->elev_m = csv_number(&c, csv_column(&c, "elev_m"), -430, 8850, NAN);
        csv_months(&c, "ghi_kwh_m2_day", 0.1, 12, s->ghi);
        csv_months(&c, "kt_day_sd", 0.005, 0.5, s->day_sd);
        const char *id = c.row[csv_column(&c, "wmo_id")];
        s->wmo = (uint32_t)(strtoul(id + strcspn(id, "0123456789"), NULL, 10) % 10000000);
    }
    return n;
}

static void add_month(tally *t, const lw_climate *c, const station *s, int m)
{
    const double error = c->ghi_kwh_m2_day[m] / s->ghi[m] - 1.0, diff = c->ghi_kwh_m2_day[m] - s->ghi[m];
    const double sd = c->ghi_spread_pct[m] / 100.0, off = fabs(log1p(error));
    const double day = log(c->clearness_day_sd[m] / s->day_sd[m]);
    const double day_sd = hypot(c->clearness_day_sd_spread[m] / c->clearness_day_sd[m], 0.13); /* 30 days scatter */
    t->n += 1.0;
    t->error += error;
    t->error2 += error * error;
    t->diff += diff;
    t->diff2 += diff * diff;
    t->ghi += s->ghi[m];
    t->inside1 += off < sd;
    t->inside2 += off < 1.645 * sd;
    t->spread += sd;
    t->day_error += day;
    t->day_error2 += day * day;
    t->day_inside += fabs(day) < day_sd;
}

static tally sum_of(const tally *t, int from, int to)
{
    tally sum = {0};
    for (int b = from; b < to; b++)
        for (size_t i = 0; i < sizeof sum / sizeof(double); i++)
            ((double *)&sum)[i] += ((const double *)&t[b])[i];
    return sum;
}

static double rmse_pct(const tally *t)
{
    return 100.0 * sqrt(t->error2 / t->n);
}
static double mean_rmse_pct(const tally *t)
{
    return 100.0 * sqrt(t->diff2 / t->n) / (t->ghi / t->n);
}
static double mean_bias_pct(const tally *t)
{
    return 100.0 * t->diff / t->ghi;
}

static void print_line(double radius, double low, double high, const tally *t)
{
    printf("%6.0f  %2.0f-%2.0f %7.0f %7.2f %7.2f %8.2f %7.2f %8.1f %6.1f %6.1f %8.2f %6.2f %6.1f\n", radius, low, high,
           t->n, 100.0 * t->error / t->n, rmse_pct(t), mean_bias_pct(t), mean_rmse_pct(t), 100.0 * t->spread / t->n,
           100.0 * t->inside1 / t->n, 100.0 * t->inside2 / t->n, t->day_error / t->n, sqrt(t->day_error2 / t->n),
           100.0 * t->day_inside / t->n);
}

/* Limits a little above what was measured; 25..60 degrees relative errors carry the noise of single typical years. */
static int check(const char *what, double value, double low, double high)
{
    if (value >= low && value <= high)
        return 0;
    printf("FAILED: %s is %.2f, allowed %.2f to %.2f\n", what, value, low, high);
    return 1;
}

static int check_limits(double radius, const tally *tropics, const tally *rest)
{
    if (radius > 300.0)
        return 0;
    return check("RMSE below 25 degrees, %", rmse_pct(tropics), 0.0, 8.0) +
           check("bias below 25 degrees, %", 100.0 * tropics->error / tropics->n, -2.0, 2.0) +
           check("RMSE of the mean, 25 to 60 degrees, %", mean_rmse_pct(rest), 0.0, 9.0) +
           check("bias of the mean, 25 to 60 degrees, %", mean_bias_pct(rest), -1.5, 1.5) +
           check("inside one spread below 25 degrees, %", 100.0 * tropics->inside1 / tropics->n, 63.0, 80.0) +
           check("inside one spread, 25 to 60 degrees, %", 100.0 * rest->inside1 / rest->n, 63.0, 76.0) +
           check("inside 1.645 spreads below 25 degrees, %", 100.0 * tropics->inside2 / tropics->n, 86.0, 96.0) +
           check("inside 1.645 spreads, 25 to 60 degrees, %", 100.0 * rest->inside2 / rest->n, 84.0, 95.0);
}

static int run_radius(const lw_climate_data *data, const station *s, size_t count, double radius)
{
    tally bands[BANDS] = {0};
    for (size_t i = 0; i < count; i++) {
        const lw_climate_skip skip = {radius, s[i].wmo};
        lw_climate c;
        lw_error err = {0};
        if (!lw_climate_at_without(data, s[i].lat_deg, s[i].lon_deg, s[i].elev_m, &skip, &c, &err)) {
            printf("FAILED: %s\n", err.message);
            return 1;
        }
        int b = 0;
        while (b < BANDS - 1 && fabs(s[i].lat_deg) >= band_edge[b + 1])
            b++;
        for (int m = 0; m < 12; m++)
            add_month(&bands[b], &c, &s[i], m);
    }
    for (int b = 0; b < BANDS; b++)
        print_line(radius, band_edge[b], band_edge[b + 1], &bands[b]);
    const tally tropics = sum_of(bands, 0, 2), rest = sum_of(bands, 2, BANDS);
    print_line(radius, 0.0, 25.0, &tropics);
    print_line(radius, 25.0, 60.0, &rest);
    return check_limits(radius, &tropics, &rest);
}

int main(int argc, char **argv)
{
    static station stations[MAX_STATIONS];
    static const double radii[] = {1.0, 30.0, 100.0, 300.0, 1000.0};
    lw_climate_data data;
    lw_error err = {0};
    if (argc != 2 || !lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, &err)) {
        printf("usage: crossval_climate measured-ghi.csv %s\n", err.message);
        return 2;
    }
    const size_t count = read_stations(argv[1], stations);
    int failures = check("stations read", (double)count, 1441.0, 1441.0);
    printf("left out  |lat|  values  relative error, %%  of the mean, %%   spread, %%, inside        days: log error, "
           "inside\n"
           "    km     deg            bias    RMSE     bias    RMSE     mean  1 sd  1.645     bias   RMSE  1 sd\n");
    for (size_t i = 0; i < sizeof radii / sizeof radii[0]; i++)
        failures += run_radius(&data, stations, count, radii[i]);
    return failures > 0;
}
