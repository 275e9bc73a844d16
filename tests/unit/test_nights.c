/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Both engines against the published table of the two reference lamps (an independent python/numpy simulation of
 * the same equations on the same hourly years), and against one another.
 */
#include "core/power/lanes.h"
#define LW_WIDTH 4 /* of the narrow lanes */
#define LW_TARGET
#include "lanewick/nights.h"
#include "lanewick/vector.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

enum { ARENA = 24 << 20, SITES = 4 };
static const char *const sites[SITES] = {"addis-ababa", "colombo-katunayake", "guam-andersen", "huehuetenango"};

static lw_arena arena;
static lw_weather_year years[SITES];

static char *read_file(const char *path, size_t *length)
{
    FILE *file = fopen(path, "rb");
    assert_non_null(file);
    char *bytes = malloc(2 << 20);
    assert_non_null(bytes);
    *length = fread(bytes, 1, 2 << 20, file);
    assert_int_equal(fclose(file), 0);
    return bytes;
}

static lw_system lamp(const char *name)
{
    char path[512];
    size_t length;
    lw_error err = {0};
    lw_system system;
    (void)snprintf(path, sizeof path, LW_SOURCE_DIR "/tests/lamps/%s.json", name);
    char *text = read_file(path, &length);
    if (!lw_system_from_json(text, length, &system, &err))
        fail_msg("%s", err.message);
    free(text);
    return system;
}

static int setup(void **state)
{
    (void)state;
    arena = lw_arena_over(malloc(ARENA), ARENA);
    for (int i = 0; i < SITES; i++) {
        char path[512];
        size_t length;
        lw_error err = {0};
        (void)snprintf(path, sizeof path, LW_SOURCE_DIR "/tests/data/weather/%s.csv", sites[i]);
        char *bytes = read_file(path, &length);
        if (!lw_weather_read(bytes, length, &years[i], &err))
            fail_msg("%s", err.message);
        free(bytes);
    }
    return 0;
}

static int teardown(void **state)
{
    (void)state;
    free(arena.base);
    return 0;
}

typedef struct row {
    int site;
    const char *lamp;
    int hay_davies, isotropic, perez;
    double unserved, lowest, panel;
    int by_month[12];
} row;

static const row table[] = {
    {0, "a", 2, 2, 2, 0.00128, 0.000, 11904.8, {2, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0}},
    {0, "b", 0, 0, 0, 0.00000, 0.034, 2333.5, {0}},
    {1, "a", 3, 3, 5, 0.00169, 0.000, 10799.4, {0, 0, 0, 0, 0, 1, 0, 0, 0, 0, 1, 1}},
    {1, "b", 0, 0, 0, 0.00000, 0.190, 2227.1, {0}},
    {2, "a", 13, 16, 13, 0.01115, 0.000, 10659.0, {0, 0, 0, 0, 0, 1, 1, 0, 4, 5, 0, 2}},
    {2, "b", 4, 4, 4, 0.00484, 0.000, 2172.7, {0, 0, 0, 0, 0, 0, 0, 0, 0, 3, 0, 1}},
    {3, "a", 21, 26, 17, 0.01067, 0.000, 11063.5, {0, 0, 0, 0, 1, 1, 0, 1, 1, 11, 5, 1}},
    {3, "b", 2, 2, 2, 0.00108, 0.000, 2253.6, {0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 1, 0}},
};

static lw_nights run(const lw_system *system, int site)
{
    static lw_nights nights;
    lw_error err = {0};
    if (!lw_nights_explicit(system, &years[site], &arena, &nights, &err))
        fail_msg("%s", err.message);
    return nights;
}

static void reference_table(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        const row *r = &table[i];
        lw_system system = lamp(r->lamp);
        const lw_nights n = run(&system, r->site);
        assert_int_equal(n.dark_nights, r->hay_davies);
        for (int m = 0; m < 12; m++)
            assert_int_equal(n.by_month[m], r->by_month[m]);
        assert_true(fabs(n.unserved_share - r->unserved) < 6e-6);
        assert_true(fabs(n.lowest_charge_share - r->lowest) < 6e-4);
        const double panel = r->lamp[0] == 'a' ? n.panel_year_wh : n.panel_year_ah;
        assert_true(fabs(panel / r->panel - 1.0) < 5e-5);
        system.plane.sky = LW_SKY_ISOTROPIC;
        assert_int_equal(run(&system, r->site).dark_nights, r->isotropic);
        system.plane.sky = LW_SKY_PEREZ;
        assert_int_equal(run(&system, r->site).dark_nights, r->perez);
    }
}

