/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Irradiance on a plane: energy, symmetry, skyline, lanes, and the year's panel output of a reference lamp.
 */
#include "lanewick/plane.h"
#include "lanewick/rng.h"
#include "lanewick/weather.h"

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

typedef struct sample {
    lw_sun_hour sun;
    double ghi, dhi, dni;
} sample;

/* A sky that closes: ghi = dni cos Z + dhi. */
static sample draw(lw_rng *rng)
{
    const double up = 0.1 + 0.9 * lw_rng_uniform(rng), azimuth = 2.0 * lw_pi * lw_rng_uniform(rng);
    const double across = sqrt(1.0 - up * up);
    sample s = {.sun = {.up = up, .east = across * sin(azimuth), .north = across * cos(azimuth), .normal_w_m2 = 1379.0},
                .dhi = 20.0 + 380.0 * lw_rng_uniform(rng),
                .dni = 900.0 * lw_rng_uniform(rng)};
    s.ghi = s.dhi + s.dni * up;
    return s;
}

static double on(const lw_plane *plane, const sample *s)
{
    lw_plane_hour hour;
    double total, absorbed;
    lw_plane_prepare_hour(plane, &s->sun, &hour);
    lw_plane_lanes(plane, &hour, 1, &s->ghi, &s->dhi, &s->dni, &total, &absorbed);
    assert_true(absorbed >= 0.0 && absorbed <= total + 1e-9);
    return total;
}

static void flat_plane_gets_global(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(3, 1, 4);
    lw_plane plane = lw_plane_default(-11.62);
    plane.tilt_deg = 0.0;
    for (int i = 0; i < 300; i++) {
        const sample s = draw(&rng);
        plane.sky = (lw_sky)(i % 3);
        close_to(on(&plane, &s), s.ghi, 1e-9);
    }
}

/* Mirrored north and south the light is the same. */
static void mirrored_sky_mirrored_plane(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(3, 1, 5);
    lw_plane plane = lw_plane_default(27.7), mirror = plane;
    plane.facing_deg = 211.0;
    mirror.facing_deg = -31.0;
    for (int i = 0; i < 300; i++) {
        sample s = draw(&rng), t = s;
        t.sun.north = -s.sun.north;
        plane.sky = mirror.sky = (lw_sky)(i % 3);
        close_to(on(&plane, &s), on(&mirror, &t), 1e-9);
    }
}

/* Closed forms: an open sky is (1 + cos tilt)/2; a level skyline h leaves a flat plane cos^2 h. */
static void sky_view_has_closed_forms(void **state)
{
    (void)state;
    double open[LW_SKYLINE] = {0}, level[LW_SKYLINE], valley[LW_SKYLINE];
    for (int k = 0; k < LW_SKYLINE; k++) {
        level[k] = 21.7;
        valley[k] = k < 18 ? 33.0 : 4.0;
    }
    for (double tilt = 0.0; tilt <= 90.0; tilt += 7.5) {
        close_to(lw_sky_view(tilt, 211.0, open), 0.5 * (1.0 + cos(tilt * lw_radian_per_degree)), 1e-12);
        assert_true(lw_sky_view(tilt, 211.0, level) < lw_sky_view(tilt, 211.0, open));
        assert_true(lw_sky_view(tilt, 90.0, valley) <= lw_sky_view(tilt, 270.0, valley) + 1e-12);
    }
    const double cosine = cos(21.7 * lw_radian_per_degree);
    close_to(lw_sky_view(0.0, 12.0, level), cosine * cosine, 1e-12);
    close_to(lw_skyline_at(valley, 172.5), 33.0 + 0.25 * (4.0 - 33.0), 1e-9);
    close_to(lw_skyline_at(valley, -2.5), 4.0 + 0.75 * (33.0 - 4.0), 1e-9);
    close_to(lw_skyline_at(valley, 725.0), 33.0, 1e-9);
}

static void a_higher_skyline_never_adds_light(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(3, 1, 6);
    lw_plane plane = lw_plane_default(-11.62), hills = plane;
    for (int k = 0; k < LW_SKYLINE; k++)
        hills.horizon_deg[k] = 5.0 + 2.0 * (k % 9);
    int hidden = 0;
    for (int i = 0; i < 600; i++) {
        const sample s = draw(&rng);
        plane.sky = hills.sky = (lw_sky)(i % 3);
        const double with = on(&hills, &s), without = on(&plane, &s);
        assert_true(with < without + 1e-9);
        hidden += with < 0.5 * without;
    }
    assert_true(hidden > 20);
}

