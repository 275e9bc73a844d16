/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The mast of a planned lamp: the smallest pole of the shelf that stands, one shelf for all lamps, refusals that name
 * what would stand.
 */
#include "lanewick/bill.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static lw_plan plan;

/* 50 W panel at 20 degrees, 4 m, 30 m/s in category II: with the box and head that a plan takes, closed form below. */
static void fresh(void)
{
    static const char text[] =
        "{\"format\":\"lanewick.brief/1\",\"place\":{\"lat_deg\":0,\"lon_deg\":0,\"wind\":{\"speed_m_s\":30,"
        "\"speed_is\":\"mean_10min\",\"terrain\":\"II\",\"source\":\"a code\"}},\"want\":{\"head_w\":3},"
        "\"shelf\":{\"panels\":[{\"watts\":50,\"count\":9,\"price\":1}],\"cells\":[{\"class\":\"4v2\","
        "\"capacity_ah\":2,\"count\":99,\"price\":1}],\"chargers\":[{\"kind\":\"direct\",\"series\":3,"
        "\"end_v_per_cell\":4.1,\"most_input_v\":30,\"price\":1}],\"masts\":["
        "{\"name\":\"thick\",\"material\":\"steel\",\"diameter_mm\":88.9,\"wall_mm\":4,\"count\":9,\"price\":40},"
        "{\"name\":\"thin\",\"material\":\"steel\",\"diameter_mm\":60.3,\"wall_mm\":3.2,\"count\":9,\"price\":10},"
        "{\"name\":\"middle\",\"material\":\"steel\",\"diameter_mm\":88.9,\"wall_mm\":3.6,\"count\":2,"
        "\"wall_measured\":true,\"price\":30}],\"cement_price\":7,\"fixings_price\":2},"
        "\"build\":{\"mast\":{\"soil\":\"sand\"}}}";
    lw_error err = {0};
    memset(&plan, 0, sizeof plan);
    if (!lw_brief_from_json(text, sizeof text - 1, &plan.brief, &err))
        fail_msg("%s", err.message);
    plan.tilt_deg = 20.0;
    plan.kind_count = 1;
    plan.kind[0] = (lw_plan_kind){.count = 2, .design = {.panels = 1, .series = 3, .parallel = 2, .board = -1}};
}

static void near(double is, double should, double part)
{
    if (!(fabs(is - should) <= part * fabs(should)))
        fail_msg("%.10g should be %.10g", is, should);
}

/* EN 1991-1-4 by hand: qp = (1 + 7/ln(z/0.05)) 0.625 (0.19 ln(z/0.05) 30)^2 at 4.2, 2.6, 3.65 and 4 m; forces 1.8 A
 * sin 20, 1.4 x 0.105, 0.8 x 0.04, 1.2 D h; panel 50/170 m2. */
static double qp(double z)
{
    const double l = log(z / 0.05), vm = 0.19 * l * 30.0;
    return (1.0 + 7.0 / l) * 0.625 * vm * vm;
}

static void smallest_that_stands(void **state)
{
    (void)state;
    fresh();
    lw_plan_masts(&plan);
    const lw_plan_mast *mast = &plan.kind[0].mast;
    assert_int_equal(plan.refused.count, 0);
    assert_true(mast->checked && mast->missing == 0);
    assert_string_equal(mast->pole_name, "middle");
    const lw_mast_result *r = &mast->result;
    near(r->panel_n, 1.8 * 50.0 / 170.0 * qp(4.2) * sin(20.0 * 0.017453292519943), 1e-9);
    near(r->box_n, 1.4 * 0.105 * qp(2.6), 1e-9);
    near(r->head_n, 0.8 * 0.04 * qp(3.65), 1e-9);
    near(r->pipe_n, 1.2 * 0.0889 * 4.0 * qp(4.0), 1e-9);
    const double wind_nm = r->panel_n * 4.2 + r->box_n * 2.6 + r->head_n * 3.65 + r->pipe_n * 2.0;
    const double moment = wind_nm + 0.8 * 9.81 * 0.5 + 12.0 * 50.0 / 170.0 * 9.81 * 0.05;
    assert_true(r->bending.moment_nm > moment && r->bending.moment_nm < 1.015 * moment); /* what its weights add */
    assert_true(r->bending.reserve >= 1.0);
    near(mast->wish.collar_m, 0.3, 1e-12);
    near(mast->concrete_m3, 0.785398163 * (0.09 - 0.0889 * 0.0889) * mast->depth_m, 1e-6);
    /* the thin one falls in the same wind */
    lw_mast_wish thin = mast->wish;
    lw_mast_result fallen;
    thin.pipe = (lw_tube){60.3, 3.2};
    assert_true(lw_mast_check(&thin, &fallen, NULL) && fallen.verdict == LW_MAST_FALLS);
}

