/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Reading briefs: what is read, what is assumed, and that every wrong brief is told by its field.
 */
#include "desk/lane_files.h"
#include "lanewick/brief.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static lw_brief brief;

static const char small[] =
    "{\"format\": \"lanewick.brief/1\", \"place\": {\"lat_deg\": 9.1, \"lon_deg\": -79.4,"
    "\"monthly\": {\"ghi_kwh_m2_day\": [5.1, 5.5, 5.6, 5.2, 4.4, 4.1, 4.2, 4.2, 4.3, 4.1, 4.2, 4.6]}},"
    "\"want\": {\"lumens\": 300, \"schedule\": [{\"from\": \"dusk\", \"to\": \"22:30\", \"level\": 1}]},"
    "\"shelf\": {\"panels\": [{\"watts\": 20, \"count\": 2, \"price\": 12.5}],"
    "\"cells\": [{\"class\": \"4v2\", \"capacity_ah\": 2.05, \"count\": 24, \"price\": 0.40}],"
    "\"chargers\": [{\"kind\": \"direct\", \"series\": 3, \"end_v_per_cell\": 4.1, \"most_input_v\": 30, "
    "\"price\": 3.75}]}}";

/* The text with the first `from` replaced by `to`; free() it. */
static char *replaced(const char *text, const char *from, const char *to)
{
    const char *place = strstr(text, from);
    assert_non_null(place);
    const size_t room = strlen(text) + strlen(to) + 1;
    char *out = malloc(room);
    assert_non_null(out);
    (void)snprintf(out, room, "%.*s%s%s", (int)(place - text), text, to, place + strlen(from));
    return out;
}

static void small_brief_is_completed(void **state)
{
    (void)state;
    lw_error err = {0};
    assert_true(lw_brief_from_json(small, strlen(small), &brief, &err));
    assert_true(fabs((brief.place.utc_offset_h) - (-5.0)) <= 0.0);
    assert_true(fabs((brief.want.lamp[0].head_w) - (3.0)) <= 1e-12); /* 300 lm at the assumed 100 lm/W */
    assert_int_equal(brief.want.lamp[0].span[0].until.kind, LW_AT_CLOCK);
    assert_true(fabs((brief.want.lamp[0].span[0].until.value) - (22.5)) <= 1e-12);
    assert_int_equal(brief.shelf.cell[0].price_minor, 40);
    assert_true(brief.shelf.panel[0].label_assumed);
    assert_true(fabs((brief.shelf.panel[0].vmp_v * brief.shelf.panel[0].imp_a) - (20.0)) <= 1e-9);
    assert_true(isnan(brief.shelf.charger[0].cold_stop_c)); /* safety is never assumed */
    assert_int_equal(brief.shelf.driver_count, 2);          /* from above, and for one group from below */
    /* Every default that matters is told once. */
    bool efficacy = false;
    for (size_t i = 0; i < brief.assumed.count; i++) {
        efficacy = efficacy || strcmp(brief.assumed.item[i].key, "want.efficacy_lm_w") == 0;
        assert_true(brief.assumed.item[i].value[0] && brief.assumed.item[i].why[0]);
    }
    assert_true(efficacy);
    assert_true(brief.assumed.count > 15 && brief.assumed.count < LW_ASSUMPTIONS);
}

