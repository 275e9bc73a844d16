/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Real groups in a lamp: sums by hand, unequal groups against equal ones of the same sum, matched cells against the
 * same cells as they come, refusals.
 */
#include "lanewick/desk_pack.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { ARENA = 96 << 20 };

/* Six cells, strong ones first, a seventh too weak to be used; untidy on purpose. */
static const char cells_csv[] = "shelf,cell_id,capacity_ah,resistance_mohm,verdict,voltage_class\r\n"
                                "a,A1,2.60,50,sound,4V2\r\n"
                                "a,A2,2.55,52,Sound,4v2\r\n"
                                "a,A3,2.50,48,sound,4v2\r\n"
                                "b,B1,1.50,90,tired,4v2\r\n"
                                "b,B2,1.42,95,tired,4v2\r\n"
                                "b,B3,1.40,98,tired,4v2\r\n"
                                "c,C1,0.40,200,tired,4v2\r\n";

static lw_arena arena;
static lw_weather_year year;
static lw_system worn;

static char *read_text(const char *path, size_t *length)
{
    char whole[512];
    (void)snprintf(whole, sizeof whole, LW_SOURCE_DIR "/tests/%s", path);
    FILE *file = fopen(whole, "rb");
    assert_non_null(file);
    char *bytes = malloc(2 << 20);
    assert_non_null(bytes);
    *length = fread(bytes, 1, 2 << 20, file);
    assert_int_equal(fclose(file), 0);
    return bytes;
}

static lw_system lamp(const char *path)
{
    size_t length;
    lw_error err = {0};
    lw_system system;
    char *text = read_text(path, &length);
    if (!lw_system_from_json(text, length, &system, &err))
        fail_msg("%s", err.message);
    free(text);
    return system;
}

static int setup(void **state)
{
    (void)state;
    size_t length;
    lw_error err = {0};
    arena = lw_arena_over(malloc(ARENA), ARENA);
    char *bytes = read_text("data/weather/guam-andersen.csv", &length);
    if (!lw_weather_read(bytes, length, &year, &err))
        fail_msg("%s", err.message);
    free(bytes);
    worn = lamp("lamps/worn.json");
    return 0;
}

static int teardown(void **state)
{
    (void)state;
    free(arena.base);
    return 0;
}

/* The weakest group sets the end: moving charge from one group to the other never helps. */
static void unequal_never_better(void **state)
{
    (void)state;
    static lw_nights nights;
    lw_error err = {0};
    int equal_dark = 0, last = 0;
    for (int step = 0; step <= 8; step++) {
        lw_system system = worn;
        for (int g = 0; g < 2; g++)
            system.battery.groups[g] = (lw_group){.capacity_ah = 7.0 + (g ? -0.4 : 0.4) * step, .r0_ohm = 0.02};
        if (!lw_nights_explicit(&system, &year, &arena, &nights, &err))
            fail_msg("%s", err.message);
        if (step == 0)
            equal_dark = nights.dark_nights;
        assert_true(nights.dark_nights >= equal_dark);
        last = nights.dark_nights;
    }
    assert_true(last > equal_dark); /* 3.8 Ah instead of 7.0 is seen */
}

static lw_pack_nights_ask ask_of(const lw_system *system)
{
    return (lw_pack_nights_ask){
        .system = system,
        .hours = &year,
        .match = {.series = system->battery.series, .parallel = 3, .confidence = 0.9, .seed = 1},
        .planned_years = 2,
        .health = 0.8};
}

static bool compute(lw_pack_nights_ask *ask, const char *csv, lw_pack_nights *out, lw_error *err)
{
    static lw_cell_list list;
    arena.used = 0;
    return lw_desk_pack_nights(csv, strlen(csv), ask, &arena, &list, out, err);
}

static double sum_ah(const lw_pack_wiring *pack, int series)
{
    double sum = 0.0;
    for (int g = 0; g < series; g++)
        sum += pack->group[g].capacity_ah;
    return sum;
}

/* The six stronger cells hold 11.97 Ah; the weakest of the two groups at best, by trying every division. */
static double best_weakest(void)
{
    static const double ah[] = {2.60, 2.55, 2.50, 1.50, 1.42, 1.40};
    double best = 0.0;
    for (int i = 0; i < 6; i++)
        for (int j = i + 1; j < 6; j++)
            for (int k = j + 1; k < 6; k++) {
                const double one = ah[i] + ah[j] + ah[k];
                best = fmax(best, fmin(one, 11.97 - one));
            }
    return best;
}

