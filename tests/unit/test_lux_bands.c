/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The scale of lux in pictures: even steps of lightness (CIE 1976 L*), each channel falls, so every colour vision and a
 * grey copy tell the bands apart; black numbers keep a contrast of 4.5 (WCAG 2.2, 1.4.3). The drawn bands are where the
 * light is.
 */
#include "read_png.h"
#include "sheet/lux_bands.h"

#include <math.h>
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>

static double linear(double c)
{
    return c <= 0.04045 ? c / 12.92 : pow((c + 0.055) / 1.055, 2.4);
}

static double luminance(lw_ink ink)
{
    return 0.2126 * linear(ink.red) + 0.7152 * linear(ink.green) + 0.0722 * linear(ink.blue);
}

static void bands_read_in_grey(void **state)
{
    (void)state;
    double steps[LW_LUX_BANDS - 1], mean = 0.0;
    for (int i = 0; i + 1 < LW_LUX_BANDS; i++) {
        const lw_ink a = lw_lux_band_ink(i), b = lw_lux_band_ink(i + 1);
        steps[i] = 116.0 * (cbrt(luminance(a)) - cbrt(luminance(b)));
        mean += steps[i] / (LW_LUX_BANDS - 1);
        assert_true(b.red < a.red && b.green < a.green && b.blue < a.blue);
        assert_true(lw_lux_band_lx(i + 1) > lw_lux_band_lx(i));
    }
    assert_true(mean > 4.0);
    for (int i = 0; i + 1 < LW_LUX_BANDS; i++)
        assert_true(fabs(steps[i] / mean - 1.0) < 0.25);
    assert_true((luminance(lw_lux_band_ink(LW_LUX_BANDS - 1)) + 0.05) / 0.05 > 4.5);
}

/* One globe of 360 cd, 6 m high, in the middle of 40 m by 40 m: E = 360 x 6/(36 + d^2)^1.5; 10 lx below it, 1 lx
 * at 11.4 m.
 */
static void bands_lie_where_the_light_is(void **state)
{
    (void)state;
    lw_error err = {0};
    const lw_lamp lamp = {
        .x_m = 20.0, .y_m = 20.0, .height_m = 6.0, .maintenance = 1.0, .beam = {.peak_cd = 360.0, .round = true}};
    const lw_ground_view view = {.scale = 2.0, .x = 10.0, .bottom = 90.0};
    const lw_ground_patch patch = {.cos_d = 1.0, .length_m = 40.0, .width_m = 40.0};
    lw_canvas *canvas = lw_canvas_new(LW_PAPER_PNG, 100, 100, 254, "bands", &err);
    assert_non_null(canvas);
    assert_true(lw_lux_bands(canvas, &view, &patch, &lamp, 1));
    unsigned char *bytes = NULL;
    size_t length = 0;
    assert_true(lw_canvas_finish(canvas, &bytes, &length, &err));
    cairo_surface_t *image = read_png(bytes, length);
    assert_int_equal(cairo_surface_status(image), CAIRO_STATUS_SUCCESS);
    const unsigned char *pixels = cairo_image_surface_get_data(image);
    const int row_bytes = cairo_image_surface_get_stride(image);
    for (double d = 0.5; d < 19.0; d += 1.0) {
        const double lux = 360.0 * 6.0 / pow(36.0 + d * d, 1.5), near_edge = 0.06;
        int band = 0;
        bool close = false;
        for (int i = 1; i < LW_LUX_BANDS; i++) {
            band = lux >= lw_lux_band_lx(i) ? i : band;
            close = close || fabs(lux / lw_lux_band_lx(i) - 1.0) < near_edge;
        }
        const lw_ink ink = lw_lux_band_ink(band);
        const int px = (int)(10.0 * (10.0 + 2.0 * (20.0 + d))), py = (int)(10.0 * (90.0 - 2.0 * 20.0));
        const unsigned char *pixel = pixels + (ptrdiff_t)py * row_bytes + (ptrdiff_t)px * 4;
        if (!close &&
            (abs(pixel[2] - (int)lround(255.0 * ink.red)) > 2 || abs(pixel[0] - (int)lround(255.0 * ink.blue)) > 2))
            fail_msg("%g m, %g lx: %d %d %d", d, lux, pixel[2], pixel[1], pixel[0]);
    }
    cairo_surface_destroy(image);
    free(bytes);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bands_read_in_grey),
        cmocka_unit_test(bands_lie_where_the_light_is),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
