/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Light on a lane: grid rules of EN 13201-3 (from memory) and cases computed with an independent script from its
 * formulas; symmetries that must hold whatever the numbers.
 */
#include "lanewick/lm63.h"
#include "lit_lane.h"

static void narrow_lane_by_the_standards_reach(void **state)
{
    (void)state;
    const lw_field_sum sum = light(HEAD(800, 1,
                                        "\"field\":{\"length_m\":16,\"width_m\":3},\"maintenance\":0.8,"
                                        "\"row\":{\"spacing_m\":16,\"height_m\":4},\"reach_heights\":5"));
    assert_int_equal(count, 30);
    near(sum.average_lx, 3.994810764, 1e-8);
    near(sum.minimum_lx, 0.9217669314, 1e-9);
    near(sum.maximum_lx, 11.51579477, 1e-7);
    near(points[0].ahead.horizontal_lx, 11.51579, 1e-5);   /* x 0.8, y 0.5 */
    near(points[7].ahead.horizontal_lx, 2.902436, 1e-6);   /* x 4.0, y 1.5 */
    near(points[14].ahead.horizontal_lx, 0.9217669, 1e-7); /* x 7.2, y 2.5 */
    assert_string_equal(lw_light_class_reached(&sum, false)->name, "P5");
}

static void wide_lane_by_the_standards_reach(void **state)
{
    (void)state;
    const lw_field_sum sum = light(HEAD(1500, 2,
                                        "\"field\":{\"length_m\":36,\"width_m\":4},\"maintenance\":0.75,"
                                        "\"row\":{\"spacing_m\":36,\"height_m\":5},\"reach_heights\":5"));
    assert_int_equal(count, 36);
    near(sum.average_lx, 2.896620989, 1e-8);
    near(sum.minimum_lx, 0.05919334232, 1e-10);
    near(sum.maximum_lx, 16.6349798, 1e-7);
}

static void endless_row_without_reach(void **state)
{
    (void)state;
    lw_field_sum sum = light(HEAD(800, 1,
                                  "\"field\":{\"length_m\":16,\"width_m\":3},\"maintenance\":0.8,"
                                  "\"row\":{\"spacing_m\":16,\"height_m\":4}"));
    near(sum.average_lx, 4.01282303, 1e-7);
    near(sum.minimum_lx, 0.9438097654, 1e-8);
    sum = light(HEAD(1500, 2,
                     "\"field\":{\"length_m\":36,\"width_m\":4},\"maintenance\":0.75,"
                     "\"row\":{\"spacing_m\":36,\"height_m\":5}"));
    near(sum.average_lx, 2.899172339, 1e-8);
}

/* Four lamps of 250 cd over the corners of a 4 m lawn, its middle: textbook exercise, 20.5575916758 lx. */
static void four_lamps_over_a_lawn(void **state)
{
    (void)state;
    lw_lux sum = {0};
    for (int i = 0; i < 4; i++) {
        const lw_lamp lamp = {.x_m = i % 2 ? 4.0 : 0.0,
                              .y_m = i / 2 ? 4.0 : 0.0,
                              .height_m = 6.0,
                              .maintenance = 1.0,
                              .beam = {.peak_cd = 250.0, .round = true}};
        lw_lux_add(&lamp, 2.0, 2.0, 0.0, &sum);
    }
    near(sum.horizontal_lx, 20.5575916758, 1e-9);
}

