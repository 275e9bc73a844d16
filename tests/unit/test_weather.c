/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Readers of weather files: four typical years and two originals in EPW layout (tests/data/weather), and what bad
 * files get told.
 */
#include "lanewick/sun.h"
#include "lanewick/weather.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { ROOM = 4 << 20 };
static char bytes[ROOM], changed[ROOM];
static lw_weather_year year, other;

static void close_to(double is, double wanted, double tolerance)
{
    if (!(fabs(is - wanted) <= tolerance))
        fail_msg("%.9g should be %.9g within %g", is, wanted, tolerance);
}

static size_t load(const char *name)
{
    char path[512];
    (void)snprintf(path, sizeof path, "%s/tests/data/weather/%s", LW_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    const size_t length = fread(bytes, 1, ROOM, file);
    assert_int_equal(fclose(file), 0);
    assert_true(length < ROOM);
    bytes[length] = '\0';
    return length;
}

static void read_year(const char *name, lw_weather_year *into)
{
    lw_error err = {0};
    const size_t length = load(name);
    if (!lw_weather_read(bytes, length, into, &err))
        fail_msg("%s: %s", name, err.message);
}

/* Source: the stations' files, worked out with an independent program (numpy): annual means, and by month for
 * Huehuetenango, which has the widest seasons. */
static void means_are_those_of_the_files(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double ghi, air, range, wind, diffuse;
    } want[] = {{"addis-ababa.csv", 5.572, 16.15, 11.2, 3.92, 0.435},
                {"colombo-katunayake.csv", 5.395, 27.36, 6.4, 3.19, 0.499},
                {"guam-andersen.csv", 5.210, 26.68, 4.3, 4.53, 0.424},
                {"huehuetenango.csv", 5.308, 17.00, 14.5, 1.63, 0.360}};
    static const double ghi[12] = {4.99, 5.78, 6.63, 6.41, 5.88, 5.11, 5.53, 5.22, 4.67, 4.42, 4.48, 4.60};
    static const double range[12] = {17.8, 19.3, 19.1, 16.9, 16.5, 10.8, 11.9, 11.9, 10.1, 10.6, 12.7, 15.9};
    for (size_t i = 0; i < 4; i++) {
        read_year(want[i].name, &year);
        const lw_weather_month mean = lw_weather_mean(&year, 0);
        close_to(mean.ghi_kwh_m2_day, want[i].ghi, 0.001);
        close_to(mean.air_c, want[i].air, 0.006);
        close_to(mean.air_range_k, want[i].range, 0.1); /* printed: unweighted mean of the months */
        close_to(mean.wind_m_s, want[i].wind, 0.006);
        close_to(mean.diffuse_share, want[i].diffuse, 0.0006);
        assert_int_equal(year.filled, 0);
    }
    for (int month = 1; month <= 12; month++) {
        close_to(lw_weather_mean(&year, month).ghi_kwh_m2_day, ghi[month - 1], 0.006);
        close_to(lw_weather_mean(&year, month).air_range_k, range[month - 1], 0.06);
    }
    close_to(year.lon_deg, -91.47, 1e-12);
    close_to(year.utc_offset_h, -6.0, 1e-12);
    close_to(year.elev_m, 1901.0, 1e-12);
    assert_non_null(strstr(year.station, "HUEHUETENANGO"));
}

/* Direct normal times the mean cosine of the zenith in the hour, plus diffuse, is global: published closure of these
 * years 0.6 to 1.5 W/m2 RMS at the right clock, more with the clock a quarter of an hour off. */
static double closure_rms(const lw_weather_year *y, double offset_h)
{
    static lw_sun_hour sun[LW_HOURS];
    lw_error err = {0};
    assert_true(lw_sun_year(y->lat_deg, y->lon_deg, offset_h, LW_SUN_ALMANAC, sun, &err));
    double sum = 0.0;
    for (int i = 0; i < LW_HOURS; i++) {
        const double cosine = sun[i].horizontal_w_m2 / sun[i].normal_w_m2;
        const double miss = y->dni_w_m2[i] * cosine + y->dhi_w_m2[i] - y->ghi_w_m2[i];
        sum += miss * miss;
    }
    return sqrt(sum / LW_HOURS);
}

