/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Pictures of the steps in the lane: see step_pictures.h.
 */
#include "step_pictures.h"

#include "lanewick/units.h"

#include <math.h>

/* The mast in its circle: no line in it, no pipe under it. Not checked: twice its height h. */
void lw_step_look_up(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    char far[24] = "> 2 h";
    const bool checked = input->kind->mast.checked;
    if (checked)
        (void)lw_sheet_format(far, sizeof far, "> %.1f m", input->kind->mast.result.line_clear_m);
    lw_draw_ground(c, x, y + 21.0, 56.0);
    lw_canvas_pen(c, 1.0, lw_black);
    lw_canvas_line(c, x + 12.0, y + 7.0, x + 12.0, y + 25.0);
    lw_draw_panel(c, x + 8.0, y + 3.0, 8.0, 4.0);
    lw_canvas_pen(c, 0.7, lw_black); /* two posts with a line between them, far off */
    lw_canvas_line(c, x + 43.0, y + 1.0, x + 43.0, y + 21.0);
    lw_canvas_line(c, x + 39.0, y + 3.0, x + 47.0, y + 3.0);
    lw_canvas_line(c, x + 47.0, y + 3.0, x + 56.0, y + 4.0);
    lw_canvas_line(c, x + 39.0, y + 3.0, x + 35.0, y + 3.6);
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_arrow(c, x + 27.0, y + 13.0, x + 13.0, y + 13.0, 2.0);
    lw_canvas_arrow(c, x + 27.0, y + 13.0, x + 42.0, y + 13.0, 2.0);
    (void)lw_canvas_text(c, x + 27.5, y + 8.0, (lw_type){.size_pt = 10, .bold = true, .align = LW_ALIGN_CENTRE}, far);
    if (!checked) {
        lw_canvas_arrow(c, x + 3.0, y + 13.0, x + 3.0, y + 3.5, 1.8);
        lw_canvas_arrow(c, x + 3.0, y + 13.0, x + 3.0, y + 20.5, 1.8);
        (void)lw_canvas_text(c, x + 6.0, y + 10.0, (lw_type){.size_pt = 10, .bold = true, .align = LW_ALIGN_CENTRE},
                             "h");
    }
    lw_canvas_pen(c, 0.6, lw_black); /* a pipe in the ground */
    lw_canvas_circle(c, x + 12.0, y + 27.2, 1.8);
    lw_draw_cross(c, x + 19.0, y + 27.2, 1.8);
}

/* The mast lies on two trestles; straps hold panel, head and box. */
void lw_step_fix_parts(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    static const double strap_x[] = {11.0, 16.0, 28.5, 33.5};
    (void)input;
    lw_draw_ground(c, x, y + 27.0, 56.0);
    lw_canvas_pen(c, 0.7, lw_black);
    for (int i = 0; i < 2; i++) {
        const double at = x + 7.0 + 36.0 * i;
        lw_canvas_line(c, at, y + 18.5, at - 3.0, y + 27.0);
        lw_canvas_line(c, at, y + 18.5, at + 3.0, y + 27.0);
    }
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_box(c, x + 1.0, y + 15.5, 52.0, 3.0);
    lw_draw_panel(c, x + 8.0, y + 5.0, 11.0, 9.0);
    lw_canvas_pen(c, 0.6, lw_black);
    lw_canvas_box(c, x + 27.0, y + 6.5, 8.0, 8.0);
    lw_canvas_line(c, x + 22.5, y + 18.5, x + 22.5, y + 22.0);
    lw_draw_lamp(c, x + 22.5, y + 25.0 - 1.5, 1.8, false);
    for (int i = 0; i < 4; i++) {
        lw_canvas_pen(c, 1.1, lw_black);
        lw_canvas_line(c, x + strap_x[i], y + 13.0, x + strap_x[i], y + 20.0);
        lw_canvas_disc(c, x + strap_x[i], y + 20.4, 1.0, lw_black);
    }
}