/* A table turned and tilted with the whole scene gives the same light: rotation by any angle changes nothing. */
static void turning_the_scene_changes_nothing(void **state)
{
    (void)state;
    static char bytes[1 << 16];
    static lw_lm63 file;
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    FILE *f = fopen(LW_SOURCE_DIR "/tests/data/photometry/lane-a.ies", "rb");
    assert_non_null(f);
    const size_t length = fread(bytes, 1, sizeof bytes, f);
    (void)fclose(f);
    assert_true(lw_lm63_read(bytes, length, false, &arena, &file, &err));
    lw_lamp lamp = {.height_m = 4.35,
                    .turn_deg = 90.0,
                    .tilt_deg = 12.0,
                    .maintenance = 0.83,
                    .beam = {.table = &file.table, .street_plane_deg = 90.0}};
    lw_lux before = {0}, after = {0};
    lw_lux_add(&lamp, 3.7, 2.3, 31.0, &before);
    const double turn = 47.3, c = cos(turn * 3.14159265358979 / 180.0), s = sin(turn * 3.14159265358979 / 180.0);
    lamp.turn_deg += turn;
    lw_lux_add(&lamp, 3.7 * c - 2.3 * s, 3.7 * s + 2.3 * c, 31.0 + turn, &after);
    near(after.horizontal_lx, before.horizontal_lx, 1e-9);
    near(after.vertical_lx, before.vertical_lx, 1e-9);
    near(after.semicylindrical_lx, before.semicylindrical_lx, 1e-9);
    assert_true(before.horizontal_lx > 1.0);
    /* mirrored in the plane 90-270: both sides along the lane get the same */
    lw_lux left = {0}, right = {0};
    lamp.turn_deg = 90.0;
    lw_lux_add(&lamp, 5.1, 1.9, 90.0, &left);
    lw_lux_add(&lamp, -5.1, 1.9, 90.0, &right);
    near(left.horizontal_lx, right.horizontal_lx, 1e-9);
    /* the street side gets more than the house side behind the mast */
    lw_lux street = {0}, house = {0};
    lw_lux_add(&lamp, 0.0, 4.0, 0.0, &street);
    lw_lux_add(&lamp, 0.0, -4.0, 0.0, &house);
    assert_true(street.horizontal_lx > 1.5 * house.horizontal_lx);
}

/* A Lambertian head tilted by t sends (1 - cos t)/2 of its light above the horizontal (closed form). */
static void tilted_board_loses_light_upward(void **state)
{
    (void)state;
    lw_lamp lamp = {.height_m = 4.0, .maintenance = 1.0, .beam = {.peak_cd = 100.0, .cos_power = 1.0}};
    static const double closed[][2] = {{10.0, 0.0075961234939},  {20.0, 0.030153689607},
                                       {30.0, 0.0669872981078},  {90.0, 0.5},
                                       {-30.0, 0.0669872981078}, {-90.0, 0.5}};
    for (size_t i = 0; i < sizeof closed / sizeof closed[0]; i++) {
        lamp.tilt_deg = closed[i][0];
        near(lw_upward_share(&lamp, 1), closed[i][1], 1e-5 * closed[i][1]);
    }
    lamp.tilt_deg = 37.0;
    lamp.beam.round = true; /* half of a globe's light, however it hangs */
    near(lw_upward_share(&lamp, 1), 0.5, 1e-5);
    lamp.beam.round = false;
    lamp.tilt_deg = 0.0;
    near(lw_upward_share(&lamp, 1), 0.0, 1e-12);
}

/* One lamp of 500 cd all round, 3.5 m high, 10 m ahead of the eye: theta = atan(2/10) + 1 degree, closed form. */
static void glare_and_windows_by_hand(void **state)
{
    (void)state;
    const lw_lamp lamp = {.x_m = 10.0, .height_m = 3.5, .maintenance = 0.9, .beam = {.peak_cd = 500.0, .round = true}};
    const lw_field_point eye = {.x_m = 0.0, .y_m = 0.0, .along_deg = 0.0};
    const double theta = atan2(2.0, 10.0) * 180.0 / 3.14159265358979 + 1.0;
    const double veil = 10.0 * 450.0 / 104.0 * cos(theta * 3.14159265358979 / 180.0) / (theta * theta);
    near(lw_threshold_increment_pct(&lamp, 1, &eye, 1, 3.0, 1.0, 0.2), 65.0 * veil / pow(0.6 / 3.14159265358979, 0.8),
         1e-6);
    /* the same lamp when it was new: 500 cd on a lane of 3.0/0.9 lx */
    near(lw_threshold_increment_pct(&lamp, 1, &eye, 1, 3.0, 0.9, 0.2),
         65.0 * veil / 0.9 / pow(0.6 / 0.9 / 3.14159265358979, 0.8), 1e-6);
    near(lw_window_lx(&lamp, 1, 10.0, 4.0, 1.5, -90.0), 450.0 * 4.0 / pow(20.0, 1.5), 1e-9);
    near(lw_window_lx(&lamp, 1, 10.0, 4.0, 1.5, 90.0), 0.0, 1e-12); /* it looks away */
}