static void one_shelf_for_all(void **state)
{
    (void)state;
    fresh();
    plan.kind[1] = plan.kind[0];
    plan.kind[1].count = 1;
    plan.kind_count = 2;
    lw_plan_masts(&plan);
    assert_string_equal(plan.kind[0].mast.pole_name, "middle");
    assert_string_equal(plan.kind[1].mast.pole_name, "thick"); /* both middle ones are taken */
    lw_plan_parts(&plan);
    int64_t by_hand = 0;
    for (size_t i = 0; i < plan.part_count; i++)
        by_hand += plan.part[i].cost_minor;
    assert_int_equal(plan.cost_minor, by_hand);
    const double m3 = 2.0 * plan.kind[0].mast.concrete_m3 + plan.kind[1].mast.concrete_m3;
    assert_int_equal(lw_plan_mast_goods(&plan).cement_bags, (int)ceil(6.4 * m3));
    /* poles, fixings of three masts, cement, and three times panel, six cells, charger: prices 1; currency of 2
     * decimals */
    assert_int_equal(plan.cost_minor, 100 * (2 * 30 + 40 + 3 * 2 + 7 * (int)ceil(6.4 * m3) + 3 * (1 + 6 + 1)));
}

static void a_short_shelf_says_how_many(void **state)
{
    (void)state;
    fresh();
    plan.brief.shelf.mast_count = 3;
    plan.kind[0].count = 20;
    lw_plan_masts(&plan);
    assert_true(plan.kind[0].mast.checked);
    assert_string_equal(plan.kind[0].mast.pole_name, "middle");
    assert_int_equal(plan.kind[0].mast.missing, 18);
    lw_plan_cautions(&plan);
    bool told = false;
    for (size_t i = 0; i < plan.caution_count; i++)
        told = told || strstr(plan.caution[i].text, "lacks 18 of the pole");
    assert_true(told);
}

/* Nothing stands: refused, and what is named does stand. */
static void falls_is_refused(void **state)
{
    (void)state;
    fresh();
    plan.brief.shelf.mast_count = 2;
    plan.brief.shelf.mast[0] = plan.brief.shelf.mast[1];
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 1);
    assert_string_equal(plan.refused.item[0].id, "mast_falls");
    assert_non_null(strstr(plan.refused.item[0].reason, "thin"));
    assert_non_null(strstr(plan.refused.item[0].remedy, "A licensed engineer decides"));
    double diameter, wall, height;
    const char *tube = strstr(plan.refused.item[0].remedy, "steel tube");
    assert_int_equal(sscanf(tube, "steel tube %lf x %lf mm", &diameter, &wall), 2);
    const char *lower = strstr(plan.refused.item[0].remedy, "thin at ");
    assert_int_equal(sscanf(lower, "thin at %lf m", &height), 1);
    fresh();
    plan.brief.shelf.mast[1].pipe = (lw_tube){diameter, wall};
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 0);
    fresh();
    plan.brief.shelf.mast_count = 2;
    plan.brief.shelf.mast[0] = plan.brief.shelf.mast[1];
    plan.brief.build.mast.height_m = height - 0.05;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 0);
    fresh();
    plan.brief.build.mast.soil = LW_SOIL_SOFT;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 1);
    assert_non_null(strstr(plan.refused.item[0].reason, "peat"));
}

static void too_short_a_pole(void **state)
{
    (void)state;
    fresh();
    for (size_t i = 0; i < 3; i++)
        plan.brief.shelf.mast[i].length_m = 4.5;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 1);
    assert_non_null(strstr(plan.refused.item[0].reason, "4.5 m long"));
}

static void too_shallow_a_hole(void **state)
{
    (void)state;
    fresh();
    plan.brief.build.mast.depth_m = 0.4;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 1);
    assert_non_null(strstr(plan.refused.item[0].reason, "0.40 m deep and must be"));
    assert_non_null(strstr(plan.refused.item[0].remedy, "Dig as deep"));
}

static void no_wind_no_mast(void **state)
{
    (void)state;
    fresh();
    plan.brief.place.wind_given = false;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 0);
    assert_false(plan.kind[0].mast.checked);
    assert_int_equal(plan.kind[0].mast.result.verdict, LW_MAST_NOT_CHECKED);
    assert_int_equal(lw_plan_mast_goods(&plan).fixings, 0);
}

/* No poles listed: common tubes are bought; more wind, no thinner tube; and in the end none stands. */
static void more_wind_more_steel(void **state)
{
    (void)state;
    double last = 0.0;
    for (double wind = 15.0; wind < 45.0; wind += 5.0) {
        fresh();
        plan.brief.shelf.mast_count = 0;
        plan.brief.place.wind.speed_m_s = wind;
        lw_plan_masts(&plan);
        assert_int_equal(plan.refused.count, 0);
        assert_true(plan.kind[0].mast.wish.pipe.diameter_mm >= last);
        assert_true(plan.kind[0].mast.pole == -1 && plan.kind[0].mast.cost_minor == 0);
        last = plan.kind[0].mast.wish.pipe.diameter_mm;
    }
    fresh();
    plan.brief.shelf.mast_count = 0;
    plan.brief.place.wind.speed_m_s = 90.0;
    plan.brief.build.mast.height_m = 12.0;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 1);
}

