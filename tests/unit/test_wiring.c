/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Wires and fuse of a planned lamp, against numbers worked by hand.
 */
#include "lanewick/wiring.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static lw_brief brief;

static void small_lamp(void)
{
    brief.shelf.panel[0] = (lw_shelf_panel){.watts = 20.0, .vmp_v = 6.1, .isc_a = 3.6};
    brief.shelf.cell[0] = (lw_shelf_cell){.voltage_class = LW_SHELF_4V2, .resistance_ohm = 0.06};
    brief.shelf.charger[0] = (lw_shelf_charger){.kind = LW_SHELF_TRACKING, .efficiency = 0.9, .most_a = 2.0};
    brief.shelf.driver[0] = (lw_shelf_driver){.efficiency = 0.9};
}

/* 3 W over 0.9 at 3.0 V: 1.111 A; charging at most 2 A; 1.25 x 2 / 0.9 = 2.78, so a blade of 3 A; 4 x 4.2 / 0.06 = 280
 * A; pack lead 1 % of 4.2 V at 3 A over 0.5 m: 1.5 mm2 loses 44 mV, 2.5 mm2 26 mV. */
static void numbers_by_hand(void **state)
{
    (void)state;
    small_lamp();
    const lw_lamp_kind lamp = {.head_w = 3.0};
    const lw_design design = {.panels = 1, .series = 1, .parallel = 4};
    lw_wiring w;
    lw_error err = {0};
    assert_true(lw_plan_wiring(&brief, &lamp, &design, &w, &err));
    assert_true(fabs(w.night_a - 1.1111) < 1e-4);
    assert_true(fabs(w.charge_a - 2.0) < 1e-12);
    assert_true(w.fuse_a == 3.0 && w.pack_mm2 == 2.5);
    assert_true(fabs(w.short_a - 280.0) < 1e-9);
    assert_true(w.head_mm2 >= 1.5 && w.panel_mm2 >= 2.5);
}

/* 20 W label of 36 cells: 3 % of 17.6 V would allow 0.5 mm2 over 5 m; the nights were computed with 0.15 ohm, there and
 * back 10 m: 1.5 mm2 has 0.133 ohm at 20 degC (IEC 60228, class 5: 13.3 ohm/km), 1.0 mm2 0.195 ohm. */
static void panel_lead_is_as_computed(void **state)
{
    (void)state;
    small_lamp();
    brief.shelf.panel[0] = (lw_shelf_panel){.watts = 20.0, .vmp_v = 17.6, .isc_a = 1.24};
    const lw_lamp_kind lamp = {.head_w = 3.0};
    const lw_design design = {.panels = 1, .series = 1, .parallel = 4};
    lw_wiring w;
    lw_error err = {0};
    brief.build.wire_ohm = 0.15;
    assert_true(lw_plan_wiring(&brief, &lamp, &design, &w, &err));
    assert_true(w.panel_mm2 == 1.5);
    brief.build.wire_ohm = 2.0;
    assert_true(lw_plan_wiring(&brief, &lamp, &design, &w, &err));
    assert_true(w.panel_mm2 < 1.5);
}

static void too_much_current_is_refused(void **state)
{
    (void)state;
    small_lamp();
    const lw_lamp_kind lamp = {.head_w = 60.0};
    const lw_design design = {.panels = 1, .series = 1, .parallel = 40};
    lw_wiring w;
    lw_error err = {0};
    assert_false(lw_plan_wiring(&brief, &lamp, &design, &w, &err));
    assert_int_equal(err.family, LW_REFUSED);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(numbers_by_hand),
        cmocka_unit_test(panel_lead_is_as_computed),
        cmocka_unit_test(too_much_current_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
