/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Synthetic years: means, energy, limits, repeatability, uncertainty draws, refusals. Against real years:
 * test_years_real.c.
 */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "core/sun/markov.h"
#include "core/sun/quick_exp.h"
#include "core/sun/years_inner.h"
#include "lanewick/stats.h"
#include "lanewick/sun.h"

/* An invented lake shore with a rainy season, and places where things go wrong: far north, cloudy, desert. */
static const double shore_ghi[12] = {5.13, 5.27, 5.41, 5.48, 5.33, 5.02, 5.21, 5.92, 6.47, 6.61, 6.12, 5.31};
static const double shore_air[12] = {24.1, 24.0, 24.2, 23.9, 22.7, 20.9, 20.6, 21.8, 24.1, 26.2, 26.1, 24.9};
static const double shore_range[12] = {7.1, 7.3, 7.6, 7.9, 9.4, 10.1, 10.6, 11.2, 11.3, 10.8, 9.1, 7.7};
static const double shore_wind[12] = {1.9, 1.8, 2.1, 2.9, 3.4, 3.8, 3.9, 3.7, 3.5, 3.3, 2.7, 2.1};
static const double shore_rain[12] = {243, 221, 259, 97, 13, 2, 1, 1, 2, 9, 61, 214};
static const double arctic_ghi[12] = {0, 0.05, 0.9, 2.9, 4.8, 5.0, 4.4, 2.7, 1.2, 0.25, 0, 0};

static lw_climate shore(void)
{
    lw_climate c;
    lw_error err = {0};
    if (!lw_climate_from_means(-11.62, 34.27, 480.0, shore_ghi, shore_air, shore_range, shore_wind, shore_rain, &c,
                               &err))
        fail_msg("%s", err.message);
    return c;
}

typedef struct bench {
    lw_synth *synth;
    void *memory;
    lw_weather_block *block;
    lw_weather_year *year;
} bench;

static bench set_up(const lw_climate *c, double offset_h, const lw_synth_options *options)
{
    bench b = {.memory = malloc(lw_synth_bytes()), .block = malloc(sizeof *b.block), .year = malloc(sizeof *b.year)};
    lw_error err = {0};
    lw_arena arena = lw_arena_over(b.memory, lw_synth_bytes());
    b.synth = lw_synth_prepare(c, offset_h, options, &arena, &err);
    if (!b.synth)
        fail_msg("%s", err.message);
    return b;
}

static void tear_down(bench *b)
{
    free(b->memory);
    free(b->block);
    free(b->year);
}

static void month_means(const lw_weather_block *block, int lane, double mean[12])
{
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    for (int m = 0, i = 0; m < 12; m++) {
        mean[m] = 0.0;
        for (const int end = i + 24 * days[m]; i < end; i++)
            mean[m] += block->ghi_w_m2[i][lane] / 1000.0 / days[m];
    }
}

static void test_quick_exp(void **state)
{
    (void)state;
    for (double x = -690.0; x < 690.0; x += 0.0737)
        assert_true(fabs(lw_quick_exp(x) / exp(x) - 1.0) < 3e-13);
}

/* data/markov/aguiar_mtm.csv is the source; the C table must say the same. */
static void test_table_is_the_file(void **state)
{
    (void)state;
    FILE *file = fopen(LW_SOURCE_DIR "/data/markov/aguiar_mtm.csv", "r");
    assert_non_null(file);
    char line[400];
    int rows = 0, edges = 0;
    while (fgets(line, sizeof line, file)) {
        char *at = line;
        const char *from = strstr(line, "from ");
        if (strncmp(line, "# matrix ", 9) == 0 && from) {
            const long matrix = strtol(line + 9, NULL, 10);
            assert_true(strtod(from + 5, &at) == lw_markov_low[matrix - 1]);
            assert_true(strtod(at + 4, NULL) == lw_markov_high[matrix - 1]); /* after " to " */
            edges++;
        }
        if (line[0] < '0' || line[0] > '9')
            continue;
        const long matrix = strtol(line, &at, 10), row = strtol(at + 1, &at, 10);
        double sum = 0.0;
        for (int j = 0; j < LW_MARKOV_STATES; j++) {
            const double value = strtod(at + 1, &at);
            assert_true(value == lw_markov_listed[matrix - 1][row - 1][j]);
            sum += value;
        }
        assert_true(fabs(sum - 1.0) < 0.0031);
        rows++;
    }
    fclose(file);
    assert_int_equal(rows, 100);
    assert_int_equal(edges, 10);
}

