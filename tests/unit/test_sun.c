/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Sun room: calendar, sun year against exact positions, dark shares against exact nights, energy and symmetry.
 */
#include "lanewick/dust.h"
#include "lanewick/extraterrestrial.h"
#include "lanewick/rng.h"
#include "lanewick/sun.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static void close_to(double is, double wanted, double tolerance)
{
    if (!(fabs(is - wanted) <= tolerance))
        fail_msg("%.9g should be %.9g within %g", is, wanted, tolerance);
}

/* Every day from 1900 to 2199 there and back; 2000-01-01 is day 0, 1970-01-01 is 10,957 days before (POSIX). */
static void calendar_goes_there_and_back(void **state)
{
    (void)state;
    double expected = lw_date_noon_days((lw_date){1900, 1, 1});
    for (int year = 1900; year <= 2199; year++) {
        int of_year = 0;
        for (int month = 1; month <= 12; month++)
            for (int day = 1; day <= lw_days_in_month(year, month); day++) {
                const lw_date date = {year, month, day}, back = lw_date_of_days(expected + 0.49);
                close_to(lw_date_noon_days(date), expected, 0.0);
                assert_true(back.year == year && back.month == month && back.day == day);
                assert_int_equal(lw_day_of_year(date), ++of_year);
                expected += 1.0;
            }
        assert_int_equal(of_year, lw_leap_year(year) ? 366 : 365);
    }
    close_to(lw_date_noon_days((lw_date){2000, 1, 1}), 0.0, 0.0);
    close_to(lw_date_noon_days((lw_date){1970, 1, 1}), -10957.0, 0.0);
    assert_false(lw_leap_year(2100));
    for (int day = 0; day < LW_DAYS; day++)
        assert_true(lw_first_day_of_month(lw_month_of_day(day)) <= day);
}

static void instants_are_read_and_written(void **state)
{
    (void)state;
    static const struct {
        const char *text, *same;
    } good[] = {{"2003-10-17T12:30:30-07:00", "2003-10-17T19:30:30Z"},
                {"2026-01-01 00:20+0545", "2025-12-31T18:35:00Z"},
                {"2026-07-14", "2026-07-14T00:00:00Z"},
                {"2024-02-29t23:59:59.7z", "2024-03-01T00:00:00Z"},
                {"2026-07-14 10:00+03", "2026-07-14T07:00:00Z"},
                {"1900-01-01T00:00Z", "1900-01-01T00:00:00Z"}};
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        double days;
        char text[LW_UTC_TEXT];
        lw_error err = {0};
        assert_true(lw_utc_parse("utc", good[i].text, &days, &err));
        lw_utc_text(days, text);
        assert_string_equal(text, good[i].same);
    }
    static const char *const bad[] = {"",
                                      "2026",
                                      "2026-02-30",
                                      "2026-13-01",
                                      "2026-00-10",
                                      "26-01-01",
                                      "2026-01-01T",
                                      "2026-01-01T7:00",
                                      "2026-01-01T25:00",
                                      "2026-01-01T10",
                                      "2026-01-01T10:61",
                                      "2026-01-01T10:00:60",
                                      "2026-01-01T10:00+",
                                      "2026-01-01T10:00+1",
                                      "2026-01-01 10:00 ",
                                      "2026-01-01T10:00ZZ",
                                      "2026-01-01T10:00:",
                                      "-2026-01-01",
                                      "2026/01/01"};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        double days;
        lw_error err = {0};
        assert_false(lw_utc_parse("utc", bad[i], &days, &err));
        assert_string_equal(err.field, "utc");
        assert_non_null(strstr(err.message, "utc is"));
    }
}

static lw_sun_hour sun[LW_HOURS];
static double share[LW_HOURS], counted[LW_HOURS];

static double apart_deg(const lw_sun_hour *a, const lw_sun_position *b)
{
    const double x = a->up - b->up, y = a->east - b->east, z = a->north - b->north;
    return sqrt(x * x + y * y + z * z) * lw_degree_per_radian;
}

