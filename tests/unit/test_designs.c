/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Ways of building a lamp from a shelf: what a charger bears, and which drivers can give the light that is asked for.
 */
#include "lanewick/brief.h"
#include "lanewick/plan.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static const char *const shelf =
    "{\"format\": \"lanewick.brief/1\", \"place\": {\"lat_deg\": -20.03, \"lon_deg\": 47.02}, \"want\": {\"lumens\": "
    "290},"
    "\"shelf\": {\"panels\": [{\"watts\": 11, \"count\": 3, \"price\": 41}, {\"watts\": 21, \"count\": 3, \"price\": "
    "72}],"
    "\"cells\": [{\"class\": \"4v2\", \"capacity_ah\": 1.93, \"count\": 36, \"price\": 1}],"
    "\"boards\": [{\"series\": 3, \"every_group\": true, \"balances\": true, \"high_v\": 4.25, \"low_v\": 2.8, "
    "\"price\": 9}],"
    "\"chargers\": [{\"kind\": \"direct\", \"series\": 3, \"end_v_per_cell\": 4.1, \"cold_stop_c\": 0, \"hot_stop_c\": "
    "45,"
    " \"most_input_v\": 30, \"price\": 17}],"
    "\"drivers\": [{\"name\": \"plain\", \"kind\": \"buck\", \"series\": 3, \"dims\": false, \"price\": 5},"
    " {\"name\": \"dimmer\", \"kind\": \"buck\", \"series\": 3, \"price\": 8}]}}";

static lw_brief brief;
static lw_design design[64];

static size_t designs(void)
{
    const lw_box_life mild = {17.3, 21.9, 0.0, 0.0};
    lw_refusals refused = {0};
    return lw_plan_designs(&brief, &brief.want.lamp[0], 1.5, &mild, design, 64, &refused);
}

static int begin(void **state)
{
    (void)state;
    lw_error err = {0};
    return lw_brief_from_json(shelf, strlen(shelf), &brief, &err) ? 0 : -1;
}

/* 11, 2 x 11, 21 and 2 x 21 W; of these a charger of 20.5 W bears one, of 22 W three, of 10.9 W none. */
static void charger_bears_the_panels(void **state)
{
    (void)state;
    assert_int_equal(designs(), 4);
    brief.shelf.charger[0].most_input_w = 22.0;
    assert_int_equal(designs(), 3);
    brief.shelf.charger[0].most_input_w = 20.5;
    assert_int_equal(designs(), 1);
    assert_int_equal(design[0].panel, 0);
    brief.shelf.charger[0].most_input_w = 10.9;
    assert_int_equal(designs(), 0);
}

static void levels_need_a_driver_that_dims(void **state)
{
    (void)state;
    assert_true(designs() > 0);
    assert_int_equal(design[0].driver, 0); /* full light all night: the cheapest will do */
    brief.want.lamp[0].span[0].level = 0.4;
    assert_true(designs() > 0);
    assert_int_equal(design[0].driver, 1);
}

static void dimming_when_low_needs_one_too(void **state)
{
    (void)state;
    brief.want.dims = true;
    assert_true(designs() > 0);
    assert_int_equal(design[0].driver, 1);
    brief.shelf.driver_count = 1;
    assert_int_equal(designs(), 0);
}

/* A phone socket goes on drawing when the driver has stopped the light at 3.0 V: a board at 2.2 V is too late. */
static void driver_does_not_stop_a_socket(void **state)
{
    (void)state;
    brief.shelf.board[0].low_v = 2.2;
    brief.shelf.driver[0].low_stop_v_per_cell = 3.0;
    assert_true(designs() > 0);
    brief.want.lamp[0].load_count = 1;
    brief.want.lamp[0].load[0] = (lw_other_load){.name = "socket", .power_w = 2.5, .from_h = 17.0, .until_h = 20.0};
    assert_int_equal(designs(), 0);
    brief.shelf.board[0].low_v = 2.8;
    assert_true(designs() > 0);
    /* in the simulation too: light to 3.0 V, the socket to the board's 2.8 V; alone, the light's stop ends all */
    const lw_worn fresh = {1.0, 1.0, 1.0};
    lw_system system;
    lw_error err = {0};
    design[0].parallel = 2;
    assert_true(lw_plan_system(&brief, &brief.want.lamp[0], &design[0], &fresh, 10.0, 0.0, &system, &err));
    assert_true(fabs(system.battery.cutoff_v - 3.0) < 1e-12 && fabs(system.battery.others_cutoff_v - 2.8) < 1e-12);
    brief.want.lamp[0].load_count = 0;
    assert_true(lw_plan_system(&brief, &brief.want.lamp[0], &design[0], &fresh, 10.0, 0.0, &system, &err));
    assert_true(system.battery.others_cutoff_v <= 0.0);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(charger_bears_the_panels, begin),
        cmocka_unit_test_setup(levels_need_a_driver_that_dims, begin),
        cmocka_unit_test_setup(dimming_when_low_needs_one_too, begin),
        cmocka_unit_test_setup(driver_does_not_stop_a_socket, begin),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
