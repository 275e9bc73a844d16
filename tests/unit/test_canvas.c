/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Drawings: the three papers come from the same code, coordinates are true, broken input is refused.
 */
#include "lanewick/lane_json.h"
#include "lanewick/sheet_light.h"
#include "read_png.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static unsigned char memory[8 << 20];
static lw_lane lane;

/* For people to look at: in the build's folder, wherever the test was started. */
static void save(const char *name, const unsigned char *bytes, size_t length)
{
    char path[1024];
    (void)snprintf(path, sizeof path, "%s/%s", LW_BINARY_DIR, name);
    FILE *file = fopen(path, "wb");
    assert_non_null(file);
    assert_int_equal(fwrite(bytes, 1, length, file), length);
    assert_int_equal(fclose(file), 0);
}

static void draw(lw_canvas *canvas)
{
    static const char document[] =
        "{\"format\":\"lanewick.lane/1\",\"field\":{\"line\":[[0,0],[24,0],[40,9]],\"width_m\":3},\"head\":"
        "{\"lumens\":900,\"cos_power\":1.4},\"masts\":[{\"x_m\":3,\"y_m\":-0.4,\"height_m\":4},"
        "{\"x_m\":19,\"y_m\":-0.4,\"height_m\":4},{\"x_m\":33,\"y_m\":4.4,\"height_m\":4.2,\"tilt_deg\":10}]}";
    lw_error err = {0};
    lw_arena arena = lw_arena_over(memory, sizeof memory);
    lw_field_point *points = NULL;
    size_t count = 0;
    assert_true(lw_lane_from_json(document, sizeof document - 1, &lane, &err));
    assert_true(lw_field_grid(&lane.field, lw_field_bay_m(&lane.field, lane.lamps, lane.lamp_count), &arena, &points,
                              &count, &err));
    lw_field_light(lane.lamps, lane.lamp_count, 0.0, points, count);
    const lw_lit_lane lit = {
        .field = &lane.field, .lamps = lane.lamps, .lamp_count = lane.lamp_count, .points = points, .count = count};
    assert_true(lw_picture_lane(canvas, 10, 10, 190, 70, &lit, NULL) <= 70.001);
    lw_picture_intensity(canvas, 10, 95, 80, 80, &lane.lamps[2].beam, "");
    lw_picture_section(canvas, 95, 100, 105, 70, &lane.lamps[0], NULL);
    assert_true(lw_canvas_qr(canvas, 10, 180, 30, "https://lane.example/C-0117", &err));
    lw_canvas_dimension(canvas, 60, 200, 160, 200, "100 mm", 9);
    (void)lw_canvas_text(canvas, 60, 205, (lw_type){.size_pt = 11, .width_mm = 60},
                         "Ƙarfin haske a hanya; éclairage régulier; mwanga wa njia.");
}

static void all_papers_are_drawn(void **state)
{
    (void)state;
    static const struct {
        lw_paper paper;
        const char *name, *start;
    } kinds[] = {{LW_PAPER_PDF, "light.pdf", "%PDF-"},
                 {LW_PAPER_SVG, "light.svg", "<?xml"},
                 {LW_PAPER_PNG, "light.png", "\x89PNG"}};
    for (size_t i = 0; i < 3; i++) {
        lw_error err = {0};
        unsigned char *bytes = NULL;
        size_t length = 0;
        lw_canvas *canvas = lw_canvas_new(kinds[i].paper, 210, 297, 150, "light", &err);
        assert_non_null(canvas);
        draw(canvas);
        assert_int_equal(lw_canvas_pages(canvas), 1);
        assert_true(lw_canvas_finish(canvas, &bytes, &length, &err));
        assert_memory_equal(bytes, kinds[i].start, strlen(kinds[i].start));
        assert_true(length > 5000);
        save(kinds[i].name, bytes, length);
        free(bytes);
    }
}

/* cairo's own reader sees the pen in the middle of the line and white paper beside it; 100 dots an inch are 3937 a
 * metre (pHYs of 11.3.5.3, just behind the header: the true size in print). */
static void read_back(const unsigned char *bytes, size_t length, bool coloured)
{
    static const unsigned char size[] = {'p', 'H',  'Y',  's', 0,    0,    0x0F, 0x61, 0,
                                         0,   0x0F, 0x61, 1,   0xA8, 0x3F, 0xA7, 0x69};
    assert_memory_equal(bytes + 37, size, sizeof size);
    cairo_surface_t *picture = read_png(bytes, length);
    assert_int_equal(cairo_surface_status(picture), CAIRO_STATUS_SUCCESS);
    const int stride = cairo_image_surface_get_stride(picture);
    /* 25 mm and 21.5 mm from the corner, 3.937 dots each: the middle of the line */
    const unsigned char *dots = cairo_image_surface_get_data(picture);
    const uint32_t *line = (const uint32_t *)(const void *)(dots + (ptrdiff_t)85 * stride);
    const uint32_t middle = line[98] & 0xFFFFFF, beside = line[40] & 0xFFFFFF;
    assert_int_equal(beside, 0xFFFFFF);
    if (coloured)
        assert_int_equal(middle, 0xCC3300); /* 0.8, 0.2, 0 of 255 */
    else
        assert_true(middle != 0xFFFFFF && middle == (middle & 0xFF) * 0x010101U);
    cairo_surface_destroy(picture);
}