static void test_exact_means(void **state)
{
    (void)state;
    const lw_climate c = shore();
    for (int series = LW_DAYS_PLACE; series <= LW_DAYS_CHAIN; series++) {
        const lw_synth_options options = {
            .seed = 3, .exact_means = true, .day_spread_uncertainty = 1.0, .day_series = (lw_day_series)series};
        bench b = set_up(&c, 2.0, &options);
        lw_synth_block(b.synth, 40, b.block);
        for (int l = 0; l < LW_LANES; l++) {
            double mean[12];
            month_means(b.block, l, mean);
            for (int m = 0; m < 12; m++)
                assert_true(fabs(mean[m] / shore_ghi[m] - 1.0) < 1e-9);
        }
        tear_down(&b);
    }
}

/* Over many years the means come back within 1 %, and single years scatter as the climate says. */
static void test_years_vary_about_the_means(void **state)
{
    (void)state;
    enum { YEARS = 400 };
    static double mean[12][YEARS];
    const lw_climate c = shore();
    const lw_synth_options options = {.seed = 11};
    bench b = set_up(&c, 2.0, &options);
    for (int y = 0; y < YEARS; y += LW_LANES) {
        lw_synth_block(b.synth, (uint32_t)y, b.block);
        for (int l = 0; l < LW_LANES; l++) {
            double of[12];
            month_means(b.block, l, of);
            for (int m = 0; m < 12; m++)
                mean[m][y + l] = of[m];
        }
    }
    for (int m = 0; m < 12; m++) {
        const double sd_pct = 100.0 * lw_standard_deviation(mean[m], YEARS) / shore_ghi[m];
        const double stated = sqrt(c.ghi_year_sd_pct[m] * c.ghi_year_sd_pct[m] + 2.5 * 2.5);
        assert_true(fabs(lw_mean(mean[m], YEARS) / shore_ghi[m] - 1.0) < 0.01);
        assert_true(sd_pct > 0.88 * stated && sd_pct < 1.12 * stated);
    }
    tear_down(&b);
}

static void test_climate_uncertainty_moves_the_means(void **state)
{
    (void)state;
    enum { YEARS = 400 };
    static double january[YEARS], july[YEARS];
    lw_climate c = shore();
    for (int m = 0; m < 12; m++)
        c.ghi_spread_pct[m] = 6.0;
    const lw_synth_options options = {.seed = 12, .exact_means = true, .climate_uncertainty = 1.0};
    bench b = set_up(&c, 2.0, &options);
    double product = 0.0;
    for (int y = 0; y < YEARS; y += LW_LANES) {
        lw_synth_block(b.synth, (uint32_t)y, b.block);
        for (int l = 0; l < LW_LANES; l++) {
            double of[12];
            month_means(b.block, l, of);
            january[y + l] = 100.0 * (of[0] / shore_ghi[0] - 1.0);
            july[y + l] = 100.0 * (of[6] / shore_ghi[6] - 1.0);
            product += january[y + l] * july[y + l] / YEARS;
        }
    }
    const double sd = lw_standard_deviation(january, YEARS), other = lw_standard_deviation(july, YEARS);
    assert_true(fabs(sd - 6.0) < 0.7 && fabs(other - 6.0) < 0.7);
    const double correlation = product / sd / other; /* two thirds of the error is common to all months */
    assert_true(correlation > 0.55 && correlation < 0.80);
    tear_down(&b);
}

static void test_energy_and_limits(void **state)
{
    (void)state;
    const lw_climate c = shore();
    const lw_synth_options options = {.seed = 5, .day_spread_uncertainty = 1.0};
    static lw_sun_hour sun[LW_HOURS];
    lw_error err = {0};
    assert_true(lw_sun_year(-11.62, 34.27, 2.0, LW_SUN_SPENCER_DAILY, sun, &err));
    bench b = set_up(&c, 2.0, &options);
    lw_synth_block(b.synth, 0, b.block);
    for (int i = 0; i < LW_HOURS; i++)
        for (int l = 0; l < LW_LANES; l++) {
            const double ghi = b.block->ghi_w_m2[i][l], dhi = b.block->dhi_w_m2[i][l], dni = b.block->dni_w_m2[i][l];
            const double above = sun[i].horizontal_w_m2, mu = above / sun[i].normal_w_m2;
            assert_true(fabs(ghi - dhi - dni * mu) < 1e-9 * (1.0 + ghi)); /* energy */
            assert_true(dhi >= 0.0 && dni >= 0.0 && dni < 0.81 * sun[i].normal_w_m2);
            assert_true(above > 0.0 ? ghi > 0.0 && ghi < 0.90 * above : ghi == 0.0); /* dark nights, clear caps */
            assert_true(b.block->wind_m_s[i][l] > 0.0 && b.block->wind_m_s[i][l] < 30.0);
            assert_true(b.block->air_c[i][l] > 5.0 && b.block->air_c[i][l] < 45.0);
        }
    tear_down(&b);
}

