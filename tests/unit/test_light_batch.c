/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Eight places at a time against the plain way, place by place: real files of every symmetry, closed forms, heads
 * turned and tilted; an uneven table made to lie off the steps is told.
 */
#include "lanewick/light_batch.h"
#include "lanewick/lm63.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>

#include <cmocka.h>

enum { SIDE = 40, PLACES = SIDE * SIDE };

static unsigned char memory[16 << 20];
static float x_m[PLACES], y_m[PLACES], lux[PLACES];

/* Places from straight below to ten heights away, on both sides. */
static void lay_places(void)
{
    for (int i = 0; i < PLACES; i++) {
        const int column = i % SIDE, row = i / SIDE;
        x_m[i] = (float)(-40.0 + 80.0 * column / (SIDE - 1));
        y_m[i] = (float)(-40.0 + 80.0 * row / (SIDE - 1)) + 0.01F;
        lux[i] = 0.0F;
    }
    x_m[0] = 1.0F;
    y_m[0] = 2.0F; /* straight below */
}

/* The largest difference, over the light straight below at peak intensity. */
static double largest_difference(const lw_beam *beam, double turn_deg, double tilt_deg, double peak_cd, bool *exact)
{
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    const lw_lamp lamp = {.x_m = 1.0,
                          .y_m = 2.0,
                          .height_m = 4.2,
                          .turn_deg = turn_deg,
                          .tilt_deg = tilt_deg,
                          .maintenance = 0.8,
                          .beam = *beam};
    lw_even_table table;
    if (!lw_even_table_of(beam, &arena, &table, &err))
        fail_msg("%s", err.message);
    *exact = table.exact;
    lay_places();
    lw_batch_ground(&table, &lamp, x_m, y_m, PLACES, lux);
    lw_batch_ground(&table, &lamp, x_m, y_m, PLACES, lux); /* it adds */
    double worst = 0.0;
    for (int i = 0; i < PLACES; i++) {
        lw_lux plain = {0};
        lw_lux_add(&lamp, (double)x_m[i], (double)y_m[i], 0.0, &plain);
        worst = fmax(worst, fabs(0.5 * (double)lux[i] - plain.horizontal_lx));
    }
    return worst / (0.8 * peak_cd / (4.2 * 4.2));
}

static void real_files_agree(void **state)
{
    (void)state;
    static const char *const names[] = {"lane-a", "path-a", "pole-a", "ring-a", "street-a", "example2019-a"};
    static char bytes[1 << 16];
    static unsigned char room[4 << 20];
    static lw_lm63 file;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[600];
        lw_error err = {0};
        lw_arena arena = lw_arena_over(room, sizeof room);
        (void)snprintf(path, sizeof path, LW_SOURCE_DIR "/tests/data/photometry/%s.ies", names[i]);
        FILE *f = fopen(path, "rb");
        assert_non_null(f);
        const size_t length = fread(bytes, 1, sizeof bytes, f);
        (void)fclose(f);
        assert_true(lw_lm63_read(bytes, length, true, &arena, &file, &err));
        for (double turn = -100.0; turn < 200.0; turn += 47.0)
            for (double tilt = 0.0; tilt < 40.0; tilt += 15.0) {
                bool exact = false;
                const lw_beam beam = {.table = &file.table, .street_plane_deg = i % 2 ? 90.0 : 0.0};
                const double worst = largest_difference(&beam, turn, tilt, lw_intensity_peak_cd(&file.table), &exact);
                if (!exact || !(worst < 2e-5))
                    fail_msg("%s turned %g tilted %g: %g, exact %d", names[i], turn, tilt, worst, exact);
            }
    }
}

static void closed_forms_agree(void **state)
{
    (void)state;
    bool exact = true;
    const lw_beam flat = {.peak_cd = 100.0, .cos_power = 1.0}, globe = {.peak_cd = 100.0, .round = true};
    assert_true(largest_difference(&flat, 90.0, 12.0, 100.0, &exact) < 2e-5);
    assert_false(exact);
    assert_true(largest_difference(&globe, 90.0, 12.0, 100.0, &exact) < 2e-5);
}

static void odd_angles_are_told(void **state)
{
    (void)state;
    static const double vertical[] = {0.0, 11.37, 42.9, 90.0}, cd[] = {90.0, 100.0, 60.0, 0.0}, plane[] = {0.0};
    lw_intensity table = {4, 1, vertical, plane, cd, LW_SYMMETRY_ROUND};
    const lw_beam beam = {.table = &table};
    bool exact = true;
    const double worst = largest_difference(&beam, 0.0, 0.0, 100.0, &exact);
    assert_false(exact);
    assert_true(worst < 2e-3); /* the bends are cut by a quarter of a degree at most */
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(real_files_agree),
        cmocka_unit_test(closed_forms_agree),
        cmocka_unit_test(odd_angles_are_told),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