static void polygon_grid_covers_its_area(void **state)
{
    (void)state;
    (void)light(HEAD(800, 1,
                     "\"field\":{\"polygon\":[[0,0],[20,0],[20,8],[12,8],[12,14],[0,14]]},"
                     "\"masts\":[{\"x_m\":10,\"y_m\":7,\"height_m\":4}]"));
    assert_int_equal(count, 20 * 8 + 12 * 6); /* cells of one metre */
}

/* By hand: beside a strip, beyond its end, inside; outside a corner and inside a polygon. */
static void distance_from_a_field(void **state)
{
    (void)state;
    const lw_field strip = {LW_FIELD_STRIP, {{0.0, 0.0}, {10.0, 0.0}, {10.0, 10.0}}, 3, 2.0};
    near(lw_field_distance_m(&strip, 5.0, -3.0), 3.0, 1e-12);
    near(lw_field_distance_m(&strip, 5.0, 1.0), 0.0, 1e-12);
    near(lw_field_distance_m(&strip, -3.0, 6.0), 5.0, 1e-12);
    near(lw_field_distance_m(&strip, 14.0, 5.0), 4.0, 1e-12); /* the second piece runs up, its width to the left */
    near(lw_field_distance_m(&strip, 5.0, 5.0), 3.0, 1e-12);
    const lw_field square = {LW_FIELD_POLYGON, {{0.0, 0.0}, {4.0, 0.0}, {4.0, 4.0}, {0.0, 4.0}}, 4, 0.0};
    near(lw_field_distance_m(&square, 7.0, 8.0), 5.0, 1e-12);
    near(lw_field_distance_m(&square, 2.0, 3.0), 0.0, 1e-12);
}

/* A crossing of two lanes as one polygon, judged by C classes: symmetric lamps give a symmetric field, one cell a
 * metre. */
static void crossing_is_symmetric(void **state)
{
    (void)state;
    const lw_field_sum sum = light(
        HEAD(3000, 1,
             "\"class\":\"C5\",\"field\":{\"polygon\":[[8,0],[12,0],[12,8],[20,8],[20,12],[12,12],[12,20],[8,20],[8,"
             "12],[0,12],[0,8],[8,8]]},\"masts\":[{\"x_m\":7,\"y_m\":7,\"height_m\":5},{\"x_m\":13,\"y_m\":13,"
             "\"height_m\":5},{\"x_m\":13,\"y_m\":7,\"height_m\":5},{\"x_m\":7,\"y_m\":13,\"height_m\":5}]"));
    assert_int_equal(count, 4 * 20 + 2 * 8 * 4);
    assert_true(lane.crossing);
    for (size_t i = 0; i < count; i++) { /* the point mirrored in the diagonal has the same light */
        size_t k = 0;
        while (k < count && (fabs(points[k].x_m - points[i].y_m) > 1e-9 || fabs(points[k].y_m - points[i].x_m) > 1e-9))
            k++;
        assert_true(k < count);
        near(points[k].ahead.horizontal_lx, points[i].ahead.horizontal_lx, 1e-9);
    }
    assert_true(sum.average_lx > 7.5);
}

/* A lane that turns by 90 degree: the second piece is the first one turned, so its light is that of the straight lane.
 */
static void bent_lane_is_two_straight_ones(void **state)
{
    (void)state;
    (void)light(HEAD(800, 1,
                     "\"field\":{\"line\":[[0,0],[20,0],[20,20]],\"width_m\":3},\"masts\":[{\"x_m\":10,\"y_m\":-0.5,"
                     "\"height_m\":4},{\"x_m\":20.5,\"y_m\":10,\"height_m\":4,\"turn_deg\":180}]"));
    assert_int_equal(count, 60);
    /* mirrored in the diagonal through the corner: point k of the first piece from its far end */
    for (size_t a = 0; a < 10; a++)
        for (size_t c = 0; c < 3; c++) {
            const lw_field_point *first = &points[3 * (9 - a) + c], *second = &points[30 + 3 * a + c];
            near(second->ahead.horizontal_lx, first->ahead.horizontal_lx, 1e-9);
            near(second->ahead.semicylindrical_lx, first->back.semicylindrical_lx, 1e-9);
        }
    near(points[45].along_deg, 90.0, 1e-12);
}

