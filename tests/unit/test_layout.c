/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Search for masts: what it answers must hold when the lane is computed anew, and more masts never need more lumens
 * each for the same wish on the darkest point.
 */
#include "lanewick/layout_json.h"

#include "core/light/quick.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

static unsigned char memory[8 << 20];
static lw_layout_request request;
static lw_layout layouts[LW_LAYOUT_MAX_MASTS];

static size_t search(const char *document)
{
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    size_t count = 0;
    if (!lw_layout_request_from_json(document, strlen(document), &request, &err) ||
        !lw_layout_search(&request.wish, NULL, &arena, layouts, &count, &err))
        fail_msg("%s", err.message);
    return count;
}

static void answers_hold_when_computed_anew(void **state)
{
    (void)state;
    const size_t count = search("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":87,\"width_m\":2.7,\"class\":\"P5\","
                                "\"maintenance\":0.63,\"head\":{\"cos_power\":1.3},\"most_masts\":14}");
    assert_true(count > 3);
    for (size_t i = 0; i < count; i++) {
        lw_error err = {0};
        lw_arena arena = lw_arena_over(memory, sizeof memory);
        lw_lamp lamps[LW_LAYOUT_MAX_MASTS];
        lw_field_point *points = NULL;
        size_t point_count = 0;
        const lw_field field = {LW_FIELD_STRIP, {{0, 0}, {87, 0}}, 2, 2.7};
        lw_layout_lamps(&request.wish, &layouts[i], lamps);
        const double bay_m = lw_field_bay_m(&field, lamps, layouts[i].masts);
        assert_true(lw_field_grid(&field, bay_m, &arena, &points, &point_count, &err));
        lw_field_light(lamps, layouts[i].masts, 0.0, points, point_count);
        const lw_field_sum sum = lw_field_summary(points, point_count);
        assert_true(sum.average_lx >= 3.0 * (1 - 1e-9) && sum.minimum_lx >= 0.6 * (1 - 1e-9));
        /* and not more than needed: one of the two is met exactly */
        assert_true(fabs(sum.average_lx - 3.0) < 1e-6 || fabs(sum.minimum_lx - 0.6) < 1e-6);
        assert_true(i == 0 || layouts[i].masts > layouts[i - 1].masts);
    }
}

static void more_masts_need_fewer_lumens_each(void **state)
{
    (void)state;
    const size_t count = search("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":60,\"width_m\":2.5,\"average_lx\":2,"
                                "\"sides\":[\"one\"],\"heights_m\":[4],\"tilts_deg\":[0],\"most_masts\":12}");
    for (size_t i = 1; i < count; i++)
        assert_true(layouts[i].lumens_each < layouts[i - 1].lumens_each);
}

/* Uniformity does not depend on lumens: P-class crossings with few masts cannot reach 0.4. */
static void uniformity_rules_out_few_masts(void **state)
{
    (void)state;
    const size_t count = search("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":40,\"width_m\":6,\"class\":\"C5\","
                                "\"most_masts\":12}");
    assert_true(count > 0 && layouts[0].masts > 2);
    for (size_t i = 0; i < count; i++)
        assert_true(layouts[i].light.uniformity >= 0.4);
}

static void impossible_wishes_are_named(void **state)
{
    (void)state;
    lw_error err = {0};
    const char *document = "{\"format\":\"lanewick.lane-wish/1\",\"length_m\":40,\"width_m\":3,\"class\":\"M3\"}";
    assert_false(lw_layout_request_from_json(document, strlen(document), &request, &err));
    assert_string_equal(err.field, "class");
    const lw_layout_wish wish = {.field = {LW_FIELD_STRIP, {{0, 0}, {40, 0}}, 2, 3},
                                 .head_count = 1,
                                 .turn_count = 1,
                                 .maintenance = 0.8,
                                 .height_count = 1,
                                 .heights_m = {4},
                                 .tilt_count = 1,
                                 .sides = {true},
                                 .fewest_masts = 1,
                                 .most_masts = 3};
    size_t count = 0;
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    err = (lw_error){0};
    assert_false(lw_layout_search(&wish, NULL, &arena, layouts, &count, &err));
    assert_string_equal(err.field, "average_lx");
}

static void refused(const char *document, const char *field)
{
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    size_t count = 0;
    if (lw_layout_request_from_json(document, strlen(document), &request, &err))
        assert_false(lw_layout_search(&request.wish, NULL, &arena, layouts, &count, &err));
    if (strncmp(err.field, field, strlen(field)) != 0)
        fail_msg("%s: the error is at %s: %s", document, err.field, err.message);
    assert_int_equal(err.family, LW_WRONG_INPUT);
}

