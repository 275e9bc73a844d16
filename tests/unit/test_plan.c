/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Whole plans of the demo briefs, by simulation: they keep their wish, what must hold of any plan holds, the five
 * places get different lamps, a seed repeats to the last bit whatever the threads.
 */
#include "demo_brief.h"
#include "lanewick/desk.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static lw_plan plan;

static void make(const char *name, uint64_t seed, int threads)
{
    lw_error err = {0};
    const size_t length = read_brief(name);
    const lw_plan_request request = {.brief = brief, .brief_length = length, .seed = seed, .threads = threads};
    if (!lw_desk_plan(&request, &plan, &err))
        fail_msg("%s: %s", name, err.message);
}

static void check_outcome(const lw_outcome *o)
{
    double months = 0.0;
    for (int m = 0; m < 12; m++)
        months += o->by_month[m];
    assert_true(fabs(months - o->dark.mean) < 1e-6);
    assert_true(o->dark.low <= o->dark.mean && o->dark.high >= o->dark.low && o->dark.low >= 0.0);
    assert_true(o->sure_share >= 0.0 && o->sure_share <= 1.0 && o->years >= 64);
}

/* A quarter more of either part never makes more dark nights; nor does half light when the pack is low. */
static void check_what_ifs(const lw_plan_kind *kind)
{
    const double as_planned = kind->outcome.dark.mean;
    assert_true(kind->more_panel.given && kind->more_panel.dark.mean <= as_planned);
    assert_true(kind->more_pack.given && kind->more_pack.dark.mean <= as_planned);
    if (kind->dim.given)
        assert_true(kind->dim.dark.mean <= as_planned);
    if (kind->trim.given)
        assert_true(kind->trim.dark.mean <= as_planned);
    assert_true(kind->limit_month >= 1 && kind->limit_month <= 12);
    for (size_t y = 1; y < kind->ahead_count; y++) {
        assert_true(kind->ahead[y].capacity_share < kind->ahead[y - 1].capacity_share);
        assert_true(kind->ahead[y].dark.mean >= kind->ahead[y - 1].dark.mean);
    }
}

/* Cheaper alternatives have more dark nights, but for what a scarce shelf made the plan take; something is chosen. */
static void check_options(size_t k)
{
    const lw_candidate *last = NULL;
    int chosen = 0;
    assert_true(plan.option_count[k] >= 3);
    for (size_t i = 0; i < plan.option_count[k]; i++) {
        const lw_candidate *c = &plan.option[k][i].candidate;
        check_outcome(&c->outcome);
        assert_int_equal(c->cost_minor, lw_design_cost_minor(&plan.brief.shelf, &c->design));
        assert_true(!last || c->cost_minor >= last->cost_minor);
        if (plan.option[k][i].chosen)
            chosen++;
        else if (last)
            assert_true(c->outcome.dark.mean < last->outcome.dark.mean);
        if (!plan.option[k][i].chosen || !last || c->outcome.dark.mean < last->outcome.dark.mean)
            last = c;
    }
    assert_true(chosen >= 1);
}

static void check_plan(int lamps)
{
    int built = 0, cells = 0;
    int64_t cost = 0;
    for (size_t i = 0; i < plan.kind_count; i++) {
        const lw_plan_kind *kind = &plan.kind[i];
        built += kind->count;
        cells += kind->count * kind->design.series * kind->design.parallel;
        cost += kind->count * kind->cost_minor;
        assert_true(kind->keeps && kind->outcome.sure_share >= plan.brief.want.sure_share);
        check_outcome(&kind->outcome);
        assert_int_equal(kind->outcome.years, 160);
        check_what_ifs(kind);
    }
    assert_int_equal(built, lamps);
    assert_true(plan.keeps && plan.lamps_without == 0 && plan.refused.count == 0);
    for (size_t i = 0; i < plan.kind_count; i++)
        assert_true(!plan.brief.place.wind_given ||
                    (plan.kind[i].mast.checked && plan.kind[i].mast.result.bending.reserve >= 1.0));
    /* the cement comes in whole bags for all lamps together */
    assert_int_equal(cost + lw_plan_mast_goods(&plan).cement_bags * plan.brief.shelf.cement_minor, plan.cost_minor);
    assert_true(plan.bound_minor <= plan.cost_minor);
    int there = 0;
    for (size_t i = 0; i < plan.brief.shelf.cell_count; i++)
        there += plan.brief.shelf.cell[i].count;
    assert_true(cells <= there);
    for (size_t k = 0; k < plan.brief.want.lamp_count; k++)
        check_options(k);
    assert_true(plan.caution_count > 0 && plan.brief.assumed.count > 0);
}

