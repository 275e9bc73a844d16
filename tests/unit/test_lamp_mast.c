/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The mast of one lamp as a document: what is written is read back as the same mast, the question takes pole, ground
 * and wind of brief, plan and what is tried instead.
 */
#include "worked_mast.h"

#include <stdlib.h>
#include <string.h>

static void alike(double is, double should)
{
    near(is, should, 1e-9);
}

/* Writes the mast, reads it and judges both. */
static void there_and_back(const lw_mast_wish *wish, int soil)
{
    lw_error err = {0};
    lw_mast_wish read;
    char *text = lw_mast_document(wish, soil);
    assert_non_null(text);
    if (!lw_mast_from_json(text, strlen(text), &read, &err))
        fail_msg("%s: %s", err.message, text);
    const lw_mast_result one = check(wish), two = check(&read);
    alike(two.bending.moment_nm, one.bending.moment_nm);
    alike(two.base_margin, one.base_margin);
    alike(two.depth_m, one.depth_m);
    alike(two.foot.bolt_use, one.foot.bolt_use);
    alike(two.joint.bending.reserve, one.joint.bending.reserve);
    alike(two.total_kg, one.total_kg);
    assert_int_equal(two.note_count, one.note_count);
    assert_int_equal(two.verdict, one.verdict);
    free(text);
}

static void every_mast_is_read_back(void **state)
{
    (void)state;
    lw_mast_wish w = worked();
    assert_true(lw_soil_lateral_pa_per_m(LW_SOIL_SAND, &w.soil_pa_per_m, NULL));
    there_and_back(&w, (int)LW_SOIL_SAND);
    w.soil_pa_per_m = 17000.0;
    w.hole_mm = 12.0;
    w.loose_m = 0.25;
    w.depth_m = 1.9;
    w.age_years = 7.0;
    w.wall_measured = false;
    w.welded = w.paved = w.hill = w.on_building = w.power_line_near = w.guyed = true;
    there_and_back(&w, (int)LW_SOIL_SOFT + 1);
    w = worked();
    assert_true(lw_soil_lateral_pa_per_m(LW_SOIL_GRAVEL, &w.soil_pa_per_m, NULL));
    w.base = LW_BASE_PLATE;
    w.plate = (lw_plate_wish){0.9, 0.6, 20.0, 0.25, LW_BOLT_8_8, false, 90e3};
    w.collar_m = 0.001 * w.pipe.diameter_mm;
    there_and_back(&w, (int)LW_SOIL_GRAVEL);
    w.base = LW_BASE_BURIED;
    w.upper = (lw_mast_upper){{67.0, 3.2}, 4.0, 0.4};
    w.people_below = w.flooded = true;
    there_and_back(&w, (int)LW_SOIL_GRAVEL);
    w.wind.label = LW_WIND_GUST_DESIGN;
    w.wind.terrain = LW_EXPOSURE_C;
    w.wind.topography = 1.2;
    w.wind.directionality = 0.95;
    w.wind.air_kg_m3 = 1.1;
    w.head_arm_m = 0.7;
    there_and_back(&w, (int)LW_SOIL_GRAVEL);
}

#define BRIEF                                                                                                          \
    "{\"format\":\"lanewick.brief/1\",\"place\":{\"lat_deg\":0,\"lon_deg\":0,\"wind\":{\"speed_m_s\":30,"              \
    "\"speed_is\":\"mean_10min\",\"terrain\":\"II\",\"source\":\"a code\",\"return_years\":25}},\"want\":{\"head_w\""  \
    ":3,\"planned_years\":4},\"shelf\":{\"panels\":[{\"watts\":20,\"count\":9,\"price\":1},{\"watts\":50,\"count\":9," \
    "\"price\":1}],\"cells\":[{\"class\":\"4v2\",\"capacity_ah\":2,\"count\":99,\"price\":1}],\"chargers\":["          \
    "{\"kind\":\"direct\",\"series\":3,\"end_v_per_cell\":4.1,\"most_input_v\":30,\"price\":1}],\"masts\":["           \
    "{\"name\":\"old\",\"material\":\"steel\",\"diameter_mm\":60.3,\"wall_mm\":3.2,\"age_years\":6,\"reused\":true,"   \
    "\"price\":1},{\"name\":\"thick\",\"material\":\"steel_unmarked\",\"diameter_mm\":88.9,\"wall_mm\":4,\"price\":4"  \
    "}]},\"build\":{\"mast\":{\"soil\":\"other\",\"soil_pa_per_m\":20000,\"height_m\":5,\"base\":\"buried\","          \
    "\"people_below\":true}}}"

static lw_mast_request request;

static lw_mast_wish asked(const char *text)
{
    lw_error err = {0};
    lw_mast_wish wish;
    if (!lw_mast_request_from_json(text, strlen(text), &request, &err))
        fail_msg("%s", err.message);
    lw_lamp_mast_wish(&request.brief, &request.lamp, &wish);
    return wish;
}