#define WISH(rest) "{\"format\":\"lanewick.lane-wish/1\",\"length_m\":40,\"width_m\":3," rest "}"
static void bad_wishes_name_their_key(void **state)
{
    (void)state;
    refused("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":40,\"width_m\":0,\"class\":\"P6\"}", "width_m");
    refused("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":1e9,\"width_m\":3,\"class\":\"P6\"}", "length_m");
    refused(WISH("\"class\":\"P9\""), "class");
    refused(WISH("\"class\":\"P6\",\"heights_m\":[0]"), "heights_m");
    refused(WISH("\"class\":\"P6\",\"heights_m\":[4, null]"), "heights_m");
    refused(WISH("\"class\":\"P6\",\"heights_m\":[1e400]"), "");
    refused(WISH("\"class\":\"P6\",\"heights_m\":[NaN]"), "");
    refused(WISH("\"class\":\"P6\",\"tilts_deg\":[80]"), "tilts_deg");
    refused(WISH("\"class\":\"P6\",\"turns_deg\":[200]"), "turns_deg");
    refused(WISH("\"class\":\"P6\",\"offset_m\":-1"), "offset_m");
    refused(WISH("\"class\":\"P6\",\"masts\":3,\"most_masts\":4"), "masts");
    refused(WISH("\"class\":\"P6\",\"masts\":0"), "masts");
    refused(WISH("\"class\":\"P6\",\"mast_places\":[[10,0],[20,90]]"), "mast_places");
    refused(WISH("\"class\":\"P6\",\"mast_places\":[[10,0]]"), "mast_places");
    refused(WISH("\"class\":\"P6\",\"aim\":\"cost\""), "aim");
    refused(WISH("\"class\":\"P6\",\"late\":{\"from\":\"22:30\"}"), "late.level");
    refused(WISH("\"class\":\"P6\",\"late\":{\"from\":\"22:30\",\"class\":\"P4\"}"), "late.average_lx");
    refused(WISH("\"class\":\"P6\",\"late\":{\"from\":\"half past ten\",\"level\":0.4}"), "late.from");
    refused(
        "{\"format\":\"lanewick.lane-wish/1\",\"polygon\":[[0,0],[9,0],[9,9]],\"class\":\"P6\",\"sides\":[\"middle\"]}",
        "sides");
    refused("{\"format\":\"lanewick.lane-wish/1\",\"line\":[[0,0],[0,0]],\"width_m\":3,\"class\":\"P6\"}", "length_m");
    refused("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":2000,\"width_m\":50,\"class\":\"P6\",\"most_masts\":120,"
            "\"heights_m\":[1,2,3,4,5,6,7,8,9,10],\"tilts_deg\":[1,2,3,4,5,6,7,8,9,10]}",
            "heights_m");
}

/* The light that the search looks at is that of the lane (lw_lux_add), for every closed form, tilted and turned. */
static void quick_light_is_the_light(void **state)
{
    (void)state;
    const double powers[] = {0.0, 1.0, 2.7};
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    const lw_field field = {LW_FIELD_STRIP, {{0, 0}, {12, 1}, {20, 9}}, 3, 2.2};
    lw_field_point *points = NULL;
    size_t count = 0;
    assert_true(lw_field_grid(&field, INFINITY, &arena, &points, &count, &err));
    for (int i = 0; i < 4; i++) {
        const lw_lamp lamp = {.x_m = 7.1,
                              .y_m = -0.4,
                              .height_m = 3.2,
                              .turn_deg = 63.0,
                              .tilt_deg = 17.0,
                              .maintenance = 0.7,
                              .beam = {.peak_cd = 140.0, .cos_power = powers[i % 3], .round = i == 3}};
        double ground[200] = {0}, ahead[200] = {0}, back[200] = {0};
        assert_true(count <= 200);
        lw_quick_light(&lamp, points, count, ground, ahead, back);
        lw_field_light(&lamp, 1, 0.0, points, count);
        double x[200], y[200], bare[200] = {0};
        for (size_t p = 0; p < count; p++) {
            x[p] = points[p].x_m;
            y[p] = points[p].y_m;
        }
        if (lw_quick_is_board(&lamp.beam))
            lw_quick_board(&lamp, x, y, count, bare);
        for (size_t p = 0; p < count; p++) {
            assert_true(i != 1 || fabs(bare[p] - ground[p]) < 1e-12 * 140.0);
            assert_true(fabs(ground[p] - points[p].ahead.horizontal_lx) < 1e-12 * 140.0);
            assert_true(fabs(ahead[p] - points[p].ahead.semicylindrical_lx) < 1e-12 * 140.0);
            assert_true(fabs(back[p] - points[p].back.semicylindrical_lx) < 1e-12 * 140.0);
        }
    }
}

