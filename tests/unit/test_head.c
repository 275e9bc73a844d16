/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Heads from readings, closed forms and files, behind a bottle; written as LM-63 and read back. Expected values: closed
 * forms, named beside the check.
 */
#include "lanewick/head_json.h"
#include "lanewick/lane_json.h"
#include "lanewick/lm63.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

#define HEAD(rest) "{\"format\":\"lanewick.head/1\"," rest "}"

static unsigned char memory[8 << 20];
static lw_head head;
static lw_head_light light;
static lw_error err;

static bool work_out(const char *document)
{
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    err = (lw_error){0};
    return lw_head_from_json(document, strlen(document), &head, &err) &&
           lw_head_light_of(&head, NULL, &arena, &light, &err);
}

static void near(double is, double wanted, double tolerance)
{
    if (!(fabs(is - wanted) <= tolerance))
        fail_msg("%.12g should be %.12g", is, wanted);
}

/* 1000 lm Lambertian: 318.31 cd, half at 60 degree; inside 30 and 60 degree 1/4 and 3/4 of the light; G*6 when level.
 */
static void lambert_in_numbers(void **state)
{
    (void)state;
    assert_true(work_out(HEAD("\"lumens\":1000")));
    near(light.numbers.lumens, 1000.0, 0.05);
    near(light.numbers.peak_cd, 318.309886, 1e-5);
    near(light.numbers.half_deg, 60.0, 0.11);
    near(light.numbers.zone_lm[0], 250.0, 0.05);
    near(light.numbers.zone_lm[1], 500.0, 0.05);
    assert_int_equal(light.numbers.glare_class, 6);
}

/* A globe sends half of its light upward, 79.6 cd/klm everywhere, and meets no intensity class. */
static void globe_in_numbers(void **state)
{
    (void)state;
    assert_true(work_out(HEAD("\"lumens\":500,\"round\":true")));
    near(light.numbers.upward_share, 0.5, 1e-6);
    near(light.numbers.peak_cd, 39.7887358, 1e-6);
    assert_int_equal(light.numbers.glare_class, 0);
}

/* Readings made from 400 lm, m = 1.7 at 1.5 m, with 0.7 lx of other light: both ways give the lumens back. */
static void readings_give_the_head_back(void **state)
{
    (void)state;
    char document[1200], angles[300] = "", lux[600] = "";
    for (int i = 0; i <= 17; i++) {
        const double cd = 2.7 * 400.0 / (2.0 * 3.14159265358979) * pow(cos(i * 5.0 * 3.14159265358979 / 180.0), 1.7);
        (void)snprintf(angles + strlen(angles), sizeof angles - strlen(angles), "%s%d", i ? "," : "", 5 * i);
        (void)snprintf(lux + strlen(lux), sizeof lux - strlen(lux), "%s%.10g", i ? "," : "", cd / 2.25 + 0.7);
    }
    for (int as_read = 0; as_read < 2; as_read++) {
        (void)snprintf(document, sizeof document,
                       HEAD("\"readings\":{\"distance_m\":1.5,\"dark_lx\":0.7,\"meter_pct\":8,\"angle_deg\":[%s],"
                            "\"lux_lx\":[%s],\"shape\":\"%s\"}"),
                       angles, lux, as_read ? "as_read" : "cosine");
        assert_true(work_out(document));
        near(light.numbers.lumens, 400.0, as_read ? 1.0 : 0.1);
        assert_true(light.lumens_sd_share >= 0.0799);
        assert_int_equal(light.fitted, !as_read);
        if (!as_read)
            near(light.fit.cos_power, 1.7, 1e-6);
    }
}

/* Flux is kept: what a bottle lets through is its share of the bare light, whatever the shape. */
static void bottle_keeps_its_share(void **state)
{
    (void)state;
    static const char *const kinds[] = {"clear_bottle", "frosted_cover", "frosted_bottle", "milky_bottle"};
    for (size_t i = 0; i < 4; i++) {
        char document[300];
        (void)snprintf(document, sizeof document,
                       HEAD("\"lumens\":800,\"cos_power\":3,\"diffuser\":{\"kind\":\"%s\",\"material\":\"acrylic\","
                            "\"years\":4,\"transmittance\":0.8}"),
                       kinds[i]);
        assert_true(work_out(document));
        near(light.numbers.lumens, 800.0 * 0.8 * pow(0.995, 4.0), 0.1);
    }
    near(light.numbers.upward_share, 0.4, 1e-4); /* milky: all scattered, 0.8 of it all round */
}

