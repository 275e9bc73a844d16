/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bays of a lane and what follows from them: the grid of a lane that ends (EN 13201-3, from memory; numbers of an
 * independent script), rows in turn on both sides, lanes that cross themselves; light into windows by a closed form.
 */
#include "lit_lane.h"

/* A finite lane has the standard's points in every bay: 14 masts 220/14 m apart, 465 lm, tilted 20 degree. Lux from the
 * closed form of a Lambert head summed by an independent script over 10 points a bay (EN 13201-3, from memory): in the
 * worst inner bay 0.4544 at the darkest point, at the ends of the lane 0.3004. */
static void finite_lane_is_judged_bay_by_bay(void **state)
{
    (void)state;
    static char document[4000];
    const double bay_m = 220.0 / 14.0;
    int n = snprintf(document, sizeof document,
                     "{\"format\":\"lanewick.lane/1\",\"head\":{\"lumens\":465,\"cos_power\":1},\"maintenance\":0.64,"
                     "\"field\":{\"length_m\":220,\"width_m\":2.5},\"masts\":[");
    for (int i = 0; i < 14; i++)
        n +=
            snprintf(document + n, sizeof document - (size_t)n,
                     "%s{\"x_m\":%.9f,\"y_m\":-0.3,\"height_m\":3.5,\"tilt_deg\":20}", i ? "," : "", (i + 0.5) * bay_m);
    (void)snprintf(document + n, sizeof document - (size_t)n, "]}");
    const lw_field_sum sum = light(document);
    assert_int_equal(count, 420);
    near(lw_field_bay_m(&lane.field, lane.lamps, lane.lamp_count), bay_m, 1e-8);
    near(sum.minimum_lx, 0.3004220762, 1e-8);
    near(sum.average_lx, 2.1991530929, 1e-8);
    assert_null(lw_light_class_reached(&sum, false));
    near(points[0].x_m, 0.5 * bay_m / 10.0, 1e-9); /* half a step from the mast too: five steps on */
    double inner = INFINITY;
    for (size_t i = 15; i + 15 < count; i++)
        inner = fmin(inner, points[i].ahead.horizontal_lx);
    near(inner, 0.4544159646, 1e-8);
}

/* By hand: masts of either side are neighbours, opposite ones are one place, a bend goes on along the line. */
static void bays_by_hand(void **state)
{
    (void)state;
    const lw_field straight = {LW_FIELD_STRIP, {{0, 0}, {60, 0}}, 2, 3};
    const lw_field bent = {LW_FIELD_STRIP, {{0, 0}, {20, 0}, {20, 20}}, 3, 3};
    const lw_lamp staggered[] = {{.x_m = 41, .y_m = -1}, {.x_m = 5, .y_m = -1}, {.x_m = 22, .y_m = 4}};
    const lw_lamp opposite[] = {{.x_m = 5, .y_m = -1}, {.x_m = 5.4, .y_m = 4}, {.x_m = 25, .y_m = -1}};
    const lw_lamp round_the_bend[] = {{.x_m = 14, .y_m = -1}, {.x_m = 21, .y_m = 7}};
    const lw_lamp beyond[] = {{.x_m = -9, .y_m = 0}, {.x_m = 3, .y_m = 0}};
    near(lw_field_bay_m(&straight, staggered, 3), 17.0, 1e-12);
    near(lw_field_bay_m(&straight, opposite, 3), 20.0, 1e-12);
    near(lw_field_bay_m(&bent, round_the_bend, 2), 13.0, 1e-12);
    near(lw_field_bay_m(&straight, beyond, 2), 12.0, 1e-12);
    assert_true(isinf(lw_field_bay_m(&straight, beyond, 1)));
}

/* A spacing is from lamp to lamp whichever side it stands on: 10 m in turn on both sides is 20 m on each, so the light
 * is that of two rows of 20 m, the mean twice that of one (light adds up). Ten points a bay of 10 m. */