/* Brute force: every layout of a small grid, its light summed plainly at 100 lm, its lumens found by halving. */
static double lumens_by_halving(lw_layout one, lw_field_point *points, size_t count)
{
    double low = 0.0, high = 1e6;
    lw_field_sum sum;
    one.lumens_each = 100.0;
    lw_layout_light(&request.wish, &one, true, 1.0, points, count, &sum);
    for (int i = 0; i < 60; i++) {
        const double lumens = 0.5 * (low + high);
        const bool met = sum.average_lx * lumens / 100.0 >= request.wish.light.average_lx &&
                         sum.minimum_lx * lumens / 100.0 >= request.wish.light.minimum_lx;
        *(met ? &high : &low) = lumens;
    }
    return high;
}

static void the_best_beats_every_layout_of_a_grid(void **state)
{
    (void)state;
    const size_t count = search("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":55,\"width_m\":3.1,\"class\":\"P6\","
                                "\"head\":{\"cos_power\":0.7},\"heights_m\":[3,4.5,6],\"tilts_deg\":[0,12,25],"
                                "\"turns_deg\":[0,40],\"sides\":[\"one\",\"staggered\",\"middle\"],\"most_masts\":6}");
    lw_error err = {0};
    static unsigned char grid_memory[1 << 20];
    lw_field_point *points = NULL;
    size_t point_count = 0;
    assert_true(count >= 4);
    for (size_t i = 0; i < count; i++) {
        double least = INFINITY;
        for (size_t n = 0; n < 3 * 3 * 3 * 2 * lw_layout_ends(&request.wish, layouts[i].masts); n++) {
            lw_layout one = {.masts = layouts[i].masts};
            lw_layout_space(&request.wish, n / 54, &one);
            lw_arena arena = lw_arena_over(grid_memory, sizeof grid_memory);
            assert_true(lw_layout_grid(&request.wish, &one, &arena, &points, &point_count, &err));
            one.side = (lw_side)(n % 3);
            one.height_m = request.wish.heights_m[n / 3 % 3];
            one.tilt_deg = one.side == LW_SIDE_MIDDLE ? 0.0 : request.wish.tilts_deg[n / 9 % 3];
            one.turn_deg = request.wish.turns_deg[n / 27 % 2];
            least = fmin(least, lumens_by_halving(one, points, point_count));
        }
        assert_true(fabs(layouts[i].lumens_each / least - 1.0) < 1e-9);
    }
}

/* One Lambert head over the middle of a small square: E = I0 / h2 below it is a closed form, and so is what a lamp that
 * stands there anyway leaves to be added. */
static void lamps_that_stand_there_count(void **state)
{
    (void)state;
    size_t count = search("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":2,\"width_m\":2,\"average_lx\":3,"
                          "\"maintenance\":1,\"masts\":1,\"sides\":[\"middle\"],\"heights_m\":[4],\"tilts_deg\":[0]}");
    assert_int_equal(count, 1);
    const double alone = layouts[0].lumens_each;
    lw_layout_wish wish = request.wish;
    /* the same head at the same place with a third of the light leaves two thirds to be added */
    wish.fixed_count = 1;
    wish.fixed[0] =
        (lw_lamp){.x_m = 1, .y_m = 1, .height_m = 4, .turn_deg = 90, .maintenance = 1, .beam = wish.head[0].beam};
    wish.fixed[0].beam.peak_cd *= alone / 3.0;
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    assert_true(lw_layout_search(&wish, NULL, &arena, layouts, &count, &err));
    assert_true(fabs(layouts[0].lumens_each - alone * 2.0 / 3.0) < 1e-9 * alone);
    assert_true(fabs(layouts[0].light.average_lx - 3.0) < 1e-9);
    /* half the light late is the level of one half */
    wish.late.average_lx = 1.5;
    arena = lw_arena_over(memory, sizeof memory);
    assert_true(lw_layout_search(&wish, NULL, &arena, layouts, &count, &err));
    assert_true(fabs(layouts[0].late_level - 0.5) < 1e-12);
}

/* A row of masts every 16 m with 800 lm on a long lane gets near what an endless row gives (reference case O/P: 4.01 lx
 * average between masts at 0.8), so the wish for that average needs about 800 lm. */
static void a_long_lane_is_like_an_endless_row(void **state)
{
    (void)state;
    const size_t count = search("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":1600,\"width_m\":3,\"offset_m\":0,"
                                "\"average_lx\":4.01282303,\"masts\":100,\"sides\":[\"one\"],\"heights_m\":[4],"
                                "\"tilts_deg\":[0]}");
    assert_int_equal(count, 1);
    assert_true(fabs(layouts[0].lumens_each / 800.0 - 1.0) < 0.01);
}