static const struct wrong {
    const char *from, *to, *field, *words;
} wrongs[] = {
    {"\"lat_deg\": 9.1", "\"lat_deg\": 95.2", "place.lat_deg", "between -90 and 90"},
    {"\"lat_deg\": 9.1", "\"latt_deg\": 9.1", "place.lat_deg", "missing"},
    {"\"lon_deg\": -79.4", "\"lon_deg\": -79.4, \"elev\": 4", "place.elev", "did you mean \"elev_m\""},
    {"4.2, 4.6]", "4.2]", "place.monthly.ghi_kwh_m2_day", "has 11 values"},
    {"[5.1, ", "[\"5.1\", ", "place.monthly.ghi_kwh_m2_day[1]", "number"},
    {"[5.1, ", "[-5.1, ", "place.monthly.ghi_kwh_m2_day[1]", "between 0"},
    {"\"lumens\": 300, ", "", "want.lumens", "give lumens"},
    {"22:30", "25:30", "want.schedule[1].to", "22:30"},
    {"22:30", "dawn+1h", "want.schedule[1].to", "dawn-1h"},
    {"\"level\": 1", "\"level\": 1.7", "want.schedule[1].level", "between 0 and 1"},
    {", \"price\": 12.5", "", "shelf.panels[1].price", "missing"},
    {"\"price\": 0.40", "\"price\": 0.405", "shelf.cells[1].price", "2 decimals"},
    {"\"price\": 0.40", "\"price\": \"cheap\"", "shelf.cells[1].price", "number"},
    {"\"capacity_ah\": 2.05", "\"capacity_ah\": 0", "shelf.cells[1].capacity_ah", "between 0.05"},
    {"\"class\": \"4v2\"", "\"class\": \"4.2\"", "shelf.cells[1].class", "4v2|4v35|lfp|unknown"},
    {"\"series\": 3", "\"series\": 0", "shelf.chargers[1].series", "between 1 and 16"},
    {"\"series\": 3", "\"series\": [3, 2]", "shelf.chargers[1].series", "smaller first"},
    {"\"count\": 2,", "\"count\": 2.5,", "shelf.panels[1].count", "whole number"},
    {"{\"watts\": 20, ", "{\"watts\": 20, \"voc_v\": 21.6, \"isc_a\": 1.24, \"vmp_v\": 22.6, \"imp_a\": 1.14, ",
     "shelf.panels[1].vmp_v", "below voc_v"},
    {"{\"watts\": 20, ", "{\"watts\": 40, \"voc_v\": 21.6, \"isc_a\": 1.24, \"vmp_v\": 17.6, \"imp_a\": 1.14, ",
     "shelf.panels[1].watts", "read the label"},
    {"\"lumens\": 300", "\"lamps\": 0, \"lumens\": 300", "want.lamps", "between 1"},
    {"\"lumens\": 300", "\"lamps\": [], \"lumens\": 300", "want.lamps", "0 entries"},
    {"[{\"from\": \"dusk\", \"to\": \"22:30\", \"level\": 1}]", "[]", "want.schedule", "leave it out"},
    {"\"capacity_ah\": 2.05", "\"capacity_ah\": 2.05, \"cells_file\": \"a.csv\"", "shelf.cells[1].cells_file",
     "leave those three out"},
    {"\"lumens\": 300", "\"lumens\": 300, \"other_loads\": [{\"watts\": 2, \"from\": \"17:00\", \"to\": \"17:00\"}]",
     "want.other_loads[1].to", "same time"},
    {"\"shelf\": {", "\"shelf\": {\"prices\": [{\"price\": 3}], ", "shelf.prices[1].name", "missing"},
    {"\"shelf\": {", "\"shelf\": {\"prices\": [{\"name\": \"a\"}, {\"name\": \"A\"}], ", "shelf.prices[2].name",
     "twice"},
    {"\"shelf\": {", "\"shelf\": {\"prices\": [{\"name\": \"a\", \"loss_pct\": 95}], ", "shelf.prices[1].loss_pct",
     "between 0 and 90"},
    {"\"shelf\": {", "\"shelf\": {\"prices\": [{\"name\": \"a\", \"loss_pct\": 3.25}], ", "shelf.prices[1].loss_pct",
     "more decimals than the 1"},
    {"\"shelf\": {", "\"shelf\": {\"prices\": [{\"name\": \"a\", \"date\": \"2026-13-02\"}], ", "shelf.prices[1].date",
     "2026-11-02"},
    {"\"shelf\": {", "\"shelf\": {\"prices\": [{\"name\": \"a\", \"price\": 0.001}], ", "shelf.prices[1].price",
     "2 decimals"},
    {"\"shelf\": {", "\"shelf\": {\"prices\": [{\"name\": \"a\", \"sold_by\": 0}], ", "shelf.prices[1].sold_by",
     "between 1"},
    {"\"shelf\": {", "\"shelf\": {\"prices\": [{\"name\": \"a\", \"shops\": 0}], ", "shelf.prices[1].shops",
     "did you mean \"shop\""},
    {"\"shelf\": {", "\"shelf\": {\"wage_per_hour\": -1, ", "shelf.wage_per_hour", "between 0"},
    {"\"shelf\": {",
     "\"shelf\": {\"wage_per_hour\": 99000000, \"prices\": [{\"name\": \"20 W panel\", \"bench_min\": 600, "
     "\"loss_pct\": "
     "90}], ",
     "shelf.prices", "dearer than"},
    {"lanewick.brief/1", "lanewick.brief/2", "format", "lanewick.brief/1"},
    {"\"lumens\": 300", "\"lumens\": 1e999", "", "valid JSON"},
    {"\"lumens\": 300", "\"lumens\": NaN", "", "valid JSON"},
    {"\"price\": 12.5", "\"price\": 12.5, \"price\": 13", "", "valid JSON"},
};

