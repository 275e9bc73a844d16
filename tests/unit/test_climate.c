/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The climate pack (opening, damage, nearest stations), climate over the whole Earth, the user's own means.
 */
#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

#include "core/sun/climate_inner.h"
#include "lanewick/extraterrestrial.h"

static lw_climate_data packed(void)
{
    lw_climate_data data;
    lw_error err = {0};
    if (!lw_climate_open(lw_climate_packed(), lw_climate_packed_size(), &data, &err))
        fail_msg("%s", err.message);
    return data;
}

static void test_pack_size(void **state)
{
    (void)state;
    const lw_climate_data data = packed();
    assert_int_equal(data.normal_count, 14325); /* rows of data/climate/normals.csv */
    assert_int_equal(data.measured_count, 1441);
    assert_true(lw_climate_packed_size() < 1600000);
}

static void refuse(unsigned char *bytes, size_t size, const char *part)
{
    lw_climate_data data;
    lw_error err = {0};
    assert_false(lw_climate_open(bytes, size, &data, &err));
    assert_string_equal(err.field, "climate_pack");
    assert_non_null(strstr(err.message, part));
}

static void test_damage(void **state)
{
    (void)state;
    const size_t size = lw_climate_packed_size();
    for (size_t cut = 0; cut < 64; cut++) { /* memory of exactly the cut size, so that a read past it is seen */
        unsigned char *bytes = malloc(cut + 1);
        assert_non_null(bytes);
        memcpy(bytes, lw_climate_packed(), cut);
        refuse(bytes, cut, "climate pack");
        free(bytes);
    }
    unsigned char *bytes = malloc(size);
    assert_non_null(bytes);
    memcpy(bytes, lw_climate_packed(), size);
    refuse(bytes, size - 1, "where its header says");
    bytes[777777] ^= 4;
    refuse(bytes, size, "checksum");
    bytes[8] = 9;
    refuse(bytes, size, "layout 9");
    memset(bytes + 12, 255, 8);
    bytes[8] = LW_PACK_LAYOUT;
    refuse(bytes, size, "where its header says");
    bytes[0] = 'X';
    refuse(bytes, size, "not a climate pack");
    free(bytes);
    refuse(NULL, 100, "not a climate pack");
}

/* The tree against a plain look at every row. */
static void test_nearest(void **state)
{
    (void)state;
    const lw_climate_data data = packed();
    static const double places[][2] = {{-11.62, 34.27},  {89.97, 12.0}, {-89.9, -77.0},  {-16.8, 179.98},
                                       {-16.8, -179.98}, {3.1, -0.01},  {-47.3, -126.4}, {63.2, 151.9}};
    for (size_t p = 0; p < sizeof places / sizeof places[0]; p++) {
        double x[3], y[3];
        lw_near near[12];
        lw_unit_vector(places[p][0], places[p][1], x);
        assert_int_equal(lw_climate_nearest(data.normals, data.normal_count, LW_PACK_NORMAL, x, NULL, 12, near), 12);
        size_t nearer = 0;
        for (size_t i = 0; i < data.normal_count; i++) {
            lw_row_position(data.normals + i * LW_PACK_NORMAL, y);
            nearer += lw_chord_km(x, y) < near[11].km - 1e-6;
        }
        assert_true(nearer <= 11);
        for (int i = 1; i < 12; i++)
            assert_true(near[i].km >= near[i - 1].km);
    }
}

static void test_skip(void **state)
{
    (void)state;
    const lw_climate_data data = packed();
    double x[3];
    lw_near near[24];
    lw_unit_vector(40.43, -99.33, x);
    const lw_climate_skip far = {300.0, 0};
    const size_t found = lw_climate_nearest(data.measured, data.measured_count, LW_PACK_MEASURED, x, &far, 24, near);
    assert_int_equal(found, 24);
    assert_true(near[0].km >= 299.9);
    const lw_climate_skip all = {21000.0, 0};
    lw_climate c;
    lw_error err = {0};
    assert_true(lw_climate_at_without(&data, 9.7, 38.6, 2355.0, &all, &c, &err)); /* the formula alone still answers */
    assert_true(c.ghi_kwh_m2_day[0] > 4.0 && c.ghi_spread_pct[0] > 5.0);
}