/* The outermost masts may stand nearer to the ends, where one lamp alone gives the light: by hand for 3 masts on 58 m,
 * 0.45 of a spacing at each end of two whole ones is 20 m. No worse than half a spacing, which is among the choices. */
static void ends_are_lit_by_nearer_masts(void **state)
{
    (void)state;
    lw_lamp lamps[LW_LAYOUT_MAX_MASTS];
    assert_int_equal(search("{\"format\":\"lanewick.lane-wish/1\",\"length_m\":58,\"width_m\":2.5,\"minimum_lx\":0.4,"
                            "\"masts\":3,\"sides\":[\"one\"],\"heights_m\":[3.5],\"tilts_deg\":[20]}"),
                     1);
    assert_true(fabs(layouts[0].spacing_m - 20.0) < 1e-9 && fabs(layouts[0].end_m - 9.0) < 1e-9);
    lw_layout_lamps(&request.wish, &layouts[0], lamps);
    assert_true(fabs(lamps[0].x_m - 9.0) < 1e-9 && fabs(lamps[2].x_m - 49.0) < 1e-9);
    lw_layout half = layouts[0];
    lw_layout_space(&request.wish, 0, &half);
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_field_point *points = NULL;
    size_t count = 0;
    lw_field_sum sum;
    assert_true(lw_layout_grid(&request.wish, &half, &arena, &points, &count, &err));
    lw_layout_light(&request.wish, &half, true, 1.0, points, count, &sum);
    assert_true(fabs(half.end_m - 58.0 / 6.0) < 1e-9 && sum.minimum_lx < 0.9 * layouts[0].light.minimum_lx);
}

/* A square has masts on its edge that look inward; a bent lane keeps its spacing along its edge. */
static void squares_and_bent_lanes(void **state)
{
    (void)state;
    lw_lamp lamps[LW_LAYOUT_MAX_MASTS];
    size_t count =
        search("{\"format\":\"lanewick.lane-wish/1\",\"polygon\":[[0,0],[0,20],[20,20],[20,0]],\"class\":\"P6\","
               "\"masts\":4,\"offset_m\":1,\"heights_m\":[5]}");
    assert_int_equal(count, 1);
    lw_layout_lamps(&request.wish, &layouts[0], lamps);
    const double places[4][3] = {{-1, 10, 0}, {10, 21, -90}, {21, 10, 180}, {10, -1, 90}};
    for (int i = 0; i < 4; i++) {
        assert_true(fabs(lamps[i].x_m - places[i][0]) < 1e-9 && fabs(lamps[i].y_m - places[i][1]) < 1e-9);
        assert_true(fabs(remainder(lamps[i].turn_deg - places[i][2], 360.0)) < 1e-9);
    }
    count =
        search("{\"format\":\"lanewick.lane-wish/1\",\"line\":[[0,0],[30,0],[30,30]],\"width_m\":2,\"average_lx\":1,"
               "\"masts\":3,\"sides\":[\"one\"],\"heights_m\":[4],\"tilts_deg\":[0],\"offset_m\":0}");
    assert_int_equal(count, 1);
    lw_layout_lamps(&request.wish, &layouts[0], lamps);
    assert_true(fabs(lamps[0].x_m - 10) < 1e-9 && fabs(lamps[1].x_m - 30) < 1e-9 && fabs(lamps[2].y_m - 20) < 1e-9);
    count = search(WISH("\"average_lx\":1,\"mast_places\":[[5,-1],[20,4]],\"heights_m\":[4]"));
    assert_int_equal(count, 1);
    lw_layout_lamps(&request.wish, &layouts[0], lamps);
    assert_true(lamps[0].x_m == 5 && fabs(lamps[0].turn_deg - 90) < 1e-9 && fabs(lamps[1].turn_deg + 90) < 1e-9);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(answers_hold_when_computed_anew),
        cmocka_unit_test(more_masts_need_fewer_lumens_each),
        cmocka_unit_test(uniformity_rules_out_few_masts),
        cmocka_unit_test(impossible_wishes_are_named),
        cmocka_unit_test(bad_wishes_name_their_key),
        cmocka_unit_test(quick_light_is_the_light),
        cmocka_unit_test(the_best_beats_every_layout_of_a_grid),
        cmocka_unit_test(lamps_that_stand_there_count),
        cmocka_unit_test(a_long_lane_is_like_an_endless_row),
        cmocka_unit_test(ends_are_lit_by_nearer_masts),
        cmocka_unit_test(squares_and_bent_lanes),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