static void test_air_wind_rain_keep_their_means(void **state)
{
    (void)state;
    enum { YEARS = 160 };
    const lw_climate c = shore();
    const lw_synth_options options = {.seed = 6};
    bench b = set_up(&c, 2.0, &options);
    double air = 0.0, wind = 0.0, rain = 0.0, range = 0.0, wet_ghi = 0.0, dry_ghi = 0.0;
    int wet = 0, dry = 0;
    for (int y = 0; y < YEARS; y += LW_LANES) {
        lw_synth_block(b.synth, (uint32_t)y, b.block);
        for (int l = 0; l < LW_LANES; l++)
            for (int d = 0; d < 31; d++) { /* January */
                double low = 99.0, high = -99.0, sum = 0.0;
                for (int i = 24 * d; i < 24 * d + 24; i++) {
                    air += b.block->air_c[i][l] / 24.0;
                    wind += b.block->wind_m_s[i][l] / 24.0;
                    low = fmin(low, b.block->air_c[i][l]);
                    high = fmax(high, b.block->air_c[i][l]);
                    sum += b.block->ghi_w_m2[i][l];
                }
                range += high - low;
                rain += b.block->rain_mm[d][l];
                if (b.block->rain_mm[d][l] > 0.0)
                    wet++, wet_ghi += sum;
                else
                    dry++, dry_ghi += sum;
            }
    }
    const double days = 31.0 * YEARS;
    assert_true(fabs(air / days - shore_air[0]) < 0.1);
    assert_true(fabs(wind / days / shore_wind[0] - 1.0) < 0.03);
    assert_true(fabs(range / days / shore_range[0] - 1.0) < 0.05);
    assert_true(fabs(rain / YEARS / shore_rain[0] - 1.0) < 0.06);
    assert_true(wet > 20 * YEARS && wet < 29 * YEARS);
    assert_true(wet_ghi / wet < 0.85 * dry_ghi / dry); /* rain falls on cloudy days */
    tear_down(&b);
}

static void test_a_year_is_its_lane(void **state)
{
    (void)state;
    const lw_climate c = shore();
    const lw_synth_options options = {.seed = 7, .day_spread_uncertainty = 1.0};
    bench b = set_up(&c, 2.0, &options);
    lw_synth_block(b.synth, 4294967291u, b.block); /* the year's number wraps inside the block */
    for (int l = LW_LANES - 1; l >= 0; l--) {
        lw_synth_year(b.synth, 4294967291u + (uint32_t)l, b.year);
        for (int i = 0; i < LW_HOURS; i++) {
            assert_true(b.year->ghi_w_m2[i] == b.block->ghi_w_m2[i][l]);
            assert_true(b.year->dhi_w_m2[i] == b.block->dhi_w_m2[i][l]);
            assert_true(b.year->dni_w_m2[i] == b.block->dni_w_m2[i][l]);
            assert_true(b.year->air_c[i] == b.block->air_c[i][l]);
            assert_true(b.year->wind_m_s[i] == b.block->wind_m_s[i][l]);
        }
        for (int d = 0; d < LW_DAYS; d++)
            assert_true(b.year->rain_mm[d] == b.block->rain_mm[d][l]);
    }
    assert_true(b.year->has_rain && b.year->utc_offset_h == 2.0);
    tear_down(&b);
}

/* Late values of one stream: a change of any step of the model shows here. */
static void test_pinned(void **state)
{
    (void)state;
    const lw_climate c = shore();
    const lw_synth_options options = {.seed = 20260714};
    bench b = set_up(&c, 2.0, &options);
    lw_synth_year(b.synth, 913, b.year);
    const double found[5] = {b.year->ghi_w_m2[8604], b.year->dhi_w_m2[8604], b.year->dni_w_m2[8604],
                             b.year->air_c[8604], b.year->wind_m_s[8604]};
    static const double pinned[5] = {907.907488866, 266.991826981, 669.511356616, 30.0520227124, 2.13301744154};
    for (int i = 0; i < 5; i++)
        if (fabs(found[i] / pinned[i] - 1.0) > 1e-9)
            fail_msg("value %d is %.12g", i, found[i]);
    tear_down(&b);
}

