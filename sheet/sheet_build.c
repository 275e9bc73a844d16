/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Building the lamp in order, a picture beside each step, with the lamp's portrait and the box.
 */
#include "step_pictures.h"

#include <stdio.h>

/* The box from the side: vent holes low and high with mesh, pack on the floor, charger above, cable through a gland. */
static void box_picture(lw_sheet *sheet)
{
    const double height = 62.0;
    lw_sheet_need(sheet, height);
    lw_canvas *c = sheet->canvas;
    const double x = lw_sheet_left_mm + 6.0, y = sheet->y + 4.0;
    lw_canvas_pen(c, 0.8, lw_black);
    lw_canvas_box(c, x, y, 60.0, 48.0);
    lw_canvas_line(c, x - 4.0, y - 2.0, x + 64.0, y - 2.0); /* lid that throws rain off */
    lw_canvas_pen(c, 0.4, lw_black);
    lw_canvas_box(c, x + 5.0, y + 29.0, 50.0, 15.0);
    lw_canvas_box(c, x + 5.0, y + 9.0, 22.0, 13.0);
    lw_canvas_box(c, x + 33.0, y + 9.0, 22.0, 13.0);
    lw_canvas_hatch(c, x - 0.8, y + 3.0, 1.6, 7.0, 0.9);
    lw_canvas_hatch(c, x + 59.2, y + 36.0, 1.6, 7.0, 0.9);
    lw_canvas_line(c, x + 44.0, y + 48.0, x + 44.0, y + 53.0);
    const lw_type type = {.size_pt = 10, .align = LW_ALIGN_CENTRE, .width_mm = 48.0};
    const lw_type small = {.size_pt = 9, .align = LW_ALIGN_CENTRE, .width_mm = 21.0};
    (void)lw_canvas_text(c, x + 30.0, y + 34.0, type, SAY("pack, held by a strap, not by glue"));
    (void)lw_canvas_text(c, x + 16.0, y + 11.0, small, SAY("charger"));
    (void)lw_canvas_text(c, x + 44.0, y + 11.0, small, SAY("driver, switch"));
    const double tx = lw_sheet_left_mm + 84.0;
    const lw_type side = {.size_pt = 10.5, .width_mm = 90.0};
    double ty = y;
    ty += lw_canvas_text(
              c, tx, ty, side,
              SAY("Two vents with insect mesh: one low, one high on the other side. A sealed box is refused: a "
                  "cell that fails must be able to breathe out.")) +
          2.0;
    ty += lw_canvas_text(c, tx, ty, side,
                         SAY("Metal or flame-retardant plastic, light grey or white. Cables come in from below.")) +
          2.0;
    (void)lw_canvas_text(c, tx, ty, side,
                         SAY("The vent does not face people. The box never hangs in a room where people sleep."));
    sheet->y += height;
}

static void bench_steps(lw_sheet *sheet, const lw_sheet_input *input, int *n)
{
    lw_sheet_heading(sheet, SAY("At the bench"));
    lw_sheet_step_with(sheet, ++*n,
                       SAY("Test and sort the cells (sheet Jigs). Use only cells judged sound for this pack."),
                       lw_step_sort_cells, input);
    lw_sheet_step_with(
        sheet, ++*n,
        SAY("Set the charger (sheet Charging unit) and measure it with no pack: it must stop at the voltage "
            "of the test sheet."),
        lw_step_set_charger, input);
    lw_sheet_step_with(sheet, ++*n,
                       SAY("Build the pack (sheet The pack): groups joined half full, then the fuse, then sense wires "
                           "and protection board."),
                       lw_step_build_pack, input);
    lw_sheet_need(sheet, 52.0); /* the caution stands with its step */
    lw_sheet_caution(sheet, SAY("Soldering iron 350 degrees: burns. Do not look into lit LEDs."));
    lw_sheet_step_with(
        sheet, ++*n,
        SAY("Build the head (sheet Head board): LEDs on the board, metal back free to the air, 2 cm between "
            "board and bottle."),
        lw_step_build_head, input);
    lw_sheet_step_with(
        sheet, ++*n,
        SAY("Join in this order (sheet Wiring): head, driver, pack (with its fuse pulled), charger. Check "
            "plus and minus at each."),
        lw_step_join, input);
    lw_sheet_step_with(sheet, ++*n, SAY("Put the fuse in. Cover the sensor: the lamp lights."), lw_step_first_light,
                       input);
    lw_sheet_step_with(sheet, ++*n,
                       SAY("Fill in the test sheet, by day and by night, before the lamp leaves the bench."),
                       lw_step_fill_sheet, input);
}

static void field_steps(lw_sheet *sheet, const lw_sheet_input *input, int *n)
{
    char side[120];
    lw_sheet_need(sheet, 80.0); /* the caution stands with the first step */
    lw_sheet_heading(sheet, SAY("In the lane"));
    lw_sheet_caution(
        sheet,
        input->kind->mast.checked
            ? SAY("The mast and its base are on the sheet Mast and base. Build nothing else for this wind.")
            : SAY("No mast was checked by this plan. A mast that falls can kill: have wind, pipe and base checked "
                  "(lanewick mast); a licensed engineer decides where local rules ask for it."));
    const lw_plan_mast *mast = &input->kind->mast;
    char text[500];
    lw_sheet_step_with(sheet, ++*n,
                       lw_sheet_look_up(sheet, mast->checked ? mast->result.line_clear_m : 0.0, text, sizeof text),
                       lw_step_look_up, input);
    lw_sheet_step_with(sheet, ++*n, SAY("Fix panel, head and box to the mast on the ground, with bolts and lock nuts."),
                       lw_step_fix_parts, input);
    lw_sheet_step_with(
        sheet, ++*n,
        lw_sheet_format(
            text, sizeof text,
            SAY("Turn the panel to the side of the plan: %s, tilted %.0f degrees. Nothing shades it between "
                "nine and three o'clock."),
            lw_sheet_facing(sheet, input->plan->facing_deg, side, sizeof side), input->plan->tilt_deg),
        lw_step_turn_panel, input);
    lw_sheet_need(sheet, 56.0); /* the caution stands with its step */
    lw_sheet_raise_caution(sheet);
    lw_sheet_step_with(sheet, ++*n, lw_sheet_raise_text(sheet, mast, text, sizeof text), lw_step_raise_mast, input);
    lw_sheet_step_with(sheet, ++*n, SAY("Connect the panel last. Stay until the lamp has lit by itself at dusk."),
                       lw_step_connect_panel, input);
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    int n = 0;
    lw_sheet_portrait(sheet, input->plan, input->kind, 80.0);
    bench_steps(sheet, input, &n);
    lw_sheet_need(sheet, 78.0);
    lw_sheet_heading(sheet, SAY("The box"));
    box_picture(sheet);
    field_steps(sheet, input, &n);
}

const lw_sheet_kind lw_sheet_build = {
    .name = "build",
    .group = "bench",
    .title = "Building the lamp",
    .each_kind = true,
    .draw = draw,
};