/* A picture of grey lines alone has one byte a dot, one with colour three (PNG, ISO/IEC 15948, 11.2.2: colour type 0
 * and 2 behind the bit depth). */
static void colours_are_kept_where_there_are_any(void **state)
{
    (void)state;
    for (int coloured = 0; coloured < 2; coloured++) {
        lw_error err = {0};
        unsigned char *bytes = NULL;
        size_t length = 0;
        lw_canvas *canvas = lw_canvas_new(LW_PAPER_PNG, 50, 50, 100, "dots", &err);
        assert_non_null(canvas);
        lw_canvas_pen(canvas, 1.0, coloured ? (lw_ink){0.8, 0.2, 0.0} : lw_grey);
        lw_canvas_line(canvas, 10, 10, 40, 33);
        assert_true(lw_canvas_finish(canvas, &bytes, &length, &err));
        assert_memory_equal(bytes + 12, "IHDR", 4);
        assert_int_equal(bytes[24], 8);
        assert_int_equal(bytes[25], coloured ? 2 : 0);
        read_back(bytes, length, coloured);
        free(bytes);
    }
}

/* A line of 100 mm is 283.46 points long in the file: 72 points are an inch. */
static void lengths_are_true(void **state)
{
    (void)state;
    lw_error err = {0};
    unsigned char *bytes = NULL;
    size_t length = 0;
    lw_canvas *canvas = lw_canvas_new(LW_PAPER_SVG, 210, 297, 0, "scale", &err);
    assert_non_null(canvas);
    lw_canvas_line(canvas, 50, 100, 150, 100);
    assert_true(lw_canvas_finish(canvas, &bytes, &length, &err));
    char *text = calloc(length + 1, 1);
    assert_non_null(text);
    memcpy(text, bytes, length);
    const char *path = strstr(text, " d=\"M ");
    assert_non_null(path);
    char *rest = NULL;
    const double x0 = strtod(strstr(path, "M ") + 2, &rest), y0 = strtod(rest, &rest);
    assert_memory_equal(rest, " L ", 3);
    const double x1 = strtod(rest + 3, &rest), y1 = strtod(rest, NULL);
    const char *matrix = strstr(text, "matrix(");
    const double a = matrix ? strtod(matrix + strlen("matrix("), NULL) : 1.0;
    assert_true(fabs(y1 - y0) < 0.001);
    assert_true((x1 - x0) * a > 283.44 && (x1 - x0) * a < 283.48);
    free(text);
    free(bytes);
}

/* Letters are not fitted to the dots of a PNG: that would make lines longer and pages fuller than on paper. */
static void texts_are_alike_on_all_papers(void **state)
{
    static const char *const texts[] = {"buck driver with dusk switch", "ƙwaya faifan rana, kuɗin da yake ci",
                                        "Éléments essayés, à moitié chargés, dans une boîte en fer sèche"};
    (void)state;
    lw_error err = {0};
    for (size_t t = 0; t < sizeof texts / sizeof texts[0]; t++)
        for (double size_pt = 8.0; size_pt < 16.0; size_pt += 0.5) {
            double wide[3], high[3];
            for (int paper = LW_PAPER_PDF; paper <= LW_PAPER_PNG; paper++) {
                lw_canvas *canvas = lw_canvas_new((lw_paper)paper, 80, 80, 150, "t", &err);
                assert_non_null(canvas);
                lw_canvas_measure(canvas, (lw_type){.size_pt = size_pt}, texts[t], &wide[paper], &high[paper]);
                lw_canvas_drop(canvas);
            }
            for (int paper = LW_PAPER_SVG; paper <= LW_PAPER_PNG; paper++)
                if (fabs(wide[paper] / wide[0] - 1.0) > 0.001 || fabs(high[paper] / high[0] - 1.0) > 0.001)
                    fail_msg("\"%s\" of %.1f pt: %.3f x %.3f instead of %.3f x %.3f", texts[t], size_pt, wide[paper],
                             high[paper], wide[0], high[0]);
        }
}

static void impossible_papers_are_refused(void **state)
{
    (void)state;
    lw_error err = {0};
    assert_null(lw_canvas_new(LW_PAPER_PNG, 210, 297, 1e9, "x", &err));
    assert_string_equal(err.field, "png_dpi");
    err = (lw_error){0};
    assert_null(lw_canvas_new(LW_PAPER_PDF, -3, 297, 0, "x", &err));
    assert_string_equal(err.field, "width_mm");
    err = (lw_error){0};
    lw_canvas *canvas = lw_canvas_new(LW_PAPER_SVG, 50, 50, 0, "x", &err);
    static char long_text[4000];
    memset(long_text, 'Q', sizeof long_text - 1);
    assert_false(lw_canvas_qr(canvas, 0, 0, 20, long_text, &err));
    assert_false(lw_canvas_next_page(canvas, &err));
    lw_canvas_drop(canvas);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(all_papers_are_drawn),
        cmocka_unit_test(colours_are_kept_where_there_are_any),
        cmocka_unit_test(lengths_are_true),
        cmocka_unit_test(texts_are_alike_on_all_papers),
        cmocka_unit_test(impossible_papers_are_refused),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