static void check_possible(const lw_climate *c)
{
    for (int m = 0; m < 12; m++) {
        const double h0 = lw_h0_month_kwh_m2(c->lat_deg, m + 1);
        assert_true(c->ghi_kwh_m2_day[m] >= 0.0 && c->ghi_kwh_m2_day[m] <= 0.85 * h0);
        assert_true(c->t_mean_c[m] > -75.0 && c->t_mean_c[m] < 45.0);
        assert_true(c->t_range_c[m] > 1.0 && c->t_range_c[m] < 26.0);
        assert_true(c->wind_10m_ms[m] >= 0.0 && c->wind_10m_ms[m] < 15.0);
        assert_true(c->rain_mm[m] >= 0.0 && c->rain_mm[m] < 2500.0);
        if (h0 <= 0.0)
            continue;
        assert_true(c->ghi_spread_pct[m] > 2.0 && c->ghi_spread_pct[m] < 40.0);
        assert_true(c->ghi_year_sd_pct[m] > 0.5 && c->ghi_year_sd_pct[m] < 30.0);
        assert_true(c->clearness_day_sd[m] > 0.01 && c->clearness_day_sd[m] < 0.3);
        assert_true(c->clearness_day_sd_spread[m] > 0.0 && c->clearness_day_sd_spread[m] < 0.2);
        assert_true(c->clearness_day_lag1[m] > 0.0 && c->clearness_day_lag1[m] < 0.7);
    }
    assert_true(strlen(c->basis) > 20 && strlen(c->basis) < sizeof c->basis - 1);
}

static void test_whole_earth(void **state)
{
    (void)state;
    const lw_climate_data data = packed();
    for (double lat = -90.0; lat <= 90.0; lat += 7.5)
        for (double lon = -180.0; lon <= 180.0; lon += 17.3) {
            lw_climate c;
            lw_error err = {0};
            assert_true(lw_climate_at(&data, lat, lon, NAN, &c, &err));
            check_possible(&c);
        }
}

static void test_seams(void **state)
{
    (void)state;
    const lw_climate_data data = packed();
    lw_climate a, b;
    lw_error err = {0};
    assert_true(lw_climate_at(&data, -17.3, -180.0, 12.0, &a, &err));
    assert_true(lw_climate_at(&data, -17.3, 180.0, 12.0, &b, &err));
    assert_true(fabs(a.ghi_kwh_m2_day[5] - b.ghi_kwh_m2_day[5]) < 1e-9);
    assert_true(lw_climate_at(&data, 51.2, 359.6, NAN, &a, &err));
    assert_true(lw_climate_at(&data, 51.2, -0.4, NAN, &b, &err));
    assert_true(fabs(a.ghi_kwh_m2_day[5] - b.ghi_kwh_m2_day[5]) < 1e-9);
    assert_true(fabs(a.lon_deg + 0.4) < 1e-9);
}

/* Higher is colder: 5.5 K/km is the lapse of the model; the data of the neighbours stay the same. */
static void test_height(void **state)
{
    (void)state;
    const lw_climate_data data = packed();
    lw_climate low, high;
    lw_error err = {0};
    assert_true(lw_climate_at(&data, -13.6, -71.9, 3200.0, &low, &err));
    assert_true(lw_climate_at(&data, -13.6, -71.9, 4200.0, &high, &err));
    assert_true(low.t_mean_c[6] - high.t_mean_c[6] > 3.0 && low.t_mean_c[6] - high.t_mean_c[6] < 8.0);
}

/* Duffie & Beckman example 1.10.1: 33.8 MJ/m2 on 15 April at 43 N, which Klein (1977) takes as the mean day of
 * its month (from memory); and a month without sun. */
static void test_h0(void **state)
{
    (void)state;
    assert_true(fabs(lw_h0_month_kwh_m2(43.0, 4) * 3.6 - 33.8) < 0.25);
    assert_true(lw_h0_month_kwh_m2(78.2232, 12) == 0.0);
    assert_true(lw_h0_month_kwh_m2(-78.2232, 6) == 0.0);
}