/* Exact dusk and dawn, and finer steps, move a count little: allowed within 2 nights or a tenth. */
static void exact_dusk_and_finer_steps(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        lw_system system = lamp(table[i].lamp);
        system.load.dusk_midpoints = 0;
        for (int steps = 1; steps <= 6; steps += 5) {
            system.steps_per_hour = steps;
            const int dark = run(&system, table[i].site).dark_nights;
            assert_true(abs(dark - table[i].hay_davies) <= 2 + table[i].hay_davies / 10);
        }
    }
}

static lw_weather_block *block_of(int site)
{
    lw_weather_block *block = malloc(sizeof *block);
    assert_non_null(block);
    const lw_weather_year *y = &years[site];
    for (int h = 0; h < LW_HOURS; h++)
        for (int l = 0; l < LW_LANES; l++) {
            block->ghi_w_m2[h][l] = y->ghi_w_m2[h];
            block->dhi_w_m2[h][l] = y->dhi_w_m2[h];
            block->dni_w_m2[h][l] = y->dni_w_m2[h];
            block->air_c[h][l] = y->air_c[h];
            block->wind_m_s[h][l] = y->wind_m_s[h];
        }
    for (int d = 0; d < LW_DAYS; d++)
        for (int l = 0; l < LW_LANES; l++)
            block->rain_mm[d][l] = y->rain_mm[d];
    return block;
}

/* Lamps of different panel, pack and load in the lanes, and each alone in double precision. */
static void compare(const char *name, int site, int *dark_seen)
{
    const lw_system system = lamp(name);
    lw_error err = {0};
    const size_t used = arena.used;
    lw_engine *engine =
        lw_engine_prepare(&system, years[site].lat_deg, years[site].lon_deg, years[site].utc_offset_h, &arena, &err);
    if (!engine)
        fail_msg("%s", err.message);
    lw_weather_block *block = block_of(site);
    lw_drive_block *drive = malloc(sizeof *drive);
    lw_run_log *log = malloc(sizeof *log);
    lw_lane_parts parts[LW_LANES];
    lw_nights_summary lanes[LW_LANES];
    for (int l = 0; l < LW_LANES; l++)
        parts[l] = (lw_lane_parts){1.0 - 0.03 * l, 1.1 - 0.02 * l, 1.0 + 0.05 * l, 0.93 + 0.0085 * l};
    lw_engine_drive(engine, block, drive);
    lw_engine_run(engine, drive, parts, log, lanes);
    for (int l = 0; l < LW_LANES; l++) {
        lw_system one = system;
        one.panel.factor *= parts[l].panel_factor;
        one.battery.capacity_factor *= parts[l].capacity_factor;
        one.battery.resistance_factor *= parts[l].resistance_factor;
        one.load.head_w *= parts[l].load_factor;
        const lw_nights alone = run(&one, site);
        /* The reference lamps agree night by night; steps of dimming make the others sensitive to the last bit. */
        const int allowed = strlen(name) == 1 ? alone.dark_nights / 100 : 1 + alone.dark_nights / 20;
        if (abs(alone.dark_nights - lanes[l].dark_nights) > allowed)
            fail_msg("%s at %s, lane %d: %d dark nights alone, %d in the lanes", name, sites[site], l,
                     alone.dark_nights, lanes[l].dark_nights);
        assert_true(fabs(alone.unserved_share - (double)lanes[l].unserved_share) < 1e-3 + 0.05 * alone.unserved_share);
        assert_true(fabs(alone.panel_year_wh / (double)lanes[l].panel_wh - 1.0) < 3e-3);
        assert_true(fabs(alone.full_cycles / (double)lanes[l].full_cycles - 1.0) < 1.5e-2);
        assert_true(fabs(alone.pack_mean_c - (double)lanes[l].pack_mean_c) < 0.3);
        *dark_seen += alone.dark_nights;
    }
    free(block);
    free(drive);
    free(log);
    arena.used = used;
}