static void closure_tells_the_right_clock(void **state)
{
    (void)state;
    static const char *const names[] = {"addis-ababa.csv", "colombo-katunayake.csv", "guam-andersen.csv",
                                        "huehuetenango.csv"};
    for (size_t i = 0; i < 4; i++) {
        read_year(names[i], &year);
        const double right = closure_rms(&year, year.utc_offset_h);
        print_message("%s: closure %.2f W/m2\n", names[i], right);
        assert_true(right < 1.6);
        assert_true(closure_rms(&year, year.utc_offset_h + 0.25) > 2.0 * right);
        assert_true(closure_rms(&year, year.utc_offset_h - 0.25) > 2.0 * right);
    }
}

static void same_year(const lw_weather_year *a, const lw_weather_year *b)
{
    for (int i = 0; i < LW_HOURS; i++) {
        close_to(a->ghi_w_m2[i], b->ghi_w_m2[i], 1e-9);
        close_to(a->dhi_w_m2[i], b->dhi_w_m2[i], 1e-9);
        close_to(a->dni_w_m2[i], b->dni_w_m2[i], 1e-9);
        close_to(a->air_c[i], b->air_c[i], 1e-9);
        close_to(a->wind_m_s[i], b->wind_m_s[i], 1e-9);
    }
    close_to(a->lat_deg, b->lat_deg, 1e-9);
    close_to(a->lon_deg, b->lon_deg, 1e-9);
    close_to(a->utc_offset_h, b->utc_offset_h, 1e-9);
    close_to(a->elev_m, b->elev_m, 1e-9);
}

static void epw_and_csv_of_a_station_agree(void **state)
{
    (void)state;
    read_year("ETH_Addis.Ababa-Bole.634500_SWERA.epw", &year);
    read_year("addis-ababa.csv", &other);
    same_year(&year, &other);
    read_year("GUM_Andersen.AFB.912180_TMY3.epw", &year);
    read_year("guam-andersen.csv", &other);
    same_year(&year, &other);
}

/* The same year written in the native TMY3 layout is the same year. */
static void tmy3_layout_is_read(void **state)
{
    (void)state;
    read_year("guam-andersen.csv", &other);
    static const int first[13] = {0, 31, 59, 90, 120, 151, 181, 212, 243, 273, 304, 334, 365};
    int length = snprintf(changed, ROOM,
                          "912180,\"ANDERSEN AFB, N\",GU,10.0,13.570,144.920,162\r\n"
                          "Date (MM/DD/YYYY),Time (HH:MM),ETR (W/m^2)\r\n");
    for (int i = 0; i < LW_HOURS; i++) {
        int month = 1;
        while (i / 24 >= first[month])
            month++;
        length += snprintf(changed + length, ROOM - (size_t)length, "%02d/%02d/1988,%02d:00,0,0,%g,1,13,%g,1,9,%g",
                           month, i / 24 - first[month - 1] + 1, i % 24 + 1, other.ghi_w_m2[i], other.dni_w_m2[i],
                           other.dhi_w_m2[i]);
        for (int field = 12; field <= 68; field++) {
            const double value = field == 32   ? other.air_c[i]
                                 : field == 47 ? other.wind_m_s[i]
                                 : field == 65 ? (i == 4000 ? 12.5 : -9900)
                                               : 0;
            length += snprintf(changed + length, ROOM - (size_t)length, ",%g", value);
        }
        length += snprintf(changed + length, ROOM - (size_t)length, "\r\n");
        assert_true(length < ROOM - 1000);
    }
    lw_error err = {0};
    if (!lw_weather_read(changed, (size_t)length, &year, &err))
        fail_msg("%s", err.message);
    same_year(&year, &other);
    assert_string_equal(year.station, "ANDERSEN AFB, N");
    close_to(year.rain_mm[4000 / 24], 12.5, 1e-12);
    assert_true(year.has_rain);
}