static void every_wrong_brief_is_told(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof wrongs / sizeof wrongs[0]; i++) {
        char *text = replaced(small, wrongs[i].from, wrongs[i].to);
        lw_error err = {0};
        if (lw_brief_from_json(text, strlen(text), &brief, &err))
            fail_msg("accepted: %s", wrongs[i].to);
        if (err.family != LW_WRONG_INPUT || strcmp(err.field, wrongs[i].field) != 0 ||
            !strstr(err.message, wrongs[i].words))
            fail_msg("%s: field %s, message %s", wrongs[i].to, err.field, err.message);
        free(text);
    }
}

static void demo_briefs_are_read(void **state)
{
    (void)state;
    static const char *const names[] = {"nsungwi",        "cold-plain",      "monsoon-coast",
                                        "equator-school", "cyclone-harbour", "boat-yard"};
    static const int lamps[] = {6, 2, 3, 4, 4, 2};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[512], text[20000];
        (void)snprintf(path, sizeof path, "%s/demo/%s.json", LW_SOURCE_DIR, names[i]);
        FILE *file = fopen(path, "rb");
        assert_non_null(file);
        const size_t length = fread(text, 1, sizeof text, file);
        (void)fclose(file);
        lw_error err = {0};
        if (!lw_brief_from_json(text, length, &brief, &err))
            fail_msg("%s: %s", names[i], err.message);
        assert_int_equal(lw_brief_lamps(&brief), lamps[i]);
    }
}

/* Beside the lane's lamps: I = lumens / pi of a flat board, lumens / (4 pi) of a globe, (m + 1) lumens / (2 pi) of a
 * power m of the cosine, here measured at 2 m; PET dulls with the years, a head without it does not. */
static void a_lamp_that_stands_there_has_its_own_head(void **state)
{
    (void)state;
    static const char lit[] =
        "\"lamps\": [{\"name\": \"path\", \"count\": 2}, {\"name\": \"jetty\", \"lumens\": 300, "
        "\"count\": 1}], \"lane\": {\"length_m\": 30, \"width_m\": 2, \"class\": \"P6\", "
        "\"maintenance\": 0.7, "
        "\"also\": [{\"lamp\": \"jetty\", \"x_m\": 3, \"y_m\": 0 %s}]}, \"schedule\": [{\"from\": "
        "\"dusk\", \"to\": \"dawn\", \"level\": 1}]";
    static const struct {
        const char *head;
        double below_cd, within, aged;
    } heads[] = {{"", 95.49296585513721, 1e-9, 0.7},
                 {", \"head\": {\"round\": true}", 23.87324146378430, 1e-9, 0.7},
                 {", \"head\": {\"cos_power\": 3}", 190.9859317102744, 1e-9, 0.7},
                 {", \"head\": {\"readings\": {\"distance_m\": 2, \"angle_deg\": [0, 30, 60], "
                  "\"lux_lx\": [80, 51.96152422706632, 10]}}",
                  190.9859317102744, 1e-4, 0.7},
                 {", \"head\": {\"diffuser\": {\"kind\": \"frosted_bottle\", \"material\": \"pet\"}}", 0.0, 0.0, 0.0}};
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        char want[900];
        lw_error err = {0};
        (void)snprintf(want, sizeof want, lit, heads[i].head);
        char *text = replaced(
            small, "\"lumens\": 300, \"schedule\": [{\"from\": \"dusk\", \"to\": \"22:30\", \"level\": 1}]", want);
        lw_arena arena = lw_arena_over(malloc(1 << 20), 1 << 20);
        if (!lw_brief_from_json(text, strlen(text), &brief, &err) ||
            !lw_read_layout_heads(NULL, &brief.want.lane.ask, &arena, &err))
            fail_msg("%s: %s", heads[i].head, err.message);
        const lw_lamp *lamp = &brief.want.lane.ask.wish.fixed[0];
        const double below_cd = lw_beam_cd(&lamp->beam, 0.0, 0.0);
        if (heads[i].aged > 0.0) {
            assert_true(fabs(below_cd / heads[i].below_cd - 1.0) <= heads[i].within);
            assert_true(fabs(lamp->maintenance - heads[i].aged) < 1e-12);
        } else {
            assert_true(below_cd > 10.0 && below_cd < 0.9 * 95.49296585513721);
            assert_true(lamp->maintenance > 0.3 && lamp->maintenance < 0.699);
        }
        free(arena.base);
        free(text);
    }
}