static const double means[12] = {5.62, 5.90, 5.89, 5.70, 5.78, 5.37, 4.64, 4.78, 5.43, 5.98, 6.11, 5.72};

static void test_from_means(void **state)
{
    (void)state;
    lw_climate c;
    lw_error err = {0};
    assert_true(lw_climate_from_means(8.98, 38.8, 2355.0, means, NULL, NULL, NULL, NULL, &c, &err));
    for (int m = 0; m < 12; m++) {
        assert_true(fabs(c.ghi_kwh_m2_day[m] - means[m]) < 1e-12);
        assert_true(fabs(c.clearness[m] * lw_h0_month_kwh_m2(8.98, m + 1) - means[m]) < 1e-9);
        assert_true(c.ghi_spread_pct[m] == 0.0);
    }
}

static void scaled_fails(double factor, const char *part)
{
    double ghi[12];
    lw_climate c;
    lw_error err = {0};
    for (int m = 0; m < 12; m++)
        ghi[m] = means[m] * factor;
    assert_false(lw_climate_from_means(8.98, 38.8, 2355.0, ghi, NULL, NULL, NULL, NULL, &c, &err));
    assert_string_equal(err.field, "ghi_kwh_m2_day[1]");
    assert_non_null(strstr(err.message, part));
    assert_non_null(strstr(err.message, "must lie between"));
}

static void test_wrong_units(void **state)
{
    (void)state;
    scaled_fails(1000.0, "Wh/m2 a day: divide by 1000");
    scaled_fails(3.6, "MJ/m2 a day: divide by 3.6");
    scaled_fails(1000.0 / 24.0, "mean in W/m2 (multiply by 0.024)");
    scaled_fails(0.001, "multiply by 1000");
}

static void test_bad_means(void **state)
{
    (void)state;
    double ghi[12];
    lw_climate c;
    lw_error err = {0};
    memcpy(ghi, means, sizeof ghi);
    ghi[6] = NAN;
    assert_false(lw_climate_from_means(8.98, 38.8, 2355.0, ghi, NULL, NULL, NULL, NULL, &c, &err));
    assert_non_null(strstr(err.field, "ghi_kwh_m2_day"));
    err = (lw_error){0};
    ghi[6] = -0.2;
    assert_false(lw_climate_from_means(8.98, 38.8, 2355.0, ghi, NULL, NULL, NULL, NULL, &c, &err));
    err = (lw_error){0};
    ghi[6] = 9.7; /* clearness 0.94 in one month alone */
    assert_false(lw_climate_from_means(8.98, 38.8, 2355.0, ghi, NULL, NULL, NULL, NULL, &c, &err));
    assert_string_equal(err.field, "ghi_kwh_m2_day[7]");
    err = (lw_error){0};
    assert_false(lw_climate_from_means(91.0, 38.8, 2355.0, means, NULL, NULL, NULL, NULL, &c, &err));
    assert_string_equal(err.field, "lat_deg");
    err = (lw_error){0};
    assert_false(lw_climate_from_means(8.98, 38.8, 1e9, means, NULL, NULL, NULL, NULL, &c, &err));
    assert_string_equal(err.field, "elev_m");
    err = (lw_error){0};
    const double hot[12] = {288, 288, 289, 290, 290, 289, 288, 288, 288, 288, 288, 288}; /* kelvin */
    assert_false(lw_climate_from_means(8.98, 38.8, 2355.0, means, hot, NULL, NULL, NULL, &c, &err));
    assert_non_null(strstr(err.field, "t_mean_c"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(test_pack_size),   cmocka_unit_test(test_damage),      cmocka_unit_test(test_nearest),
        cmocka_unit_test(test_skip),        cmocka_unit_test(test_whole_earth), cmocka_unit_test(test_seams),
        cmocka_unit_test(test_height),      cmocka_unit_test(test_h0),          cmocka_unit_test(test_from_means),
        cmocka_unit_test(test_wrong_units), cmocka_unit_test(test_bad_means),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
