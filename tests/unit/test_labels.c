/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Label grids: they lie on A4 (ISO 216), labels do not lie over each other, and plain paper gets the grid that leaves
 * no page nearly empty where another would not.
 */
#include "lanewick/labels.h"

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include <cmocka.h>

static void lie_on_the_paper(void **state)
{
    (void)state;
    for (size_t i = 0; i < lw_label_grid_count; i++) {
        const lw_label_grid *g = &lw_label_grids[i];
        char name[24];
        (void)snprintf(name, sizeof name, "%dx%d", g->across, g->down);
        assert_string_equal(g->name, name);
        assert_ptr_equal(lw_label_grid_find(name), g);
        assert_true(g->pitch_x_mm >= g->width_mm && g->pitch_y_mm >= g->height_mm);
        /* the page's own words have a rim of 15 mm above and below, or the last place */
        assert_true(g->tells_itself ? g->top_mm < 1.0 : g->top_mm > 15.0);
        assert_int_equal(lw_label_places(g), g->across * g->down - (g->tells_itself ? 1 : 0));
        /* the rims at left and right, and at top and bottom, are alike */
        const double right = 210.0 - g->left_mm - (g->across - 1) * g->pitch_x_mm - g->width_mm;
        const double bottom = 297.0 - g->top_mm - (g->down - 1) * g->pitch_y_mm - g->height_mm;
        assert_true(right > g->left_mm - 0.11 && right < g->left_mm + 0.11);
        assert_true(bottom > g->top_mm - 1.01 && bottom < g->top_mm + 1.01);
    }
    assert_null(lw_label_grid_find("5x5"));
    assert_null(lw_label_grid_find(""));
}

static void leave_no_page_nearly_empty(void **state)
{
    static const struct {
        size_t labels;
        const char *grid;
    } expected[] = {
        {0, "3x8"},    {1, "3x8"},  {23, "3x8"}, {24, "4x10"}, /* 23 + 1, or 24 on one page */
        {28, "4x10"},  {29, "3x8"}, {46, "3x8"},               /* 23 + 6: a quarter is enough */
        {49, "4x10"},                                          /* 23 + 23 + 3, or 39 + 10 */
        {48, "3x8"},                                           /* 23 + 23 + 2, or 39 + 9: no better */
        {118, "3x8"},                                          /* 5 x 23 + 3, or 3 x 39 + 1 */
        {141, "4x10"},                                         /* 6 x 23 + 3, or 3 x 39 + 24 */
    };
    (void)state;
    for (size_t i = 0; i < sizeof expected / sizeof expected[0]; i++)
        assert_string_equal(lw_label_grid_for(expected[i].labels)->name, expected[i].grid);
}

int main(void)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lie_on_the_paper),
        cmocka_unit_test(leave_no_page_nearly_empty),
    };
    return cmocka_run_group_tests(tests, NULL, NULL);
}