static void staggered_rows_are_spaced_from_lamp_to_lamp(void **state)
{
    (void)state;
    const lw_field_sum turn = light(HEAD(800, 1,
                                         "\"field\":{\"length_m\":10,\"width_m\":3},\"row\":{\"spacing_m\":10,"
                                         "\"side\":\"staggered\",\"height_m\":4}"));
    assert_int_equal(count, 60);
    near(points[count - 1].x_m, 19.5, 1e-9);
    const lw_field_sum one =
        light(HEAD(800, 1, "\"field\":{\"length_m\":20,\"width_m\":3},\"row\":{\"spacing_m\":20,\"height_m\":4}"));
    near(turn.average_lx, 2.0 * one.average_lx, 0.001 * one.average_lx);
}

/* Light that disturbs is judged by new lamps: 800 lm Lambert at 4 m, 5.3 m before a window at 1.5 m gives I0 d h/r4
 * (closed form), whatever the maintenance and the bottle's age. */
static void windows_get_the_light_of_new_lamps(void **state)
{
    (void)state;
    (void)light(
        HEAD(800, 1,
             "\"field\":{\"length_m\":40,\"width_m\":3},\"maintenance\":0.66,\"masts\":[{\"x_m\":10,\"y_m\":-0.3,"
             "\"height_m\":4}],\"windows\":[{\"x_m\":10,\"y_m\":5,\"facing_deg\":-90}]"));
    const double r2 = 5.3 * 5.3 + 2.5 * 2.5, as_new = 800.0 / 3.14159265358979 * 5.3 * 2.5 / (r2 * r2);
    near(lw_lane_window_lx(&lane, &lane.windows[0]), as_new, 1e-9);
    lane.head.has_diffuser = true;
    lane.head.diffuser = lw_diffuser_of(0, 0, 3.0, NAN);
    const double old = lw_diffuser_share(&lane.head.diffuser).usual;
    lane.head.diffuser.years = 0.0;
    const double fresh = lw_diffuser_share(&lane.head.diffuser).usual;
    lane.head.diffuser.years = 3.0;
    assert_true(old < 0.95 * fresh);
    near(lw_lane_window_lx(&lane, &lane.windows[0]), as_new * fresh / old, 1e-9);
}

static const char *field_at_fault(const char *line)
{
    static lw_error err;
    char document[400];
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    err = (lw_error){0};
    (void)snprintf(
        document, sizeof document,
        HEAD(800, 1, "\"field\":{\"line\":%s,\"width_m\":2},\"masts\":[{\"x_m\":10,\"y_m\":2,\"height_m\":4}]"), line);
    assert_true(lw_lane_from_json(document, strlen(document), &lane, &err));
    return lw_field_grid(&lane.field, INFINITY, &arena, &points, &count, &err) ? "" : err.field;
}

/* Across a piece, and through a corner of it; a path round a field and a loop that ends at the lane are none. */
static void a_lane_that_crosses_itself_is_refused(void **state)
{
    (void)state;
    assert_string_equal(field_at_fault("[[0,0],[30,0],[30,20],[10,20],[10,-20]]"), "line");
    assert_string_equal(field_at_fault("[[0,0],[10,0],[30,0],[30,20],[10,20],[10,-20]]"), "line");
    assert_string_equal(field_at_fault("[[0,0],[30,0],[30,20],[0,20],[0,0]]"), "");
    assert_string_equal(field_at_fault("[[0,0],[30,0],[30,20],[10,20],[10,0]]"), "");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(finite_lane_is_judged_bay_by_bay),
        cmocka_unit_test(bays_by_hand),
        cmocka_unit_test(staggered_rows_are_spaced_from_lamp_to_lamp),
        cmocka_unit_test(windows_get_the_light_of_new_lamps),
        cmocka_unit_test(a_lane_that_crosses_itself_is_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