/* The file with the first `from` replaced by `to`, `times` times. */
static size_t with(size_t length, const char *from, const char *to, int times)
{
    size_t put = 0;
    const size_t wide = strlen(from);
    for (size_t i = 0; i < length;) {
        if (times > 0 && length - i >= wide && memcmp(bytes + i, from, wide) == 0) {
            for (const char *c = to; *c; c++)
                changed[put++] = *c;
            i += wide;
            times--;
        } else {
            changed[put++] = bytes[i++];
        }
        assert_true(put < ROOM - 512);
    }
    return put;
}

static void refused(size_t length, const char *field, const char *part)
{
    lw_error err = {0};
    if (lw_weather_read(changed, length, &year, &err))
        fail_msg("read, but should have told of %s", part);
    if (strcmp(err.field, field) != 0 || !strstr(err.message, part))
        fail_msg("told of %s: %s\nwanted %s: ...%s...", err.field, err.message, field, part);
    assert_int_equal(err.family, LW_WRONG_INPUT);
}

static void bad_rows_are_told(void **state)
{
    (void)state;
    const size_t length = load("huehuetenango.csv");
    refused(with(length, "\n3,14,7,", "\n3,14,6,", 1), "hour", "a second time");
    refused(with(length, "\n3,14,7,", "\n3,14,9,", 1), "hour", "2 hours are missing");
    refused(with(length, "\n3,14,7,", "\n3,14,25,", 1), "hour", "hour is 25");
    refused(with(length, "\n3,14,7,", "\n13,14,7,", 1), "month", "month is 13");
    refused(with(length, "\n4,30,7,", "\n4,31,7,", 1), "day", "day is 31");
    refused(with(length, "\n1,1,1,0,", "\n1,1,1,-3,", 1), "ghi_w_m2", "cannot be negative");
    refused(with(length, "\n1,1,1,0,", "\n1,1,1,0;5,", 1), "ghi_w_m2", "must be a number");
    refused(with(length, "\n1,1,1,0,", "\n1,1,1,", 1), "weather", "fields");
    refused(with(length, "\n1,1,1,0,", "\n1,1,1,1700,", 1), "ghi_w_m2", "between 0 and 1600");
    memcpy(changed, bytes, length);
    refused((size_t)(strstr(bytes, "\n12,24,17,") - bytes), "weather", "ends here with 8584 hours");
    refused(with(length, "# latitude_deg: 15.32", "# latitude_deg: 95.32", 1), "latitude_deg", "between -90 and 90");
    refused(with(length, "# utc_offset_h: -6.0", "# zone: -6.0", 1), "utc_offset_h", "must say where");
    refused(with(length, "# utc_offset_h: -6.0", "# utc_offset_h: 0", 1), "utc_offset_h", "falls at night");
    refused(with(length, "ghi_Wm2", "ghi_kWm2", 1), "weather", "not known");
    refused(with(length, ",wind_ms", "", 1), "wind_m_s", "missing");
    refused(with(length, "month,day", "day,day", 1), "weather", "twice");
    memcpy(changed, bytes, length);
    memcpy(changed + length, "12,31,24,0,0,0,12,1\n", 21);
    refused(length + 20, "hour", "a second time");
}

static void whole_files_are_judged(void **state)
{
    (void)state;
    const size_t length = load("huehuetenango.csv");
    memcpy(changed, bytes, length);
    memcpy(changed, "\xff\xfe", 2);
    refused(length, "weather", "UTF-16");
    refused(0, "weather", "empty");
    refused(1, "weather", "begins with");
    (void)snprintf(changed, ROOM, "time;ghi\n1;2\n");
    refused(strlen(changed), "weather", "begins with");
    (void)snprintf(changed, ROOM, "LOCATION,x,y\n");
    refused(strlen(changed), "LOCATION", "3 fields");
    memset(changed, '#', 9000);
    refused(9000, "weather", "longer than");
    memcpy(changed, bytes, length);
    changed[length / 2] = '\0';
    refused(length, "weather", "zero byte");
}

