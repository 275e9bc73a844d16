/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The LED board: width of its tracks against the chart's formula, every size of board examined, and that the
 * examination finds what is broken on purpose.
 */
#include "lanewick/gerber.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static lw_led_board board;

static lw_led_board_wish wish_of(int series, int strings)
{
    return (lw_led_board_wish){.series = series,
                               .strings = strings,
                               .led_a = 0.06,
                               .resistor_w = 0.05,
                               .pitch_mm = 10.16,
                               .copper_um = 35.0,
                               .led = lw_led_lands_known[0]};
}

/* IPC-2221, outer layer of 1 oz (35 um) copper, 10 K: 1 A 0.30 mm, 5 A 2.77 mm (published track calculators). */
static void track_width(void **state)
{
    (void)state;
    assert_true(fabs(lw_track_width_mm(1.0, 10.0, 35.0) - 0.300) < 0.005);
    assert_true(fabs(lw_track_width_mm(5.0, 10.0, 35.0) - 2.77) < 0.03);
}

static void every_size(void **state)
{
    (void)state;
    for (size_t kind = 0; kind < lw_led_lands_count; kind++)
        for (int series = 1; series <= 10; series++)
            for (int strings = 1; strings * series <= 120; strings += 1 + strings / 7) {
                lw_led_board_wish wish = wish_of(series, strings);
                lw_error err = {0};
                lw_board_report report;
                wish.led = lw_led_lands_known[kind];
                wish.resistor_w = 0.03 * strings;
                if (!lw_led_board_of(&wish, &board, &err)) {
                    assert_int_equal(err.family, LW_WRONG_INPUT);
                    continue;
                }
                if (!lw_led_board_examine(&board, &report, &err))
                    fail_msg("%d x %d of %s: %s", series, strings, wish.led.name, err.message);
                assert_int_equal(report.pieces, 2 + series * strings);
                assert_true(report.edge_mm >= 1.0 - 1e-9 && report.nearest_mm >= board.clearance_mm - 1e-9);
            }
}

static void must_fail(void (*spoil)(void), const char *what)
{
    lw_error err = {0};
    lw_board_report report;
    const lw_led_board_wish wish = wish_of(3, 4);
    assert_true(lw_led_board_of(&wish, &board, &err));
    spoil();
    if (lw_led_board_examine(&board, &report, &err))
        fail_msg("%s was not seen", what);
}

static void bridge(void)
{
    board.copper[4].box.x1_mm += 2.0;
}

static void cut_rail(void)
{
    board.copper[2].box.y1_mm -= 20.0;
}

static void lift_pad(void)
{
    board.pad[3].y_mm = -5.0;
}

static void turn_led(void)
{
    const lw_board_pad first = board.pad[2];
    board.pad[2] = board.pad[3];
    board.pad[3] = first;
}

static void near_screw(void)
{
    board.mounting[0].x_mm = 8.0;
}

static void faults_are_seen(void **state)
{
    (void)state;
    must_fail(bridge, "a bridge");
    must_fail(cut_rail, "a cut rail");
    must_fail(lift_pad, "a pad off the copper");
    must_fail(turn_led, "an LED the wrong way round");
    must_fail(near_screw, "a screw on copper");
}

static void refuses(void **state)
{
    (void)state;
    lw_led_board_wish wish = wish_of(3, 4);
    lw_error err = {0};
    wish.pitch_mm = NAN;
    assert_false(lw_led_board_of(&wish, &board, &err));
    wish = wish_of(20, 200);
    assert_false(lw_led_board_of(&wish, &board, &err));
    wish = wish_of(-1, 4);
    assert_false(lw_led_board_of(&wish, &board, &err));
    wish = wish_of(10, 20);
    wish.pitch_mm = 40.0;
    err = (lw_error){0};
    assert_false(lw_led_board_of(&wish, &board, &err));
    assert_non_null(strstr(err.message, "600 x 450 mm"));
}

/* Every layer begins and ends as the specification wants, and its numbers fit the format. */
static void layers(void **state)
{
    (void)state;
    lw_error err = {0};
    const lw_led_board_wish wish = wish_of(3, 4);
    assert_true(lw_led_board_of(&wish, &board, &err));
    for (int f = 0; f < LW_BOARD_FILES; f++) {
        char *text = lw_board_file_text(&board, (lw_board_file)f);
        assert_non_null(text);
        const size_t length = strlen(text);
        assert_string_equal(text + length - (f == LW_BOARD_FILE_DRILL ? 4 : 5),
                            f == LW_BOARD_FILE_DRILL ? "M30\n" : "M02*\n");
        assert_non_null(strstr(text, "TF.FileFunction,"));
        assert_null(strstr(text, "nan"));
        free(text);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(track_width), cmocka_unit_test(every_size), cmocka_unit_test(faults_are_seen),
        cmocka_unit_test(refuses),     cmocka_unit_test(layers),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