static void lanes_are_single_hours(void **state)
{
    (void)state;
    lw_rng rng = lw_rng_stream(3, 1, 7);
    lw_plane plane = lw_plane_default(48.0);
    for (int i = 0; i < 90; i++) {
        sample s = draw(&rng);
        double ghi[8], dhi[8], dni[8], total[8], absorbed[8];
        for (int k = 0; k < 8; k++) {
            const sample other = draw(&rng);
            dhi[k] = k == 3 ? 0.0 : other.dhi;
            dni[k] = k == 5 ? 0.0 : other.dni;
            ghi[k] = dhi[k] + dni[k] * s.sun.up;
        }
        plane.sky = (lw_sky)(i % 3);
        lw_plane_hour hour;
        lw_plane_prepare_hour(&plane, &s.sun, &hour);
        lw_plane_lanes(&plane, &hour, 8, ghi, dhi, dni, total, absorbed);
        for (int k = 0; k < 8; k++) {
            double one, one_absorbed;
            lw_plane_lanes(&plane, &hour, 1, &ghi[k], &dhi[k], &dni[k], &one, &one_absorbed);
            assert_true(one == total[k] && one_absorbed == absorbed[k]);
        }
    }
}

static lw_weather_year year;
static lw_sun_hour sun[LW_HOURS];
static lw_plane_hour prepared[LW_HOURS];
static char bytes[1 << 20];

static double panel_year_wh(const char *name)
{
    char path[512];
    lw_error err = {0};
    (void)snprintf(path, sizeof path, "%s/tests/data/weather/%s", LW_SOURCE_DIR, name);
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    const size_t length = fread(bytes, 1, sizeof bytes, file);
    assert_int_equal(fclose(file), 0);
    assert_true(lw_weather_read(bytes, length, &year, &err));
    assert_true(lw_sun_year(year.lat_deg, year.lon_deg, year.utc_offset_h, LW_SUN_SPENCER_DAILY, sun, &err));
    lw_plane plane = lw_plane_default(year.lat_deg);
    plane.tilt_deg = 15.0;
    assert_true(lw_plane_check(&plane, &err));
    lw_plane_prepare(&plane, sun, prepared);
    double sum = 0.0;
    for (int i = 0; i < LW_HOURS; i++) {
        double total, absorbed;
        lw_plane_lanes(&plane, &prepared[i], 1, &year.ghi_w_m2[i], &year.dhi_w_m2[i], &year.dni_w_m2[i], &total,
                       &absorbed);
        const double cell_c = lw_cell_temperature_c(&plane, year.air_c[i], total, year.wind_m_s[i]);
        sum += 7.0 * absorbed / 1000.0 * (1.0 - 0.0043 * (cell_c - 25.0)) * 0.95 * 0.98 * 0.93;
    }
    return sum;
}

/* Source: an independent program (python, numpy) with the same equations: output of a 7 W panel over four years. */
static void a_year_of_a_reference_panel(void **state)
{
    (void)state;
    static const struct {
        const char *name;
        double wh;
    } want[] = {{"addis-ababa.csv", 11904.8},
                {"colombo-katunayake.csv", 10799.4},
                {"guam-andersen.csv", 10659.0},
                {"huehuetenango.csv", 11063.5}};
    for (size_t i = 0; i < 4; i++) {
        const double is = panel_year_wh(want[i].name);
        print_message("%s: %.1f Wh, reference %.1f\n", want[i].name, is, want[i].wh);
        close_to(is, want[i].wh, 1e-4 * want[i].wh);
    }
}

static void wrong_planes_are_told(void **state)
{
    (void)state;
    lw_plane plane = lw_plane_default(3.7);
    close_to(plane.tilt_deg, 10.0, 0.0);
    lw_error err = {0};
    plane.horizon_deg[7] = NAN;
    assert_false(lw_plane_check(&plane, &err));
    assert_string_equal(err.field, "horizon_deg[8]");
    err = (lw_error){0};
    plane.tilt_deg = -4.0;
    assert_false(lw_plane_check(&plane, &err));
    assert_string_equal(err.field, "tilt_deg");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(flat_plane_gets_global),    cmocka_unit_test(mirrored_sky_mirrored_plane),
        cmocka_unit_test(sky_view_has_closed_forms), cmocka_unit_test(a_higher_skyline_never_adds_light),
        cmocka_unit_test(lanes_are_single_hours),    cmocka_unit_test(a_year_of_a_reference_panel),
        cmocka_unit_test(wrong_planes_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