/* Every part that no list of the shelf names is the plan's own; a name of the brief never is ("meter", "thick"). */
static void own_names(void **state)
{
    (void)state;
    fresh();
    plan.brief.build.mast.base = LW_BASE_PLATE;
    lw_plan_masts(&plan);
    lw_plan_parts(&plan);
    int own = 0;
    for (size_t i = 0; i < plan.part_count; i++)
        own += lw_part_is_own(plan.part[i].name);
    assert_int_equal(own, 6); /* cement, sand, stones, plates, anchors, fixings */
    assert_false(lw_part_is_own("thick"));
    assert_false(lw_part_is_own("meter"));
    assert_true(lw_part_is_own("dusk switch made by hand, its parts"));
}

static bool has_part(const char *name, int count)
{
    for (size_t i = 0; i < plan.part_count; i++)
        if (strcmp(plan.part[i].name, name) == 0)
            return plan.part[i].count == count;
    return count == 0;
}

/* The three bases: what is dug, how long the pole is, what is bought. */
static void a_base_of_each_kind(void **state)
{
    (void)state;
    fresh();
    plan.brief.build.mast.base = LW_BASE_PLATE;
    plan.brief.shelf.plate_minor = 500;
    lw_plan_masts(&plan);
    const lw_plan_mast *mast = &plan.kind[0].mast;
    assert_int_equal(plan.refused.count, 0);
    near(mast->length_m, 4.0, 1e-12);
    near(mast->depth_m, 0.5, 1e-12);
    near(mast->concrete_m3, 0.5 * mast->result.foot.block_m * mast->result.foot.block_m, 1e-12);
    assert_int_equal(mast->result.verdict, LW_MAST_ENGINEER);
    lw_plan_parts(&plan);
    assert_true(has_part("base plate of steel, welded to the mast", 2));
    assert_true(has_part("anchor bolts with nuts and washers, set of four", 2));
    assert_true(has_part("cement, bag of 50 kg", (int)ceil(6.4 * 2.0 * mast->concrete_m3)));
    assert_int_equal(plan.kind[0].cost_minor, 3000 + 200 + 500);
    fresh();
    plan.brief.build.mast.base = LW_BASE_BURIED; /* deeper, as no collar widens it */
    plan.brief.shelf.mast[2].length_m = 8.0;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 0);
    near(mast->wish.collar_m, 0.0889, 1e-12);
    near(mast->concrete_m3, 0.0, 1e-12);
    lw_plan_parts(&plan);
    assert_true(has_part("cement, bag of 50 kg", 0));
    assert_true(has_part("base plate of steel, welded to the mast", 0));
    fresh();
    plan.brief.build.mast.base = LW_BASE_PLATE;
    plan.brief.build.mast.plate.block_m = 0.5; /* tips */
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 1);
    assert_non_null(strstr(plan.refused.item[0].reason, "overturning, 1.5 is wanted"));
    fresh();
    plan.brief.build.mast.base = LW_BASE_PLATE;
    for (size_t i = 0; i < 3; i++)
        plan.brief.shelf.mast[i].material = 4;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 1);
    assert_non_null(strstr(plan.refused.item[0].reason, "welded to its mast"));
}

/* A pole of two pieces: reaches with both, its joint is checked, a joint that fails takes it out. */
static void a_pole_of_two_pieces(void **state)
{
    (void)state;
    fresh();
    lw_shelf_mast *pole = &plan.brief.shelf.mast[0]; /* 88.9 x 4 */
    plan.brief.shelf.mast_count = 1;
    pole->length_m = 4.0;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 1); /* alone too short */
    fresh();
    plan.brief.shelf.mast_count = 1;
    pole->length_m = 4.0;
    pole->upper = (lw_mast_upper){{76.1, 3.2}, 4.0, 0.5};
    pole->upper_length_m = 3.0;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 0);
    const lw_plan_mast *mast = &plan.kind[0].mast;
    near(mast->result.joint.mouth_m, 4.0 - mast->depth_m, 1e-9);
    assert_int_equal(mast->result.verdict, LW_MAST_ENGINEER);
    assert_true(mast->result.joint.upper_length_m <= 3.0);
    fresh();
    plan.brief.shelf.mast_count = 1;
    pole->length_m = 4.0;
    pole->upper = (lw_mast_upper){{76.1, 3.2}, 4.0, 0.1};
    pole->upper_length_m = 3.0;
    lw_plan_masts(&plan);
    assert_int_equal(plan.refused.count, 1);
    assert_non_null(strstr(plan.refused.item[0].reason, "one and a half diameters"));
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(smallest_that_stands),
        cmocka_unit_test(one_shelf_for_all),
        cmocka_unit_test(a_short_shelf_says_how_many),
        cmocka_unit_test(falls_is_refused),
        cmocka_unit_test(too_short_a_pole),
        cmocka_unit_test(too_shallow_a_hole),
        cmocka_unit_test(no_wind_no_mast),
        cmocka_unit_test(more_wind_more_steel),
        cmocka_unit_test(a_base_of_each_kind),
        cmocka_unit_test(own_names),
        cmocka_unit_test(a_pole_of_two_pieces),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
