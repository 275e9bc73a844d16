/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A small line drawing for each step of building the lamp, without words, in a field of LW_STEP_WIDE x LW_STEP_HIGH mm
 * whose top left is (x, y). Full black lines of 0.4 mm and more, so that they outlive a bad copier.
 */
#ifndef LANEWICK_STEP_PICTURES_H
#define LANEWICK_STEP_PICTURES_H

#include "sheet_list.h"

enum { LW_STEP_WIDE = 56, LW_STEP_HIGH = 30 };

typedef void lw_step_picture(lw_canvas *c, double x, double y, const lw_sheet_input *input);

/* At the bench: step_bench.c. */
lw_step_picture lw_step_sort_cells, lw_step_build_pack, lw_step_build_head, lw_step_set_charger, lw_step_join,
    lw_step_first_light, lw_step_fill_sheet;
/* In the lane: step_field.c. */
lw_step_picture lw_step_look_up, lw_step_fix_parts, lw_step_turn_panel, lw_step_raise_mast, lw_step_connect_panel;

/* A step to tick with its picture at the right; picture and text stay together. */
void lw_sheet_step_with(lw_sheet *sheet, int number, const char *text, lw_step_picture *picture,
                        const lw_sheet_input *input);

/* Shapes that several pictures share: step_shapes.c. Middles, unless said otherwise. */
void lw_draw_cell(lw_canvas *c, double x, double y, double width, double height); /* top left; plus is up */
void lw_draw_meter(lw_canvas *c, double x, double y, const char *unit);           /* top left; 13 x 17 */
void lw_draw_charger(lw_canvas *c, double x, double y);                           /* top left; 14 x 10, a bolt on it */
void lw_draw_fuse(lw_canvas *c, double x, double y);                              /* 8 x 3, level */
void lw_draw_lamp(lw_canvas *c, double x, double y, double radius, bool lit);
void lw_draw_sun(lw_canvas *c, double x, double y, double radius);
void lw_draw_moon(lw_canvas *c, double x, double y, double radius);
void lw_draw_panel(lw_canvas *c, double x, double y, double wide, double high); /* top left, from the front */
void lw_draw_ground(lw_canvas *c, double x, double y, double width);            /* the line lies at y */
void lw_draw_person(lw_canvas *c, double x, double ground, double high, double reach);
void lw_draw_sign(lw_canvas *c, double x, double y, const char *sign); /* a letter or number in a ring */
void lw_draw_tick(lw_canvas *c, double x, double y);
void lw_draw_cross(lw_canvas *c, double x, double y, double half);

#endif