static bool left_out(const char *id)
{
    for (size_t i = 0; i < plan.left_out.count; i++)
        if (strcmp(plan.left_out.item[i].id, id) == 0)
            return true;
    return false;
}

/* A band is rounded to whole nights both ways, as on the page and as rounding the JSON numbers gives. */
static void check_band_text(void)
{
    char *text;
    for (size_t i = 0; i < plan.kind_count; i++)
        plan.kind[i].outcome.dark = (lw_dark_band){.mean = 2.04, .low = 0.6, .high = 5.2};
    text = lw_desk_plan_text(&plan, NULL, false);
    assert_non_null(text);
    assert_non_null(strstr(text, "Dark nights 2 (1 to 5) a year"));
    free(text);
}

static void nsungwi(void **state)
{
    (void)state;
    make("demo/nsungwi", 1, 0);
    check_plan(6);
    assert_true(left_out("input_voltage")); /* the one-cell charger cannot bear a 36-cell panel */
}

static void high_plain_needs_a_thermometer(void **state)
{
    (void)state;
    make("demo/cold-plain", 1, 0);
    check_plan(2);
    assert_true(left_out("charging_below_0"));
    assert_true(plan.box.cold_h > 10.0 && plan.box.coldest_c < 0.0);
    const lw_plan_kind *kind = &plan.kind[0];
    assert_true(plan.brief.shelf.charger[kind->design.charger].cold_stop_c >= 0.0);
    assert_true(kind->limit_month >= 3 && kind->limit_month <= 8); /* the winter half year; the days are alike */
}

static void monsoon_coast_fails_in_the_monsoon(void **state)
{
    (void)state;
    make("demo/monsoon-coast", 1, 0);
    check_plan(3);
    const lw_plan_kind *kind = &plan.kind[0];
    assert_true(kind->limit_month >= 6 && kind->limit_month <= 9);
    assert_true(kind->outcome.by_month[6] + kind->outcome.by_month[7] > 0.5 * kind->outcome.dark.mean);
}

static void school_on_the_equator(void **state)
{
    (void)state;
    make("demo/equator-school", 1, 0);
    check_plan(4);
    check_band_text();
    double least = 24.0, most = 0.0;
    for (int m = 0; m < 12; m++) {
        least = fmin(least, plan.kind[0].night_h[m]);
        most = fmax(most, plan.kind[0].night_h[m]);
    }
    assert_true(most - least < 0.3);
}

static void harbour_uses_lfp(void **state)
{
    (void)state;
    make("demo/cyclone-harbour", 1, 0);
    check_plan(4);
    assert_int_equal(plan.kind[0].design.series, 4);
    assert_int_equal(plan.kind[0].ahead_count, 5);
}

static void a_seed_repeats_whatever_the_threads(void **state)
{
    (void)state;
    char *texts[3];
    static const int threads[] = {1, 3, 2};
    for (int i = 0; i < 3; i++) {
        make("tests/briefs/small", i < 2 ? 7 : 8, threads[i]);
        texts[i] = lw_plan_to_json(&plan, brief, strlen(brief));
        assert_non_null(texts[i]);
    }
    assert_string_equal(texts[0], texts[1]);
    assert_string_not_equal(texts[0], texts[2]);
    for (int i = 0; i < 3; i++)
        free(texts[i]);
}

/* Indian government programme specification of a 12 W LED street light, dusk to dawn (read in published copies): 75 W
 * of panel, 12.8 V 30 Ah of lithium iron phosphate (384 Wh). Our plan for central India must come out near it: within
 * one step of the shelf, and the specified size itself must be lit on nearly every night but not on all. */