static void test_polar_night(void **state)
{
    (void)state;
    lw_climate c;
    lw_error err = {0};
    assert_true(lw_climate_from_means(78.22, 15.63, 10.0, arctic_ghi, NULL, NULL, NULL, NULL, &c, &err));
    const lw_synth_options options = {.seed = 8, .exact_means = true};
    bench b = set_up(&c, 1.0, &options);
    lw_synth_block(b.synth, 0, b.block);
    for (int l = 0; l < LW_LANES; l++) {
        double mean[12];
        month_means(b.block, l, mean);
        assert_true(mean[0] == 0.0 && mean[11] == 0.0);
        for (int m = 2; m < 9; m++)
            assert_true(fabs(mean[m] / arctic_ghi[m] - 1.0) < 0.01);
        for (int i = 0; i < LW_HOURS; i++)
            assert_true(isfinite(b.block->ghi_w_m2[i][l]) && isfinite(b.block->dni_w_m2[i][l]) &&
                        b.block->dhi_w_m2[i][l] >= 0.0);
    }
    tear_down(&b);
}

/* Stations around narrow the day spread; the year's own station is not looked at. */
static void test_days_of_neighbours(void **state)
{
    (void)state;
    static const double ghi[12] = {5.6, 5.9, 5.9, 5.7, 5.8, 5.4, 4.6, 4.8, 5.4, 6.0, 6.1, 5.7};
    lw_climate alone, near, far;
    lw_climate_data data;
    lw_error err = {0};
    assert_true(lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, &err));
    assert_true(lw_climate_from_means(8.98, 38.8, 2355.0, ghi, NULL, NULL, NULL, NULL, &alone, &err));
    near = far = alone;
    lw_climate_days_near(&data, 0.0, &near);
    lw_climate_days_near(&data, 3000.0, &far);
    assert_true(near.clearness_day_sd_spread[3] / near.clearness_day_sd[3] <
                0.97 * alone.clearness_day_sd_spread[3] / alone.clearness_day_sd[3]);
    assert_true(fabs(far.clearness_day_sd[3] / alone.clearness_day_sd[3] - 1.0) < 0.05);
    assert_true(near.ghi_kwh_m2_day[3] == alone.ghi_kwh_m2_day[3]);
    assert_non_null(strstr(near.basis, "spread of days with stations"));
}

static void refuse(const lw_climate *c, double offset_h, const lw_synth_options *options, size_t bytes,
                   const char *field)
{
    lw_error err = {0};
    void *memory = malloc(bytes);
    lw_arena arena = lw_arena_over(memory, bytes);
    assert_null(lw_synth_prepare(c, offset_h, options, &arena, &err));
    assert_string_equal(err.field, field);
    assert_true(strlen(err.message) > 20);
    free(memory);
}

static void test_refusals(void **state)
{
    (void)state;
    lw_climate c = shore();
    const size_t bytes = lw_synth_bytes();
    refuse(&c, 2.0, &(lw_synth_options){.climate_uncertainty = 1.5}, bytes, "climate_uncertainty");
    refuse(&c, 2.0, &(lw_synth_options){.day_spread_uncertainty = NAN}, bytes, "day_spread_uncertainty");
    refuse(&c, 2.0, &(lw_synth_options){.sun_method = 7}, bytes, "sun_method");
    refuse(&c, 27.0, &(lw_synth_options){.seed = 1}, bytes, "utc_offset_h");
    refuse(&c, 2.0, &(lw_synth_options){.seed = 1}, 1000, "memory");
    c.clearness_day_sd[4] = 0.7;
    refuse(&c, 2.0, &(lw_synth_options){.seed = 1}, bytes, "clearness_day_sd[5]");
    c.clearness[9] = NAN;
    refuse(&c, 2.0, &(lw_synth_options){.seed = 1}, bytes, "clearness[10]");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_quick_exp),
        cmocka_unit_test(test_table_is_the_file),
        cmocka_unit_test(test_exact_means),
        cmocka_unit_test(test_years_vary_about_the_means),
        cmocka_unit_test(test_climate_uncertainty_moves_the_means),
        cmocka_unit_test(test_energy_and_limits),
        cmocka_unit_test(test_air_wind_rain_keep_their_means),
        cmocka_unit_test(test_a_year_is_its_lane),
        cmocka_unit_test(test_pinned),
        cmocka_unit_test(test_polar_night),
        cmocka_unit_test(test_days_of_neighbours),
        cmocka_unit_test(test_refusals),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
