/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The handover sheet: large type, for the people who live with the lamp.
 */
#include "sheet_list.h"

#include <stdio.h>

static void large(lw_sheet *sheet, const char *text)
{
    const lw_type type = {.size_pt = 15, .width_mm = lw_sheet_width_mm};
    double width = 0.0, height = 0.0;
    lw_canvas_measure(sheet->canvas, type, text, &width, &height);
    lw_sheet_need(sheet, height + 3.0);
    sheet->y += lw_canvas_text(sheet->canvas, lw_sheet_left_mm, sheet->y, type, text) + 3.5;
}

static void promise(lw_sheet *sheet, const lw_plan *plan)
{
    double dark = 0.0, high = 0.0;
    char text[300];
    for (size_t i = 0; i < plan->kind_count; i++) {
        dark = plan->kind[i].outcome.dark.mean > dark ? plan->kind[i].outcome.dark.mean : dark;
        high = plan->kind[i].outcome.dark.high > high ? plan->kind[i].outcome.dark.high : high;
    }
    large(sheet, lw_sheet_format(
                     text, sizeof text,
                     SAY("On about %.0f of the year's nights it fails, in a bad year on up to %.0f, mostly after many "
                         "cloudy days. It comes back by itself."),
                     dark < 1.0 ? 1.0 : dark, high < 1.0 ? 1.0 : high));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    lw_sheet_not_built(sheet, input->plan);
    if (input->plan->kind_count)
        lw_sheet_portrait(sheet, input->plan, &input->plan->kind[0], 64.0);
    large(sheet, SAY("The lamp lights and goes out by itself, every night at these hours:"));
    sheet->text_pt = 13.0;
    lw_sheet_hours(sheet, input->plan);
    const bool feeds = lw_sheet_loads(sheet, input->plan) > 0;
    sheet->text_pt = 0.0;
    lw_sheet_gap(sheet, 2.0);
    promise(sheet, input->plan);
    large(sheet,
          SAY("Do: wipe the panel. Cut branches that shade it. Tell the keeper when a lamp is dark three nights."));
    large(sheet, feeds ? SAY("Do not: climb the mast, tie animals or lines to it, take power for anything else than "
                             "is named here or at other hours, open the box.")
                       : SAY("Do not: climb the mast, tie animals or lines to it, take power for other things, open "
                             "the box."));
    lw_sheet_caution(
        sheet,
        SAY("If the box is hot, smokes or smells sweet: go away from it, keep children away, throw sand on flames, "
            "no water into the box, call the keeper and the workshop."));
    lw_sheet_heading(sheet, SAY("Who to call"));
    lw_sheet_value(sheet, SAY("Keeper"), "____________________________");
    lw_sheet_value(sheet, SAY("Workshop"), "____________________________");
    lw_sheet_value(sheet, SAY("Handed over on"), "____________________________");
    lw_sheet_value(sheet, SAY("Signed for the community"), "____________________________");
}

const lw_sheet_kind lw_sheet_handover = {
    .name = "handover",
    .group = "handover",
    .title = "Your lamp",
    .draw = draw,
};