/* The sun's way over the panel from nine to three; the panel at the plan's tilt; what would shade it is away. */
void lw_step_turn_panel(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    static const char *const hour[] = {"9", "12", "15"};
    const double middle = x + 28.0, foot = y + 28.0;
    const double tilt = input->plan->tilt_deg * lw_radian_per_degree;
    for (int i = 0; i < 3; i++) {
        const double a = (150.0 - 60.0 * i) * lw_radian_per_degree;
        const double sx = middle + 22.0 * cos(a), sy = foot - 5.0 - 19.0 * sin(a);
        lw_draw_sun(c, sx, sy, 1.9);
        (void)lw_canvas_text(c,
                             sx + (i == 1   ? 6.5
                                   : i == 0 ? -1.0
                                            : 1.0),
                             sy + (i == 1 ? -2.5 : 3.8),
                             (lw_type){.size_pt = 10, .bold = true, .align = LW_ALIGN_CENTRE}, hour[i]);
        lw_canvas_pen(c, 0.4, lw_black);
        lw_canvas_arrow(c, sx + 0.26 * (middle - sx), sy + 0.26 * (foot - 8.0 - sy), sx + 0.62 * (middle - sx),
                        sy + 0.62 * (foot - 8.0 - sy), 1.8);
    }
    lw_draw_ground(c, x + 8.0, foot, 40.0);
    lw_canvas_pen(c, 0.8, lw_black);
    lw_canvas_line(c, middle, foot, middle, foot - 6.0);
    lw_canvas_pen(c, 1.6, lw_black);
    lw_canvas_line(c, middle - 6.0 * cos(tilt), foot - 6.0 + 6.0 * sin(tilt) * 0.5, middle + 6.0 * cos(tilt),
                   foot - 6.0 - 6.0 * sin(tilt) * 0.5);
}

/* The mast goes up on its foot: so many push, two hold ropes on both sides, nobody stands where it would fall. */
void lw_step_raise_mast(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    const lw_plan_mast *mast = &input->kind->mast;
    char people[16];
    const double ground = y + 22.0, foot = x + 30.0, top_x = x + 19.0, top_y = y + 2.0;
    lw_draw_ground(c, x, ground, 56.0);
    lw_canvas_disc(c, foot, ground + 3.0, 0.1, lw_black);
    lw_canvas_fill_box(c, foot - 3.5, ground + 0.2, 7.0, 6.8, lw_white);
    lw_canvas_pen(c, 0.7, lw_black);
    lw_canvas_box(c, foot - 3.5, ground, 7.0, 7.0);
    lw_canvas_hatch(c, foot - 3.5, ground, 7.0, 7.0, 2.2);
    lw_canvas_pen(c, 1.4, lw_black);
    lw_canvas_line(c, foot, ground + 6.0, foot, ground);
    lw_canvas_line(c, foot, ground, top_x, top_y);
    lw_draw_person(c, x + 17.5, ground, 11.0, 5.4);
    lw_draw_person(c, x + 51.0, ground, 11.0, -3.0);
    lw_draw_person(c, x + 4.0, ground, 11.0, 2.6);
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_line(c, top_x + 1.0, top_y + 2.0, x + 48.0, ground - 10.2);
    lw_canvas_line(c, top_x + 1.0, top_y + 2.0, x + 6.6, ground - 10.2);
    lw_canvas_arrow(c, top_x + 4.0, top_y - 1.0, top_x + 12.0, top_y - 1.0, 2.2);
    const lw_type small = {.size_pt = 10, .bold = true};
    if (mast->checked)
        (void)lw_canvas_text(c, x + 14.0, ground + 2.6, small,
                             lw_sheet_format(people, sizeof people, "× %d", mast->result.raising.people));
    if (!mast->checked || mast->wish.base == LW_BASE_COLLAR) /* concrete sets */
        (void)lw_canvas_text(c, foot + 6.0, ground + 2.2, small, "7 × 24 h");
}

/* The panel's plug goes to the charger; at dusk the lamp lights by itself. */
void lw_step_connect_panel(lw_canvas *c, double x, double y, const lw_sheet_input *input)
{
    (void)input;
    lw_draw_panel(c, x + 1.0, y + 1.0, 14.0, 9.0);
    lw_draw_charger(c, x + 1.0, y + 19.0);
    lw_canvas_pen(c, 0.7, lw_black);
    lw_canvas_line(c, x + 8.0, y + 10.0, x + 8.0, y + 12.0);
    lw_canvas_fill_box(c, x + 6.0, y + 12.0, 4.0, 2.0, lw_black);
    lw_canvas_arrow(c, x + 8.0, y + 14.0, x + 8.0, y + 18.4, 1.8);
    lw_canvas_pen(c, 0.5, lw_black);
    lw_canvas_arrow(c, x + 19.0, y + 14.0, x + 26.0, y + 14.0, 2.2);
    lw_draw_ground(c, x + 28.0, y + 27.0, 28.0);
    lw_canvas_pen(c, 1.2, lw_black);
    lw_canvas_line(c, x + 36.0, y + 27.0, x + 36.0, y + 4.0);
    lw_canvas_line(c, x + 36.0, y + 4.0, x + 42.0, y + 4.0);
    lw_draw_lamp(c, x + 42.0, y + 9.0, 2.8, true);
    lw_draw_moon(c, x + 52.0, y + 5.0, 3.0);
    lw_draw_person(c, x + 50.0, y + 27.0, 10.0, -2.0);
}
