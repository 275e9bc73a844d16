/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The schedule: nothing of a night is lost or counted twice, whatever the steps. Expected sums by hand.
 */
#include "lanewick/load.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static double share[LW_HOURS], level[LW_HOURS * 12];
static lw_dark_part nights[LW_DAYS];

/* Dark from 18:21 to 05:45 every night. */
static void same_nights(void)
{
    for (int h = 0; h < LW_HOURS; h++) {
        const int of_day = h % 24;
        /* 3e-17: what rounding leaves in an hour of the day */
        share[h] = of_day < 5 || of_day > 18 ? 1.0 : of_day == 18 ? 0.65 : of_day == 5 ? 0.75 : 3e-17;
    }
}

static double sum(const lw_load *load, int steps)
{
    lw_error err = {0};
    lw_load_nights(load, share, nights);
    if (!lw_load_levels(load, nights, steps, level, &err))
        fail_msg("%s", err.message);
    double total = 0.0;
    for (int i = 0; i < LW_HOURS * steps; i++)
        total += level[i];
    return total;
}

static void spans_add_up(void **state)
{
    (void)state;
    same_nights();
    lw_load load = lw_load_default();
    assert_true(fabs(sum(&load, 1) - 365.0 * 11.4) < 1e-6);
    assert_true(fabs(level[18] - 0.65) < 1e-9 && fabs(level[5] - 0.75) < 1e-9);
    load.span_count = 3;
    load.spans[0] = (lw_span){{LW_AT_DUSK, 0.0}, {LW_AT_CLOCK, 22.25}, 1.0};
    load.spans[1] = (lw_span){{LW_AT_CLOCK, 22.25}, {LW_BEFORE_DAWN, 1.5}, 0.4};
    load.spans[2] = (lw_span){{LW_BEFORE_DAWN, 1.5}, {LW_AT_DAWN, 0.0}, 0.8};
    const double night = 3.9 + 0.4 * 6.0 + 0.8 * 1.5;
    assert_true(fabs(sum(&load, 1) - 365.0 * night) < 1e-6);
    assert_true(fabs(sum(&load, 12) - 365.0 * night) < 1e-6);
    /* 12 minutes less at both ends: of the first span at full light, of the second at 0.4; the third moves. */
    load.dusk_offset_min = 12.0;
    assert_true(fabs(sum(&load, 4) - 365.0 * (night - 0.2 - 0.08)) < 1e-6);
}

static void overlap_is_told(void **state)
{
    (void)state;
    same_nights();
    lw_load load = lw_load_default();
    lw_error err = {0};
    load.span_count = 2;
    load.spans[0] = (lw_span){{LW_AT_DUSK, 0.0}, {LW_AT_NIGHT_SHARE, 0.6}, 1.0};
    load.spans[1] = (lw_span){{LW_AFTER_DUSK, 6.3}, {LW_AT_DAWN, 0.0}, 0.5};
    lw_load_nights(&load, share, nights);
    assert_false(lw_load_levels(&load, nights, 1, level, &err));
    assert_string_equal(err.field, "load.schedule");
    load.spans[1].from.value = 6.9;
    err = (lw_error){0};
    assert_true(lw_load_levels(&load, nights, 1, level, &err));
}

static void no_night_no_light(void **state)
{
    (void)state;
    for (int h = 0; h < LW_HOURS; h++)
        share[h] = 0.0;
    const lw_load load = lw_load_default();
    assert_true(sum(&load, 1) == 0.0);
    for (int h = 0; h < LW_HOURS; h++)
        share[h] = 1.0;
    assert_true(fabs(sum(&load, 3) - LW_HOURS) < 1e-6);
}

int main(void)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(spans_add_up), cmocka_unit_test(overlap_is_told),
                                       cmocka_unit_test(no_night_no_light)};
    return cmocka_run_group_tests(tests, NULL, NULL);
}