static void a_published_street_light(void **state)
{
    (void)state;
    make("tests/briefs/street-light", 1, 0);
    check_plan(1);
    const lw_design *design = &plan.kind[0].design;
    assert_true(lw_design_panel_w(&plan.brief.shelf, design) >= 75.0);
    assert_true(lw_design_panel_w(&plan.brief.shelf, design) <= 100.0);
    assert_true(fabs(lw_design_pack_wh(&plan.brief.shelf, design) - 384.0) <= 128.0);
    bool met = false;
    for (size_t i = 0; i < plan.option_count[0]; i++) {
        const lw_candidate *c = &plan.option[0][i].candidate;
        if (fabs(lw_design_panel_w(&plan.brief.shelf, &c->design) - 75.0) < 1.0 && c->design.parallel == 3) {
            met = true;
            assert_true(c->outcome.dark.mean > 0.5 && c->outcome.dark.mean < 10.0);
        }
    }
    assert_true(met);
    /* The same specification says two nights and a half of store: the textbook's three give more pack. */
    assert_true(plan.kind[0].textbook.month == 7 || plan.kind[0].textbook.month == 8);
}

static void an_impossible_wish_says_what_to_buy(void **state)
{
    (void)state;
    lw_error err = {0};
    static const char text[] =
        "{\"format\": \"lanewick.brief/1\", \"place\": {\"lat_deg\": 9.1, \"lon_deg\": -79.4},"
        "\"want\": {\"lumens\": 700, \"dark_nights_per_year\": 2},"
        "\"shelf\": {\"panels\": [{\"watts\": 20, \"count\": 1, \"price\": 12.5}],"
        "\"cells\": [{\"class\": \"4v2\", \"capacity_ah\": 2.05, \"count\": 24, \"price\": 0.4}],"
        "\"chargers\": [{\"kind\": \"direct\", \"series\": 3, \"end_v_per_cell\": 4.1, \"cold_stop_c\": 0,"
        "\"hot_stop_c\": 45, \"most_input_v\": 30, \"price\": 3.75}]}}";
    const lw_plan_request request = {.brief = text, .brief_length = strlen(text), .seed = 1};
    if (!lw_desk_plan(&request, &plan, &err))
        fail_msg("%s", err.message);
    assert_false(plan.keeps);
    assert_int_equal(plan.kind_count, 1);
    assert_true(plan.kind[0].outcome.dark.mean > 50.0);
    assert_non_null(strstr(plan.kind[0].near, "buy"));
    assert_non_null(strstr(plan.kind[0].near, "turn all light down"));
}

static void a_short_shelf_leaves_a_lamp_out(void **state)
{
    (void)state;
    lw_error err = {0};
    static const char text[] =
        "{\"format\": \"lanewick.brief/1\", \"place\": {\"lat_deg\": 9.1, \"lon_deg\": -79.4},"
        "\"want\": {\"lumens\": 150, \"lamps\": 3, \"dark_nights_per_year\": 6},"
        "\"shelf\": {\"panels\": [{\"watts\": 20, \"count\": 2, \"price\": 12.5}],"
        "\"cells\": [{\"class\": \"4v2\", \"capacity_ah\": 2.05, \"count\": 60, \"price\": 0.4}],"
        "\"chargers\": [{\"kind\": \"direct\", \"series\": 3, \"end_v_per_cell\": 4.1, \"cold_stop_c\": 0,"
        "\"hot_stop_c\": 45, \"most_input_v\": 30, \"price\": 3.75}]}}";
    const lw_plan_request request = {.brief = text, .brief_length = strlen(text), .seed = 1};
    if (!lw_desk_plan(&request, &plan, &err))
        fail_msg("%s", err.message);
    assert_int_equal(plan.lamps_without, 1);
    assert_false(plan.keeps);
}

int main(void)
{
#if defined(__SANITIZE_ADDRESS__)
    /* Ten times slower: the same code over the smallest briefs. */
    const struct CMUnitTest few[] = {
        cmocka_unit_test(school_on_the_equator),
        cmocka_unit_test(an_impossible_wish_says_what_to_buy),
        cmocka_unit_test(a_short_shelf_leaves_a_lamp_out),
    };
    if (!getenv("LW_ALL_PLANS"))
        return cmocka_run_group_tests(few, NULL, NULL);
#endif
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(nsungwi),
        cmocka_unit_test(high_plain_needs_a_thermometer),
        cmocka_unit_test(monsoon_coast_fails_in_the_monsoon),
        cmocka_unit_test(school_on_the_equator),
        cmocka_unit_test(harbour_uses_lfp),
        cmocka_unit_test(a_published_street_light),
        cmocka_unit_test(a_seed_repeats_whatever_the_threads),
        cmocka_unit_test(an_impossible_wish_says_what_to_buy),
        cmocka_unit_test(a_short_shelf_leaves_a_lamp_out),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