/* The compact formulas of the year against the exact position: 0.01 degree and the parallax of 0.0024. */
static void sun_year_follows_the_exact_sun(void **state)
{
    (void)state;
    static const double places[][3] = {{-11.62, 34.27, 2}, {27.7, 85.3, 5.75}, {78.2, 15.6, 1}, {-54.8, 291.7, -3}};
    lw_error err = {0};
    double worst = 0.0, worst_daily = 0.0;
    for (size_t p = 0; p < 4; p++) {
        const lw_observer observer = {places[p][0], places[p][1], 0.0};
        for (int method = LW_SUN_SPENCER_DAILY; method <= LW_SUN_ALMANAC; method++) {
            assert_true(lw_sun_year(places[p][0], places[p][1], places[p][2], (lw_sun_method)method, sun, &err));
            for (int i = 0; i < LW_HOURS; i += 37) {
                const double utc_days = 9496.5 + (i + 0.5 - places[p][2]) / 24.0;
                const lw_sun_position exact = lw_sun_position_at(utc_days, lw_delta_t_s(utc_days), &observer);
                const double miss = apart_deg(&sun[i], &exact);
                close_to(sun[i].up * sun[i].up + sun[i].east * sun[i].east + sun[i].north * sun[i].north, 1.0, 1e-12);
                if (method == LW_SUN_ALMANAC)
                    worst = fmax(worst, miss);
                else
                    worst_daily = fmax(worst_daily, miss);
            }
        }
    }
    print_message("compact formulas within %.4f degree, daily formulas within %.2f degree\n", worst, worst_daily);
    assert_true(worst < 0.0125 && worst_daily < 0.7);
}

/* Horizontal irradiance above the air: the exact hourly mean against 400 midpoints, and the day against eq. 1.10.3. */
static void hourly_means_are_exact(void **state)
{
    (void)state;
    lw_error err = {0};
    lw_rng rng = lw_rng_stream(11, 0, 0);
    for (int place = 0; place < 12; place++) {
        const double lat = asin(2.0 * lw_rng_uniform(&rng) - 1.0) * lw_degree_per_radian;
        const double lon = 360.0 * lw_rng_uniform(&rng) - 180.0, offset = round(lon / 15.0);
        assert_true(lw_sun_year(lat, lon, offset, LW_SUN_SPENCER_DAILY, sun, &err));
        const double sin_lat = sin(lat * lw_radian_per_degree), cos_lat = cos(lat * lw_radian_per_degree);
        for (int k = 0; k < 60; k++) {
            const int i = (int)lw_rng_below(&rng, LW_HOURS);
            const double hour_angle = atan2(-sun[i].east, sun[i].up * cos_lat - sun[i].north * sin_lat);
            const double sin_dec = sun[i].up * sin_lat + sun[i].north * cos_lat;
            double sum = 0.0;
            for (int m = 0; m < 400; m++) {
                const double h = hour_angle + ((m + 0.5) / 400.0 - 0.5) * lw_pi / 12.0;
                sum += fmax(sin_lat * sin_dec + cos_lat * sqrt(1.0 - sin_dec * sin_dec) * cos(h), 0.0) / 400.0;
            }
            close_to(sun[i].horizontal_w_m2, sum * sun[i].normal_w_m2, 0.01);
        }
        for (int day = 20; day < LW_DAYS; day += 30) {
            const lw_sun_hour *noon = &sun[24 * day + 12];
            const double dec_deg = asin(noon->up * sin_lat + noon->north * cos_lat) * lw_degree_per_radian;
            const double sunset = lw_sunset_angle_deg(lat, dec_deg) * lw_radian_per_degree;
            const double level = sin_lat * sin(dec_deg * lw_radian_per_degree);
            const double swing = cos_lat * cos(dec_deg * lw_radian_per_degree);
            double sum = 0.0;
            for (int hour = 0; hour < 24; hour++)
                sum += sun[24 * day + hour].horizontal_w_m2;
            close_to(sum, 24.0 / lw_pi * noon->normal_w_m2 * (swing * sin(sunset) + sunset * level), 1e-4);
        }
    }
}