static double area_of(const char *line, double *average_lx)
{
    char document[600];
    (void)snprintf(
        document, sizeof document,
        HEAD(800, 1, "\"field\":{\"line\":%s,\"width_m\":3},\"masts\":[{\"x_m\":10,\"y_m\":2,\"height_m\":4}]"), line);
    *average_lx = light(document).average_lx;
    double sum = 0.0;
    for (size_t i = 0; i < count; i++)
        sum += points[i].area_m2;
    return sum;
}

/* A strip of width w to the left of a line loses w2 tan(t/2) at a turn t to the left and gains it at one to the right
 * (plane geometry); its mean light is that of the same ground as a polygon. */
static void bent_lane_counts_every_place_once(void **state)
{
    (void)state;
    double bent, straight;
    near(area_of("[[0,0],[20,0],[20,15]]", &bent), 3.0 * 35.0 - 9.0, 1e-9);
    near(area_of("[[0,0],[20,0],[20,-15]]", &bent), 3.0 * 35.0 + 9.0, 1e-9);
    near(area_of("[[0,0],[20,0],[30,10]]", &bent), 3.0 * (20.0 + sqrt(200.0)) - 9.0 * (sqrt(2.0) - 1.0), 1e-9);
    near(area_of("[[0,0],[20,0],[20,-15],[60,-15]]", &bent), 3.0 * 75.0, 1e-9);
    const lw_field_sum corner = light(HEAD(800, 1,
                                           "\"field\":{\"polygon\":[[0,0],[20,0],[20,15],[17,15],[17,3],[0,3]]},"
                                           "\"masts\":[{\"x_m\":10,\"y_m\":2,\"height_m\":4}]"));
    (void)area_of("[[0,0],[20,0],[20,15]]", &bent);
    near(bent, corner.average_lx, 0.015 * corner.average_lx);
    (void)area_of("[[0,0],[20,0],[40,0]]", &bent); /* a corner that is none */
    (void)area_of("[[0,0],[40,0]]", &straight);
    near(bent, straight, 0.01 * straight);
}

static void documents_with_faults_name_their_field(void **state)
{
    (void)state;
    static const struct {
        const char *document, *field;
    } faults[] = {
        {HEAD(800, 1, "\"field\":{\"length_m\":16,\"width_m\":0},\"row\":{\"spacing_m\":16,\"height_m\":4}"),
         "field.width_m"},
        {HEAD(800, 1, "\"field\":{\"length_m\":16,\"width_m\":3},\"row\":{\"spacing_m\":16,\"height_m\":0}"),
         "row.height_m"},
        {HEAD(800, 1,
              "\"field\":{\"length_m\":16,\"width_m\":3},\"class\":\"P9\",\"row\":{\"spacing_m\":16,\"height_m\":4}"),
         "class"},
        {HEAD(800, 1, "\"field\":{\"length_m\":16,\"width_m\":3},\"masts\":[]"), "masts"},
        {HEAD(-3, 1, "\"field\":{\"length_m\":16,\"width_m\":3},\"row\":{\"spacing_m\":16,\"height_m\":4}"),
         "head.lumens"},
        {HEAD(800, 1, "\"field\":{\"length_m\":16,\"width_m\":3},\"rowe\":{}"), "masts"},
        {HEAD(800, 1, "\"field\":{\"length_m\":16,\"width_m\":3},\"masts\":[{\"x_m\":90,\"y_m\":0,\"height_m\":4}]"),
         "masts[1].x_m"},
    };
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        lw_error err = {0};
        assert_false(lw_lane_from_json(faults[i].document, strlen(faults[i].document), &lane, &err));
        assert_string_equal(err.field, faults[i].field);
        assert_int_equal(err.family, LW_WRONG_INPUT);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(narrow_lane_by_the_standards_reach),
        cmocka_unit_test(wide_lane_by_the_standards_reach),
        cmocka_unit_test(endless_row_without_reach),
        cmocka_unit_test(four_lamps_over_a_lawn),
        cmocka_unit_test(turning_the_scene_changes_nothing),
        cmocka_unit_test(tilted_board_loses_light_upward),
        cmocka_unit_test(glare_and_windows_by_hand),
        cmocka_unit_test(polygon_grid_covers_its_area),
        cmocka_unit_test(distance_from_a_field),
        cmocka_unit_test(crossing_is_symmetric),
        cmocka_unit_test(bent_lane_is_two_straight_ones),
        cmocka_unit_test(bent_lane_counts_every_place_once),
        cmocka_unit_test(documents_with_faults_name_their_field),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
