/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Search for masts: what it answers must hold when the lane is computed anew, and more masts never need more lumens
 * each for the same wish on the darkest point.
 */
#include "lanewick/layout_json.h"

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
        !lw_layout_search(&request.wish, &arena, layouts, &count, &err))
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
        assert_true(lw_field_grid(&field, &arena, &points, &point_count, &err));
        lw_layout_lamps(&request.wish, &layouts[i], lamps);
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
    const lw_layout_wish wish = {.length_m = 40,
                                 .width_m = 3,
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
    assert_false(lw_layout_search(&wish, &arena, layouts, &count, &err));
    assert_string_equal(err.field, "average_lx");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(answers_hold_when_computed_anew),
        cmocka_unit_test(more_masts_need_fewer_lumens_each),
        cmocka_unit_test(uniformity_rules_out_few_masts),
        cmocka_unit_test(impossible_wishes_are_named),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
