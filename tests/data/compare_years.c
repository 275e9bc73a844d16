/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Synthetic years against four real hourly years (tests/data/weather), made from nothing but the real year's twelve
 * monthly means: distribution of daily clearness (Kolmogorov-Smirnov distance), spread and lag-1 correlation within
 * months, lowest means of 5 and 10 days, longest run of dull days. Prints the table of
 * docs/models/synthetic-years.md and fails when the default model leaves the limits stated there.
 *
 * usage: compare_years DIRECTORY
 */
#include "lanewick/stats.h"
#include "lanewick/sun.h"
#include "lanewick/weather.h"
#include "lanewick/years.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { YEARS = 13 * LW_LANES, SITES = 4 };
static const char *const sites[SITES] = {"addis-ababa", "colombo-katunayake", "guam-andersen", "huehuetenango"};
static const int month_days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};

/* What is compared, of one year of daily clearness. */
typedef struct traits {
    double spread, lag1, low5, low10, run;
} traits;

typedef struct variant {
    const char *name;
    lw_day_series series;
    enum { MODEL_SPREAD, OWN_SPREAD, MATRIX_SPREAD } spread;
} variant;

static const variant variants[] = {
    {"place, model spread", LW_DAYS_PLACE, MODEL_SPREAD},
    {"place, own spread", LW_DAYS_PLACE, OWN_SPREAD},
    {"chain, own spread", LW_DAYS_CHAIN, OWN_SPREAD},
    {"chain as published", LW_DAYS_CHAIN, MATRIX_SPREAD},
};
enum { VARIANTS = sizeof variants / sizeof variants[0] };
/* Standard deviations of the ten matrices (figure markov_clearness). */
static const double matrix_sd[10] = {0.155, 0.166, 0.165, 0.166, 0.166, 0.155, 0.152, 0.134, 0.116, 0.071};

static void stop(const char *message)
{
    fprintf(stderr, "%s\n", message);
    exit(1);
}

static void *take(size_t size)
{
    void *memory = malloc(size);
    if (!memory)
        stop("no memory");
    return memory;
}

static lw_weather_year *read_year(const char *directory, const char *site)
{
    enum { MOST = 1 << 20 };
    char path[4096];
    lw_error err = {0};
    lw_weather_year *year = take(sizeof *year);
    char *bytes = take(MOST);
    snprintf(path, sizeof path, "%s/%s.csv", directory, site);
    FILE *file = fopen(path, "rb");
    if (!file)
        stop(path);
    const size_t length = fread(bytes, 1, MOST, file);
    fclose(file);
    if (!lw_weather_read(bytes, length, year, &err))
        stop(err.message);
    free(bytes);
    return year;
}

static void day_clearness(const double *ghi, size_t stride, const double above[LW_DAYS], double k[LW_DAYS])
{
    for (int d = 0; d < LW_DAYS; d++) {
        double sum = 0.0;
        for (int h = 24 * d; h < 24 * d + 24; h++)
            sum += ghi[(size_t)h * stride];
        k[d] = sum / above[d];
    }
}

static double lag1(const double *x, int n)
{
    const double mean = lw_mean(x, (size_t)n);
    double above = 0.0, below = 0.0;
    for (int i = 0; i < n; i++) {
        below += (x[i] - mean) * (x[i] - mean);
        above += i ? (x[i] - mean) * (x[i - 1] - mean) : 0.0;
    }
    return above / below;
}

static double lowest_mean(const double k[LW_DAYS], int days)
{
    double lowest = 9.0;
    for (int d = 0; d + days <= LW_DAYS; d++)
        lowest = fmin(lowest, lw_mean(k + d, (size_t)days));
    return lowest;
}

static traits traits_of(const double k[LW_DAYS])
{
    traits t = {.low5 = lowest_mean(k, 5), .low10 = lowest_mean(k, 10)};
    double square = 0.0;
    int run = 0;
    for (int m = 0, first = 0; m < 12; first += month_days[m++]) {
        const double mean = lw_mean(k + first, (size_t)month_days[m]);
        const double c = lw_standard_deviation(k + first, (size_t)month_days[m]) / (1.0 - mean);
        square += c * c / 12.0;
        t.lag1 += lag1(k + first, month_days[m]) / 12.0;
        for (int d = first; d < first + month_days[m]; d++) {
            run = k[d] < 0.9 * mean ? run + 1 : 0;
            t.run = fmax(t.run, run);
        }
    }
    t.spread = sqrt(square);
    return t;
}

/* Largest distance of two distributions; both samples sorted. */
static double distance(const double *a, size_t n, const double *b, size_t m)
{
    double most = 0.0;
    for (size_t i = 0, j = 0; i < n; i++) {
        while (j < m && b[j] < a[i])
            j++;
        const double share = (double)j / (double)m;
        most = fmax(most, fmax(fabs(share - (double)i / (double)n), fabs(share - (double)(i + 1) / (double)n)));
    }
    return most;
}

static lw_climate climate_of(const lw_weather_year *year, const double real[LW_DAYS], const variant *v)
{
    double ghi[12], air[12], range[12], wind[12];
    lw_climate c;
    lw_error err = {0};
    for (int m = 0; m < 12; m++) {
        const lw_weather_month mean = lw_weather_mean(year, m + 1);
        ghi[m] = mean.ghi_kwh_m2_day;
        air[m] = mean.air_c;
        range[m] = mean.air_range_k;
        wind[m] = mean.wind_m_s;
    }
    if (!lw_climate_from_means(year->lat_deg, year->lon_deg, year->elev_m, ghi, air, range, wind, NULL, &c, &err))
        stop(err.message);
    for (int m = 0, first = 0; m < 12; first += month_days[m++])
        if (v->spread == OWN_SPREAD)
            c.clearness_day_sd[m] = lw_standard_deviation(real + first, (size_t)month_days[m]);
        else if (v->spread == MATRIX_SPREAD)
            c.clearness_day_sd[m] = matrix_sd[(int)fmin(fmax(ceil((c.clearness[m] - 0.30) / 0.05), 0.0), 9.0)];
    return c;
}

