/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The keeper's calendar: what to do in which month, and the round form to fill in.
 */
#include "sheet_list.h"

#include <stdio.h>

/* Months in which the lamp is nearest to going dark: those with the most dark nights, at least one. */
static void weak_months(const lw_plan *plan, bool weak[LW_MONTHS])
{
    double sum[LW_MONTHS] = {0}, most = 0.0;
    for (size_t i = 0; i < plan->kind_count; i++)
        for (int m = 0; m < LW_MONTHS; m++)
            sum[m] += plan->kind[i].outcome.by_month[m] * plan->kind[i].count;
    for (int m = 0; m < LW_MONTHS; m++)
        most = sum[m] > most ? sum[m] : most;
    for (int m = 0; m < LW_MONTHS; m++)
        weak[m] = most > 0.0 && sum[m] >= 0.5 * most;
}

static void months(lw_sheet *sheet, const lw_plan *plan)
{
    static const lw_sheet_table table = {.columns = 4, .width_mm = {26, 102, 26, 20}};
    const char *names[LW_MONTHS] = {SAY("January"),   SAY("February"), SAY("March"),    SAY("April"),
                                    SAY("May"),       SAY("June"),     SAY("July"),     SAY("August"),
                                    SAY("September"), SAY("October"),  SAY("November"), SAY("December")};
    const char *head[] = {SAY("month"), SAY("what to do"), SAY("done by"), SAY("date")};
    bool weak[LW_MONTHS];
    weak_months(plan, weak);
    lw_sheet_row(sheet, &table, true, head);
    const int every = plan->brief.place.dust_cleaned_days > 0 ? plan->brief.place.dust_cleaned_days : 60;
    const int step = every < 45 ? 1 : every / 30;
    for (int m = 0; m < LW_MONTHS; m++) {
        const bool wipe = m % step == 0;
        const char *what = weak[m] ? SAY("Wipe the panel. Weak month: look every week.")
                           : wipe  ? SAY("Wipe panel and bottle. Walk the round.")
                                   : SAY("Walk the round.");
        const char *row[] = {names[m], what, NULL, NULL};
        lw_sheet_row(sheet, &table, false, row);
    }
}

static void lowering(lw_sheet *sheet, int people)
{
    char text[240];
    lw_sheet_caution(
        sheet, people > 0
                   ? lw_sheet_format(text, sizeof text,
                                     SAY("Never climb the mast. Lower it as it was raised: %d people at the pole, "
                                         "two more at ropes, nobody below, far from overhead lines."),
                                     people)
                   : SAY("Never climb the mast. Lower it with as many people as raised it, nobody below, far "
                         "from overhead lines."));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    lw_sheet_text(
        sheet,
        SAY("Wipe with water and a soft cloth, early in the morning when the glass is cool. A clean panel is worth "
            "more than a larger one."));
    months(sheet, input->plan);
    lw_sheet_heading(sheet, SAY("Once a year"));
    int n = 0;
    lw_sheet_step(sheet, ++n, SAY("Shake the mast by hand: nothing moves at the ground, nothing rattles at the top."));
    lw_sheet_step(
        sheet, ++n,
        SAY("Look at bolts, straps and glue for rust, cracks and play. Hot glue alone must hold nothing overhead."));
    lw_sheet_step(sheet, ++n, SAY("Open the box: dry, no insects, vent and mesh clean. Feel the pack: cool."));
    lw_sheet_step(sheet, ++n,
                  SAY("Measure each group of the pack at dusk after a sunny day. Groups differ by less than 0.05 V."));
    lw_sheet_step(sheet, ++n, SAY("Change the bottle when it is yellow, cracked or dusty inside."));
    lw_sheet_caution(
        sheet, SAY("A pack that is hot, swollen or smells: switch off, take the lamp down, carry the pack outside away "
                   "from people and call the workshop. Do not open it."));
    lowering(sheet, lw_sheet_raising_of(input->plan).people);
}

const lw_sheet_kind lw_sheet_calendar = {
    .name = "calendar",
    .group = "handover",
    .title = "The keeper's year",
    .draw = draw,
};