/* Every hour's radiation multiplied: as kW/m2, MJ/m2 or mW/m2 in the file. */
static void wrong_units_are_recognised(void **state)
{
    (void)state;
    static const struct {
        double factor;
        const char *told;
    } units[] = {{0.001, "near 1,000 times too little"},
                 {0.0036, "MJ/m2"},
                 {1000.0, "near 1,000 times too much"},
                 {3.6, "kJ/m2"},
                 {0.0, "no radiation"}};
    for (size_t u = 0; u < sizeof units / sizeof units[0]; u++) {
        (void)load("huehuetenango.csv");
        size_t put = 0;
        for (char *line = bytes, *next; *line; line = next) {
            next = line + strcspn(line, "\n");
            if (*next)
                *next++ = '\0';
            char *rest = line;
            for (int comma = 0; comma < 3 && rest; comma++) {
                rest = strchr(rest, ',');
                rest = rest ? rest + 1 : NULL;
            }
            if (line[0] < '0' || line[0] > '9' || !rest) {
                put += (size_t)snprintf(changed + put, ROOM - put, "%s\n", line);
                continue;
            }
            const int date = (int)(rest - line);
            const double ghi = strtod(rest, &rest), dhi = strtod(rest + 1, &rest), dni = strtod(rest + 1, &rest);
            put += (size_t)snprintf(changed + put, ROOM - put, "%.*s%.8g,%.8g,%.8g%s\n", date, line,
                                    ghi * units[u].factor, dhi * units[u].factor, dni * units[u].factor, rest);
        }
        refused(put, "ghi_w_m2", units[u].told);
    }
}

static void single_gaps_are_filled_and_counted(void **state)
{
    (void)state;
    const size_t length = load("colombo-katunayake.csv");
    lw_error err = {0};
    size_t put = with(length, "\n1,1,9,249,136,312,26.8,2.3", "\n1,1,9,249,136,312,,-999", 1);
    assert_true(lw_weather_read(changed, put, &year, &err));
    assert_int_equal(year.filled, 2);
    close_to(year.air_c[8], 0.5 * (25.7 + 27.9), 1e-12);
    close_to(year.wind_m_s[8], 0.5 * (1.5 + 3.1), 1e-12);
    put = with(length, ",6.2\n", ",999\n", 60);
    refused(put, "wind_m_s", "too many missing");
}

static void marks_and_line_ends_do_not_matter(void **state)
{
    (void)state;
    const size_t length = load("colombo-katunayake.csv");
    lw_error err = {0};
    assert_true(lw_weather_read(bytes, length, &other, &err));
    const size_t put = with(length, "\n", "\r\n", LW_HOURS + 100);
    memmove(changed + 3, changed, put);
    for (size_t i = 0; i < 3; i++)
        changed[i] = "\xef\xbb\xbf"[i];
    assert_true(lw_weather_read(changed, put + 3, &year, &err));
    same_year(&year, &other);
    const size_t leap = with(length, "\n3,1,1,", "\n2,29,1,0,0,0,25,1\n2,29,2,0,0,0,25,1\n3,1,1,", 1);
    assert_true(lw_weather_read(changed, leap, &year, &err));
    assert_int_equal(year.leap_rows, 2);
    same_year(&year, &other);
}

/* Cut at many places: always an answer, never a crash, never read as a whole year. */
static void cut_files_are_refused(void **state)
{
    (void)state;
    static const char *const names[] = {"colombo-katunayake.csv", "GUM_Andersen.AFB.912180_TMY3.epw"};
    for (size_t n = 0; n < 2; n++) {
        const size_t length = load(names[n]);
        for (size_t cut = 0; cut + 200 < length; cut += cut < 3000 ? 7 : 70001) {
            lw_error err = {0};
            char *exact = malloc(cut ? cut : 1);
            assert_non_null(exact);
            memcpy(exact, bytes, cut);
            assert_false(lw_weather_read(exact, cut, &year, &err));
            assert_true(err.message[0] != '\0');
            free(exact);
        }
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(means_are_those_of_the_files),
        cmocka_unit_test(closure_tells_the_right_clock),
        cmocka_unit_test(epw_and_csv_of_a_station_agree),
        cmocka_unit_test(tmy3_layout_is_read),
        cmocka_unit_test(bad_rows_are_told),
        cmocka_unit_test(whole_files_are_judged),
        cmocka_unit_test(wrong_units_are_recognised),
        cmocka_unit_test(single_gaps_are_filled_and_counted),
        cmocka_unit_test(marks_and_line_ends_do_not_matter),
        cmocka_unit_test(cut_files_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
