/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The typical LED: its own data sheet values come back, heat and light make up the power, more current is less
 * efficient, too much is refused.
 */
#include "lanewick/led.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

static void rated_point_comes_back(void **state)
{
    (void)state;
    const lw_led led = lw_led_typical();
    lw_led_point at;
    lw_error err = {0};
    /* 0.15 A at 3.2 V is 0.48 W; air so cold that the junction stands near the 25 degC of the data sheet */
    assert_true(lw_led_solve(&led, 0.15, 1, 0.0, 20.8, &at, &err));
    assert_true(fabs(at.junction_c - 25.0) < 1.0);
    assert_true(fabs(at.vf_v - 3.2) < 0.01);
    assert_true(fabs(at.lumens - 68.0) < 0.3); /* data sheet of a low-cost 2835 part */
    assert_true(at.heat_w > 0.0 && at.heat_w < at.power_w);
    assert_false(at.too_hot);
}

static void more_current_gives_less_light_a_watt(void **state)
{
    (void)state;
    const lw_led led = lw_led_typical();
    lw_led_point low, high;
    lw_error err = {0};
    assert_true(lw_led_solve(&led, 0.043, 7, 11.0, 31.5, &low, &err));
    assert_true(lw_led_solve(&led, 0.171, 7, 11.0, 31.5, &high, &err));
    assert_true(high.lumens > low.lumens && high.lumens_per_w < low.lumens_per_w);
    assert_true(high.junction_c > low.junction_c && low.junction_c > 31.5);
}

static void too_much_current_is_refused(void **state)
{
    (void)state;
    const lw_led led = lw_led_typical();
    lw_led_point at;
    lw_error err = {0};
    assert_false(lw_led_solve(&led, 0.47, 1, 10.0, 25.0, &at, &err));
    assert_true(err.message[0] != '\0');
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(rated_point_comes_back),
        cmocka_unit_test(more_current_gives_less_light_a_watt),
        cmocka_unit_test(too_much_current_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