/* The lanes of one width against those in vectors of 4, which every machine has: the same bits. */
static void same_bits(lw_lane_hours *hours, const lw_engine *engine, const lw_drive_block *drive,
                      const lw_lane_state *begin)
{
    lw_lane_state narrow = *begin, wide = *begin;
    lw_lane_sums narrow_sums = {0}, wide_sums = {0};
    lw_lane_hours_4(engine, drive, 0, LW_HOURS, &narrow, &narrow_sums);
    hours(engine, drive, 0, LW_HOURS, &wide, &wide_sums);
    assert_memory_equal(&narrow, &wide, sizeof wide);
    assert_memory_equal(&narrow_sums, &wide_sums, sizeof wide_sums);
    assert_true(wide_sums.missing[LW_LANES - 1] > 0.0F && wide_sums.panel[0] > 0.0F);
}

/* A year of lamps in vectors of all widths that this machine has. */
static void a_vector_may_be_as_wide_as_it_likes(void **state)
{
    (void)state;
    static const char *const names[] = {"a", "b", "worn", "lfp", "socket"};
    lw_weather_block *block = block_of(0);
    lw_drive_block *drive = malloc(sizeof *drive);
    assert_non_null(drive);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const lw_system system = lamp(names[i]);
        lw_error err = {0};
        const size_t used = arena.used;
        const lw_weather_year *y = &years[0];
        lw_engine *engine = lw_engine_prepare(&system, y->lat_deg, y->lon_deg, y->utc_offset_h, &arena, &err);
        if (!engine)
            fail_msg("%s", err.message);
        lw_engine_drive(engine, block, drive);
        lw_lane_state begin = {0};
        for (int l = 0; l < LW_LANES; l++) {
            begin.full[l] = engine->lanes.full * (1.1F - 0.03F * (float)l);
            begin.inverse_full[l] = 1.0F / begin.full[l];
            begin.photo[l] = 1.0F - 0.04F * (float)l;
            begin.resistance[l] = begin.load[l] = 0.9F + 0.02F * (float)l;
            begin.charge[l] = 0.5F * begin.full[l];
        }
        if (lw_vector_width() >= 8)
            same_bits(lw_lane_hours_8, engine, drive, &begin);
        same_bits(lw_lane_hours_here(), engine, drive, &begin);
        arena.used = used;
    }
    free(block);
    free(drive);
}

static void lanes_agree(void **state)
{
    (void)state;
    static const char *const names[] = {"a", "b", "worn", "lfp", "socket"};
    int dark_seen = 0;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        for (int site = 0; site < SITES; site++)
            compare(names[i], site, &dark_seen);
    assert_true(dark_seen > 500); /* the comparison has something to compare */
}

/* A driver ends its light at 3.4 V a cell; the socket goes on to 2.9 V. Less is missing for the socket, the pack gets
 * emptier, and no night gets better, than if all ended together. */
static void a_socket_goes_on_below_the_light(void **state)
{
    (void)state;
    int worse = 0;
    for (int site = 0; site < SITES; site++) {
        lw_system system = lamp("socket");
        const lw_nights apart = run(&system, site);
        system.battery.others_cutoff_v = 0.0;
        const lw_nights together = run(&system, site);
        assert_true(apart.dark_nights >= together.dark_nights);
        assert_true(apart.unserved_share >= together.unserved_share - 1e-12);
        assert_true(apart.lowest_charge_share <= together.lowest_charge_share + 1e-12);
        assert_true(apart.other_missing_wh <= together.other_missing_wh + 1e-9);
        worse += apart.other_missing_wh < together.other_missing_wh;
    }
    assert_true(worse > 0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(reference_table), cmocka_unit_test(exact_dusk_and_finer_steps), cmocka_unit_test(lanes_agree),
        cmocka_unit_test(a_vector_may_be_as_wide_as_it_likes), cmocka_unit_test(a_socket_goes_on_below_the_light)};
    return cmocka_run_group_tests(tests, setup, teardown);
}