/* Dark hours of the year: exact crossings against one-minute counting, and against the exact nights of 2026. */
static void dark_shares_are_the_nights(void **state)
{
    (void)state;
    static const double places[][3] = {{-11.62, 34.27, 2}, {15.32, -91.47, -6}, {51.3, 10.4, 1}, {70.4, 31.1, 1}};
    lw_error err = {0};
    for (size_t p = 0; p < 4; p++)
        for (int twilight = 0; twilight < 2; twilight++) {
            const double altitude = twilight ? lw_civil_altitude_deg : lw_sunset_altitude_deg;
            assert_true(
                lw_dark_shares(places[p][0], places[p][1], places[p][2], LW_SUN_ALMANAC, altitude, 0, share, &err));
            assert_true(
                lw_dark_shares(places[p][0], places[p][1], places[p][2], LW_SUN_ALMANAC, altitude, 60, counted, &err));
            double dark = 0.0, nights = 0.0;
            for (int i = 0; i < LW_HOURS; i++) {
                assert_true(share[i] >= 0.0 && share[i] <= 1.0);
                close_to(share[i], counted[i], 1.01 / 60.0);
                dark += share[i];
            }
            for (int day = 0; day < LW_DAYS; day++) {
                lw_night night;
                assert_true(
                    lw_night_at(places[p][0], places[p][1], lw_date_of_days(9497.0 + day), altitude, &night, &err));
                nights += night.below_h;
            }
            close_to(dark / LW_DAYS, nights / LW_DAYS, 0.004);
        }
}

/* North and south see the same sun half a turn of the sky apart: mirrored latitude, declination mirrored. */
static void night_lengths_complete_the_day(void **state)
{
    (void)state;
    lw_error err = {0};
    for (double lat = -88.7; lat < 89.0; lat += 11.3) {
        lw_night north, south;
        /* With the true horizon (altitude 0) a night here is as long as the day at the mirrored latitude. */
        assert_true(lw_night_at(lat, 12.3, (lw_date){2027, 11, 3}, 0.0, &north, &err));
        assert_true(lw_night_at(-lat, 12.3, (lw_date){2027, 11, 3}, 0.0, &south, &err));
        close_to(north.below_h + south.below_h, 24.0, 0.12);
    }
    lw_night night;
    assert_false(lw_night_at(90.01, 0.0, (lw_date){2027, 11, 3}, 0.0, &night, &err));
    assert_string_equal(err.field, "lat_deg");
}

static void wrong_places_are_told(void **state)
{
    (void)state;
    lw_error err = {0};
    assert_false(lw_sun_year(-90.5, 0, 0, LW_SUN_ALMANAC, sun, &err));
    assert_string_equal(err.field, "lat_deg");
    err = (lw_error){0};
    assert_false(lw_sun_year(9.5, NAN, 0, LW_SUN_ALMANAC, sun, &err));
    assert_string_equal(err.field, "lon_deg");
    err = (lw_error){0};
    assert_false(lw_dark_shares(9.5, 3, 15, LW_SUN_ALMANAC, -6, 0, share, &err));
    assert_string_equal(err.field, "utc_offset_h");
    err = (lw_error){0};
    assert_false(lw_dark_shares(9.5, 3, 1, LW_SUN_ALMANAC, -6, -1, share, &err));
    assert_string_equal(err.field, "midpoints");
}

static void dust_is_washed_and_bounded(void **state)
{
    (void)state;
    lw_dust dust = lw_dust_default();
    double rain[LW_DAYS] = {0}, dry[LW_DAYS], wet[LW_DAYS];
    dust.clean_every_days = 0;
    lw_dust_year(&dust, rain, dry);
    for (int day = 0; day < LW_DAYS; day += 9)
        rain[day] = day % 2 ? 4.9 : 5.3;
    lw_dust_year(&dust, rain, wet);
    for (int day = 0; day < LW_DAYS; day++) {
        close_to(dry[day], 0.75, 1e-12);
        assert_true(wet[day] >= dry[day] && wet[day] <= 1.0);
    }
    close_to(wet[0], 1.0, 0.0);
    close_to(wet[17], 1.0 - 17 * 0.002, 1e-12); /* 4.9 mm on day 9 does not wash */
    lw_error err = {0};
    dust.wash_rain_mm = 0.0;
    assert_false(lw_dust_check(&dust, &err));
    assert_string_equal(err.field, "wash_rain_mm");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(calendar_goes_there_and_back),   cmocka_unit_test(instants_are_read_and_written),
        cmocka_unit_test(sun_year_follows_the_exact_sun), cmocka_unit_test(hourly_means_are_exact),
        cmocka_unit_test(dark_shares_are_the_nights),     cmocka_unit_test(night_lengths_complete_the_day),
        cmocka_unit_test(wrong_places_are_told),          cmocka_unit_test(dust_is_washed_and_bounded),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