/* EN 1991-1-4 by hand: qp = (1 + 7/ln(z/0.05)) 0.625 (0.19 ln(z/0.05) 30)^2, category II; 1.8 A sin 15 on the panel. */
static void without_a_brief(void **state)
{
    (void)state;
    const lw_mast_wish w = asked("{\"instead\":{\"speed_m_s\":30,\"panel_m2\":0.5,\"height_m\":6,\"soil\":\"sand\"}}");
    const double l = log(6.2 / 0.05), vm = 0.19 * l * 30.0, qp = (1.0 + 7.0 / l) * 0.625 * vm * vm;
    const lw_mast_result r = check(&w);
    alike(r.panel_n, 1.8 * 0.5 * qp * sin(15.0 * 0.017453292519943295));
    alike(w.pipe.diameter_mm, 76.1);
    alike(w.collar_m, 0.3);
    assert_int_equal(request.brief.build.mast.soil, LW_SOIL_SAND);
    const lw_mast_wish calm = asked("{}");
    assert_int_equal(check(&calm).verdict, LW_MAST_NOT_CHECKED);
    alike(calm.height_m, 4.0);
    alike(calm.panel.area_m2, 34.0 / 170.0);
}

static void of_a_brief_and_a_plan(void **state)
{
    (void)state;
    lw_mast_wish w = asked("{\"brief\":" BRIEF "}");
    alike(w.pipe.diameter_mm, 88.9); /* the thickest of the shelf */
    alike(w.panel.area_m2, 50.0 / 170.0);
    alike(w.height_m, 5.0);
    alike(w.soil_pa_per_m, 20000.0);
    alike(w.return_years, 25.0);
    alike(w.age_years, 4.0);
    alike(w.collar_m, 0.0889);
    assert_true(w.people_below && w.wind_given && !w.welded);
    w = asked("{\"brief\":" BRIEF ",\"lamp\":{\"panel_w\":20,\"pack_wh\":60,\"tilt_deg\":25,\"pole\":\"old\"}}");
    alike(w.pipe.diameter_mm, 60.3);
    alike(w.age_years, 10.0);
    alike(w.panel_tilt_deg, 25.0);
    alike(w.panel.kg, 12.0 * 20.0 / 170.0);
    alike(w.box.kg, 2.0 + 60.0 / 150.0);
    assert_true(w.welded);
    /* gone from the shelf: by its measures, from the shelf again or new */
    w = asked("{\"brief\":" BRIEF ",\"lamp\":{\"pole\":\"gone\",\"material\":\"steel\",\"diameter_mm\":60.3,"
              "\"wall_mm\":3.2,\"height_m\":4.35}}");
    alike(w.age_years, 10.0);
    alike(w.height_m, 4.35);
    w = asked("{\"brief\":" BRIEF ",\"lamp\":{\"material\":\"bamboo\",\"diameter_mm\":70,\"wall_mm\":8}}");
    alike(w.age_years, 4.0);
    assert_string_equal(lw_mast_material_at(w.material)->name, "bamboo");
}

static void tried_instead(void **state)
{
    (void)state;
    lw_mast_wish w =
        asked("{\"brief\":" BRIEF ",\"lamp\":{\"pole\":\"old\",\"height_m\":4.35},\"instead\":{\"wall_mm\":5,"
              "\"height_m\":3,\"collar_m\":0.05,\"soil\":\"clay\",\"terrain\":\"IV\",\"people_below\":false}}");
    alike(w.pipe.diameter_mm, 60.3); /* a new one of the same width: no rust, no weld */
    alike(w.pipe.wall_mm, 5.0);
    alike(w.age_years, 4.0);
    alike(w.height_m, 3.0);
    alike(w.panel.height_m, 3.2);
    alike(w.collar_m, 0.05); /* narrower than the pipe: the check says so */
    assert_true(w.base == LW_BASE_COLLAR && !w.people_below && !w.welded);
    assert_true(w.wind.terrain == LW_TERRAIN_IV && w.wind.speed_m_s == 30.0);
    assert_int_equal(request.brief.build.mast.soil, LW_SOIL_CLAY);
    w = asked("{\"brief\":" BRIEF ",\"instead\":{\"no_wind\":true,\"no_collar\":true}}");
    assert_int_equal(check(&w).verdict, LW_MAST_NOT_CHECKED);
    assert_true(w.base == LW_BASE_BURIED);
    w = asked("{\"brief\":" BRIEF ",\"instead\":{\"soil\":\"soft\"}}");
    lw_mast_result r;
    lw_error err = {0};
    char *text = lw_mast_document(&w, request.brief.build.mast.soil);
    assert_false(lw_mast_from_json(text, strlen(text), &w, &err) && lw_mast_check(&w, &r, &err));
    assert_int_equal(err.family, LW_REFUSED);
    free(text);
}

static void wrong(const char *text, const char *field)
{
    lw_error err = {0};
    assert_false(lw_mast_request_from_json(text, strlen(text), &request, &err));
    assert_int_equal(err.family, LW_WRONG_INPUT);
    assert_string_equal(err.field, field);
}

static void wrong_questions(void **state)
{
    (void)state;
    wrong("{\"brief\":[]}", "brief");
    wrong("{\"brief\":{\"format\":\"lanewick.mast/1\"}}", "format");
    wrong("{\"lamp\":{\"panel_w\":-1}}", "lamp.panel_w");
    wrong("{\"lamp\":{\"poles\":\"old\"}}", "lamp.poles");
    wrong("{\"instead\":{\"soil\":\"other\"}}", "instead.soil");
    wrong("{\"instead\":{\"speed_m_s\":20,\"no_wind\":true}}", "instead.no_wind");
    wrong("{\"instead\":{\"collar_m\":0.3,\"no_collar\":true}}", "instead.no_collar");
    wrong("{\"instead\":{\"wall_mm\":1e9}}", "instead.wall_mm");
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(every_mast_is_read_back), cmocka_unit_test(without_a_brief),
        cmocka_unit_test(of_a_brief_and_a_plan),   cmocka_unit_test(tried_instead),
        cmocka_unit_test(wrong_questions),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
