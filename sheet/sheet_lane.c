/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The lane for those who dig: a plan of it with numbered masts, where each stands and looks, the light hour by hour.
 */
#include "sheet_list.h"

#include "lanewick/sheet_light.h"

#include <stdio.h>

static void picture(lw_sheet *sheet, const lw_plan *plan)
{
    const double most_mm = 118.0;
    const lw_lit_lane lane = {.field = &plan->brief.want.lane.ask.wish.field,
                              .lamps = plan->lane.lamp,
                              .lamp_count = plan->lane.chosen.layout.masts,
                              .plan_only = true};
    lw_sheet_need(sheet, most_mm);
    sheet->y +=
        lw_picture_lane(sheet->canvas, lw_sheet_left_mm, sheet->y, lw_sheet_width_mm, most_mm, &lane, sheet->words) +
        3.0;
}

static void values(lw_sheet *sheet, const lw_plan *plan)
{
    char text[160];
    const lw_lane_row *row = &plan->lane.chosen;
    lw_sheet_value(sheet, SAY("Masts"), lw_sheet_format(text, sizeof text, "%zu", row->layout.masts));
    lw_sheet_value(sheet, SAY("Light of one head, new"),
                   lw_sheet_format(text, sizeof text, "%.0f lm, %.1f W", row->layout.lumens_each, row->head_w));
    if (row->layout.spacing_m > 0.0)
        lw_sheet_value(sheet, SAY("From mast to mast, along the lane"),
                       lw_sheet_format(text, sizeof text, "%.1f m", row->layout.spacing_m));
}

static void places(lw_sheet *sheet, const lw_plan_lane *lane)
{
    static const lw_sheet_table table = {
        .columns = 6, .width_mm = {26, 32, 30, 32, 27, 27}, .right = {false, true, true, true, true, true}};
    const char *head[] = {SAY("mast"),   SAY("along"), SAY("across"), SAY("height of light"),
                          SAY("tilted"), SAY("turned")};
    lw_sheet_heading(sheet, SAY("Where each mast stands"));
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < lane->chosen.layout.masts; i++) {
        const lw_lamp *lamp = &lane->lamp[i];
        char number[16], along[24], across[24], up[24], tilt[24], turn[24];
        const char *row[] = {lw_sheet_format(number, sizeof number, "%zu", i + 1),
                             lw_sheet_format(along, sizeof along, "%.1f m", lamp->x_m),
                             lw_sheet_format(across, sizeof across, "%.1f m", lamp->y_m),
                             lw_sheet_format(up, sizeof up, "%.2f m", lamp->height_m),
                             lw_sheet_format(tilt, sizeof tilt, "%.0f°", lamp->tilt_deg),
                             lw_sheet_format(turn, sizeof turn, "%.0f°", lamp->turn_deg)};
        lw_sheet_row(sheet, &table, false, row);
    }
    lw_sheet_gap(sheet, 2.0);
    lw_sheet_text(
        sheet,
        SAY("Along: from the beginning of the lane. Across: from its right-hand edge to the left, below 0 beside "
            "the lane. A bent lane or a square is measured from the corner and along the axes of the brief."));
    lw_sheet_text(sheet,
                  SAY("Tilted: how far the lane's side of the head looks up from level. Turned: where that side looks; "
                      "0° is along the lane, 90° across it to the left, -90° to the right. The short line at each mast "
                      "of the plan points there."));
}

static void hours(lw_sheet *sheet, const lw_plan *plan)
{
    static const lw_sheet_table table = {
        .columns = 5, .width_mm = {34, 40, 30, 35, 35}, .right = {false, true, true, true, true}};
    const lw_plan_lane *lane = &plan->lane;
    const char *head[] = {SAY("hour"), SAY("nights dark then"), SAY("light"), SAY("average"), SAY("darkest")};
    char text[240];
    lw_sheet_heading(sheet, SAY("The light hour by hour"));
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < lane->hour_count; i++) {
        const lw_lane_hour *h = &lane->hour[i];
        char clock[24], dark[24], level[24], average[24], least[24];
        const char *row[] = {
            lw_sheet_format(clock, sizeof clock, "%02d:00–%02d:00", h->hour, (h->hour + 1) % 24),
            lw_sheet_format(dark, sizeof dark, "%.0f %%", 100.0 * h->dark_share),
            lw_sheet_format(level, sizeof level, "%.0f %%", 100.0 * h->level),
            lw_sheet_format(average, sizeof average, "%.2f lx", h->average_lx),
            lw_sheet_format(least, sizeof least, "%.2f lx", h->minimum_lx),
        };
        lw_sheet_row(sheet, &table, false, row);
    }
    lw_sheet_gap(sheet, 2.0);
    lw_sheet_text(sheet, lw_sheet_format(text, sizeof text,
                                         SAY("Local clock; on the ground, after %g years with dirty heads, mean of the "
                                             "nights that are dark in that hour."),
                                         plan->brief.want.planned_years));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_plan *plan = ((const lw_sheet_input *)payload)->plan;
    char text[300];
    lw_sheet_caution(sheet, lw_sheet_look_up(sheet, lw_sheet_raising_of(plan).line_m, text, sizeof text));
    picture(sheet, plan);
    values(sheet, plan);
    places(sheet, &plan->lane);
    hours(sheet, plan);
}

static bool wanted(const lw_sheet_input *input)
{
    return input->plan->lane.given;
}

const lw_sheet_kind lw_sheet_lane = {
    .name = "lane",
    .group = "mast",
    .title = "Masts on the lane",
    .wanted = wanted,
    .draw = draw,
};