static void groups_are_those_of_the_cells(void **state)
{
    (void)state;
    static lw_pack_nights n;
    lw_error err = {0};
    lw_pack_nights_ask ask = ask_of(&worn);
    if (!compute(&ask, cells_csv, &n, &err))
        fail_msg("%s", err.message);
    assert_int_equal(n.match.left_out, 1);
    assert_true(fabs(n.as_they_come.group[0].capacity_ah - 7.65) < 1e-9);
    assert_true(fabs(n.as_they_come.group[1].capacity_ah - 4.32) < 1e-9);
    assert_true(fabs(n.as_they_come.weakest_ah - 4.32) < 1e-9);
    assert_true(fabs(n.matched.weakest_ah - best_weakest()) < 1e-9);
    assert_true(fabs(sum_ah(&n.matched, 2) - 11.97) < 1e-9);
    /* 1 / (1/50 + 1/52 + 1/48) = 16.65 mohm, two thirds of it at once */
    const double mohm = 1.0 / (1.0 / 50.0 + 1.0 / 52.0 + 1.0 / 48.0);
    assert_true(fabs(1000.0 * n.as_they_come.group[0].r0_ohm - 0.65 * mohm) < 1e-9);
    assert_true(fabs(1000.0 * n.as_they_come.group[0].r1_ohm - 0.35 * mohm) < 1e-9);
    assert_false(n.system_mohm);
    assert_false(n.system_class);
    assert_int_equal(n.years, 2);
}

static void matched_never_worse(void **state)
{
    (void)state;
    static lw_pack_nights n;
    static lw_climate climate;
    lw_error err = {0};
    double saved = 0.0;
    assert_true(lw_desk_climate_of(&year, &climate, &err));
    for (int made = 0; made < 2; made++) {
        lw_pack_nights_ask ask = ask_of(&worn);
        ask.hours = made ? NULL : &year;
        ask.draws = (lw_night_draws){.climate = &climate,
                                     .utc_offset_h = year.utc_offset_h,
                                     .exact_means = true,
                                     .years = 24,
                                     .seed = 5,
                                     .confidence = 0.8};
        if (!compute(&ask, cells_csv, &n, &err))
            fail_msg("%s", err.message);
        for (int y = 0; y <= 2; y++) {
            assert_true(n.matched.dark[y].mean <= n.as_they_come.dark[y].mean);
            assert_true(n.matched.dark[y].low <= n.matched.dark[y].mean);
            assert_true(n.matched.dark[y].mean <= n.matched.dark[y].high);
            saved += n.as_they_come.dark[y].mean - n.matched.dark[y].mean;
        }
        /* cells fade, and a faded pack is dark no less often */
        assert_true(n.matched.capacity_share[0] == 1.0);
        assert_true(n.matched.capacity_share[2] < n.matched.capacity_share[1]);
        assert_true(n.matched.dark[2].mean >= n.matched.dark[0].mean);
    }
    assert_true(saved > 1.0);
}

static void refuse(const lw_system *system, const char *csv, int series, lw_family family, const char *field)
{
    static lw_pack_nights n;
    lw_error err = {0};
    lw_pack_nights_ask ask = ask_of(system);
    ask.match.series = series;
    ask.match.parallel = 1;
    assert_false(compute(&ask, csv, &n, &err));
    assert_int_equal(err.family, family);
    assert_string_equal(err.field, field);
}

static void refusals(void **state)
{
    (void)state;
    static const char lfp[] = "cell_id,capacity_ah,resistance_mohm,voltage_class\nA,1.1,30,LFP\nB,1.0,31,lfp\n";
    refuse(&worn, lfp, 2, LW_REFUSED, "voltage_class");
    refuse(&worn, cells_csv, 3, LW_WRONG_INPUT, "series");
    lw_system system = worn;
    system.battery.ceiling_v = 4.3;
    refuse(&system, cells_csv, 2, LW_REFUSED, "ceiling_v");
    system = worn;
    system.charger.full_v = 8.7;
    refuse(&system, cells_csv, 2, LW_REFUSED, "ceiling_v");
    system = worn;
    system.battery.cutoff_v = 2.2;
    refuse(&system, cells_csv, 2, LW_REFUSED, "cutoff_v");
    system = worn;
    system.battery = lw_battery_bucket(20.0);
    system.battery.series = 2;
    refuse(&system, cells_csv, 2, LW_WRONG_INPUT, "battery.kind");
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(unequal_never_better),
                                       cmocka_unit_test(groups_are_those_of_the_cells),
                                       cmocka_unit_test(matched_never_worse), cmocka_unit_test(refusals)};
    return cmocka_run_group_tests(tests, setup, teardown);
}