typedef struct samples {
    double k[YEARS * LW_DAYS], spread[YEARS], lag1[YEARS], low5[YEARS], low10[YEARS], run[YEARS];
} samples;

static void simulate(const lw_weather_year *year, const lw_climate *c, const variant *v, const double above[LW_DAYS],
                     samples *out)
{
    const lw_synth_options options = {.seed = 5,
                                      .exact_means = true,
                                      .day_spread_uncertainty = v->spread == MODEL_SPREAD ? 1.0 : 0.0,
                                      .day_series = v->series};
    lw_weather_block *block = take(sizeof *block);
    void *memory = take(lw_synth_bytes());
    lw_arena arena = lw_arena_over(memory, lw_synth_bytes());
    lw_error err = {0};
    lw_synth *synth = lw_synth_prepare(c, year->utc_offset_h, &options, &arena, &err);
    if (!synth)
        stop(err.message);
    for (int y = 0; y < YEARS; y += LW_LANES) {
        lw_synth_block(synth, (uint32_t)y, block);
        for (int l = 0; l < LW_LANES; l++) {
            double *k = out->k + (size_t)(y + l) * LW_DAYS;
            day_clearness(&block->ghi_w_m2[0][l], LW_LANES, above, k);
            const traits t = traits_of(k);
            out->spread[y + l] = t.spread;
            out->lag1[y + l] = t.lag1;
            out->low5[y + l] = t.low5;
            out->low10[y + l] = t.low10;
            out->run[y + l] = t.run;
        }
    }
    lw_sort(out->k, YEARS * LW_DAYS);
    free(memory);
    free(block);
}

/* Prints mean and 10 to 90 % band; true when the real value lies in the wider band of 1 to 99 %. */
static bool show(const char *name, double real, double *x)
{
    lw_sort(x, YEARS);
    printf("  %s %.3f: %.3f (%.3f..%.3f)", name, real, lw_mean(x, YEARS), lw_quantile_sorted(x, YEARS, 0.1),
           lw_quantile_sorted(x, YEARS, 0.9));
    return real >= lw_quantile_sorted(x, YEARS, 0.01) && real <= lw_quantile_sorted(x, YEARS, 0.99);
}

static int compare(const char *directory, const char *site, double ks[VARIANTS], double *lag_real, double *lag_synth)
{
    lw_weather_year *year = read_year(directory, site);
    lw_sun_hour *sun = take(LW_HOURS * sizeof *sun);
    samples *s = take(sizeof *s);
    lw_error err = {0};
    double above[LW_DAYS] = {0.0}, real[LW_DAYS], sorted[LW_DAYS];
    int failed = 0;
    if (!lw_sun_year(year->lat_deg, year->lon_deg, year->utc_offset_h, LW_SUN_SPENCER_DAILY, sun, &err))
        stop(err.message);
    for (int i = 0; i < LW_HOURS; i++)
        above[i / 24] += sun[i].horizontal_w_m2;
    day_clearness(year->ghi_w_m2, 1, above, real);
    memcpy(sorted, real, sizeof sorted);
    lw_sort(sorted, LW_DAYS);
    const traits t = traits_of(real);
    for (int v = 0; v < VARIANTS; v++) {
        const lw_climate c = climate_of(year, real, &variants[v]);
        simulate(year, &c, &variants[v], above, s);
        ks[v] += distance(sorted, LW_DAYS, s->k, YEARS * LW_DAYS) / SITES;
        printf("%s, %s: KS %.3f", site, variants[v].name, distance(sorted, LW_DAYS, s->k, YEARS * LW_DAYS));
        bool inside = show("c", t.spread, s->spread);
        *lag_synth += v == 0 ? lw_mean(s->lag1, YEARS) / SITES : 0.0;
        inside &= show("lag1", t.lag1, s->lag1) || t.lag1 < 0.15; /* Guam's days hardly follow one another */
        inside &= show("low5", t.low5, s->low5);
        inside &= show("low10", t.low10, s->low10);
        inside &= show("run", t.run, s->run);
        printf("%s\n", inside ? "" : "  (outside)");
        failed += v == 0 && !inside;
    }
    *lag_real += t.lag1 / SITES;
    free(s);
    free(sun);
    free(year);
    return failed;
}

int main(int count, char **words)
{
    double ks[VARIANTS] = {0.0}, lag_real = 0.0, lag_synth = 0.0;
    int failed = 0;
    if (count != 2)
        stop("usage: compare_years DIRECTORY");
    for (int i = 0; i < SITES; i++)
        failed += compare(words[1], sites[i], ks, &lag_real, &lag_synth);
    for (int v = 0; v < VARIANTS; v++)
        printf("mean KS distance, %s: %.3f\n", variants[v].name, ks[v]);
    printf("mean lag-1: real %.3f, synthetic %.3f\n", lag_real, lag_synth);
    /* A year of 365 days that follow one another lies about 0.04 from its own distribution. */
    failed += ks[0] > 0.09 || ks[1] > 0.055 || ks[0] > 0.7 * ks[3] || fabs(lag_real - lag_synth) > 0.06;
    return failed ? 1 : 0;
}