static void money_is_exact(void **state)
{
    (void)state;
    const lw_currency cents = {"USD", 2}, whole = {"K", 0};
    char text[64];
    assert_string_equal(lw_money_text(&cents, 1234507, text, sizeof text), "USD 12 345.07");
    assert_string_equal(lw_money_text(&cents, -5, text, sizeof text), "USD -0.05");
    assert_string_equal(lw_money_text(&whole, 987654321, text, sizeof text), "K 987 654 321");
    assert_string_equal(lw_money_joined(&cents, 1234507, text, sizeof text), "USD\xc2\xa0"
                                                                             "12\xc2\xa0"
                                                                             "345.07");
    assert_string_equal(lw_money_joined(&whole, 1234507, text, 7), "K\xc2\xa0"
                                                                   "1"); /* cut between letters */
    assert_string_equal(lw_money_digits(&cents, 1234507, text, sizeof text), "12\xc2\xa0"
                                                                             "345.07");
    assert_int_equal(lw_money_nearest(&whole, 3.12), 3);
    assert_int_equal(lw_money_nearest(&cents, 3.126), 313);
}

/* Products and quotients worked out by hand, rounded up to the smallest unit. */
static void one_money_in_another(void **state)
{
    (void)state;
    const lw_currency usd = {"USD", 2}, k = {"K", 0}, k_cents = {"K", 2}, rs = {"Rs", 3};
    const lw_rate usd_in_k = {.of = usd, .in = k, .minor = 2700};
    assert_int_equal(lw_money_changed(1250, &usd, &k, &usd_in_k), 33750);         /* 12.50 x 2700 */
    assert_int_equal(lw_money_changed(1, &usd, &k, &usd_in_k), 27);               /* 0.01 x 2700 */
    assert_int_equal(lw_money_changed(1000, &k, &usd, &usd_in_k), 38);            /* 1000 / 2700 = 0.3704 */
    assert_int_equal(lw_money_changed(27000, &k, &usd, &usd_in_k), 1000);         /* exactly 10 */
    assert_int_equal(lw_money_changed(1250, &usd, &k_cents, &usd_in_k), 3375000); /* the rate's decimals are its own */
    assert_int_equal(lw_money_changed(101, &k_cents, &k, NULL), 2);               /* 1.01 in whole units */
    assert_int_equal(lw_money_changed(7, &k, &k_cents, NULL), 700);
    assert_int_equal(lw_money_changed(5, &rs, &k, &usd_in_k), -1); /* a rate of other moneys */
    assert_int_equal(lw_money_changed(5, &usd, &k, NULL), -1);
    assert_int_equal(lw_money_changed(0, &usd, &k, &usd_in_k), 0);
    const lw_rate dear = {.of = usd, .in = k, .minor = lw_price_max_minor};
    assert_int_equal(lw_money_changed(100, &usd, &k, &dear), lw_price_max_minor); /* the most that a price may be */
    assert_int_equal(lw_money_changed(101, &usd, &k, &dear), -1);
    assert_int_equal(lw_money_changed(lw_price_max_minor, &usd, &k, &dear), -1);
    assert_int_equal(lw_money_changed(lw_price_max_minor, &k, &usd, &dear), 100);
}

static bool assumes(const char *key)
{
    for (size_t i = 0; i < brief.assumed.count; i++)
        if (strcmp(brief.assumed.item[i].key, key) == 0)
            return true;
    return false;
}

/* What the brief tells of the sensor is not listed as assumed; what it leaves out is. */
static void a_sensor_is_as_told(void **state)
{
    (void)state;
    lw_error err = {0};
    char *dusk = replaced(small, "\"schedule\": [{\"from\": \"dusk\", \"to\": \"22:30\", \"level\": 1}]",
                          "\"switch\": \"dusk\"");
    char *text =
        replaced(dusk, "\"shelf\"",
                 "\"build\": {\"sensor\": {\"distance_m\": 0.2, \"angle_deg\": 0, \"tube_factor\": 1}}, \"shelf\"");
    assert_true(lw_brief_from_json(dusk, strlen(dusk), &brief, &err));
    assert_true(assumes("build.sensor.distance_m") && brief.build.sensor.distance_m == 0.4);
    assert_true(assumes("build.sensor.tube_factor") && brief.build.sensor.tube_factor == 0.1);
    assert_true(lw_brief_from_json(text, strlen(text), &brief, &err));
    assert_true(brief.build.sensor.distance_m == 0.2 && brief.build.sensor.tube_factor == 1.0);
    assert_false(assumes("build.sensor.distance_m") || assumes("build.sensor.angle_deg") ||
                 assumes("build.sensor.tube_factor"));
    assert_true(assumes("build.sensor.incidence_deg") && brief.build.sensor.incidence_deg == 85.0);
    free(text);
    free(dusk);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(small_brief_is_completed),
        cmocka_unit_test(one_money_in_another),
        cmocka_unit_test(every_wrong_brief_is_told),
        cmocka_unit_test(demo_briefs_are_read),
        cmocka_unit_test(a_lamp_that_stands_there_has_its_own_head),
        cmocka_unit_test(a_sensor_is_as_told),
        cmocka_unit_test(money_is_exact),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