static void written_head_reads_back(void **state)
{
    (void)state;
    static char text[1 << 16];
    static lw_lm63 file;
    static unsigned char room[1 << 20];
    assert_true(work_out(HEAD("\"lumens\":640,\"diffuser\":{\"kind\":\"frosted_bottle\"}")));
    const size_t length = lw_lm63_write(&light.table, 4.5, "T\xC3\xAAte", "2026-10-03",
                                        "A note that is long enough to be broken over two lines, which happens between "
                                        "its words and not inside one, so that people can read it.",
                                        text, sizeof text);
    assert_non_null(strstr(text, "[LUMINAIRE] T?te\r\n")); /* ASCII only */
    assert_non_null(strstr(text, "\r\n[MORE] "));
    assert_null(strstr(text, "\xC3"));
    lw_arena arena = lw_arena_over(room, sizeof room);
    if (!lw_lm63_read(text, length, false, &arena, &file, &err))
        fail_msg("%s", err.message);
    assert_int_equal(file.year, 2019);
    assert_int_equal(file.defect_count, 0);
    near(file.lumens, light.numbers.lumens, 2e-4 * light.numbers.lumens);
    assert_int_equal(file.table.vertical_count, light.table.vertical_count);
    for (size_t i = 0; i < file.table.vertical_count; i++)
        near(file.table.candela[i], light.table.candela[i], 5.1e-4 * light.table.candela[i]);
}

static void faults_name_their_field(void **state)
{
    (void)state;
    static const struct {
        const char *document, *field;
    } faults[] = {
        {HEAD("\"lumens\":0"), "lumens"},
        {HEAD("\"name\":\"x\""), "lumens"},
        {HEAD("\"lumens\":5,\"diffuser\":{\"kind\":\"jar\"}"), "diffuser.kind"},
        {HEAD("\"lumens\":5,\"diffuser\":{\"kind\":\"clear_bottle\",\"colour\":1}"), "diffuser.colour"},
        {HEAD("\"lumens\":5,\"date\":\"2026-13-01\""), "date"},
        {HEAD("\"readings\":{\"distance_m\":0,\"angle_deg\":[0,30,60],\"lux_lx\":[3,2,1]}"), "readings.distance_m"},
        {HEAD("\"readings\":{\"distance_m\":1,\"angle_deg\":[0,30],\"lux_lx\":[3,2]}"), "readings.angle_deg"},
        {HEAD("\"readings\":{\"distance_m\":1,\"angle_deg\":[0,30,60],\"lux_lx\":[3,2]}"), "readings.lux_lx"},
        {HEAD("\"readings\":{\"distance_m\":1,\"angle_deg\":[0,60,30],\"lux_lx\":[3,2,1]}"), "angle_deg"},
        {HEAD("\"readings\":{\"distance_m\":1,\"angle_deg\":[0,30,60],\"lux_lx\":[3,-2,1]}"), "readings.lux_lx"},
        {HEAD("\"readings\":{\"distance_m\":1,\"dark_lx\":2,\"angle_deg\":[0,30,60],\"lux_lx\":[3,2,1]}"), "lux_lx"},
        {HEAD("\"readings\":{\"distance_m\":1,\"angle_deg\":[0,30,90],\"lux_lx\":[3,2,1]}"), "angle_deg"},
        {HEAD(
             "\"intensity_file\":\"a.ies\",\"readings\":{\"distance_m\":1,\"angle_deg\":[0,30,60],\"lux_lx\":[3,2,1]}"),
         "readings"},
    };
    for (size_t i = 0; i < sizeof faults / sizeof faults[0]; i++) {
        assert_false(work_out(faults[i].document));
        if (strncmp(err.field, faults[i].field, strlen(faults[i].field)) != 0)
            fail_msg("%s: %s (%s)", faults[i].document, err.field, err.message);
    }
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lambert_in_numbers),          cmocka_unit_test(globe_in_numbers),
        cmocka_unit_test(readings_give_the_head_back), cmocka_unit_test(bottle_keeps_its_share),
        cmocka_unit_test(written_head_reads_back),     cmocka_unit_test(faults_name_their_field),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
