/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Paper forms for keepers without a phone: the round along the lamps, and what was repaired.
 */
#include "sheet_list.h"

#include <stdio.h>

static void round_form(lw_sheet *sheet, const lw_plan *plan)
{
    static const lw_sheet_table table = {.columns = 7, .width_mm = {33, 26, 24, 24, 23, 22, 22}};
    const char *head[] = {SAY("lamp"),         SAY("lit now?"),   SAY("volts at dusk"), SAY("volts at dawn"),
                          SAY("panel clean?"), SAY("mast firm?"), SAY("bottle clear?")};
    char code[16], label[64];
    lw_plan_code(plan, code);
    lw_sheet_row(sheet, &table, true, head);
    for (size_t k = 0; k < plan->kind_count; k++)
        for (int i = 1; i <= plan->kind[k].count; i++) {
            (void)snprintf(label, sizeof label, "L-%s-%zu%02d", code, k + 1, i);
            const char *row[] = {label, SAY("yes  no"), NULL, NULL, SAY("yes  no"), SAY("yes  no"), SAY("yes  no")};
            lw_sheet_row(sheet, &table, false, row);
        }
}

/* The volts to expect, by kind of lamp, and what to do outside of them. */
static void volts(lw_sheet *sheet, const lw_sheet_input *input)
{
    char code[16], text[240];
    lw_plan_code(input->plan, code);
    for (size_t k = 0; k < input->plan->kind_count; k++) {
        const lw_pack_rest rest = lw_pack_rest_of(&input->plan->brief, &input->plan->kind[k]);
        lw_sheet_text(
            sheet, lw_sheet_format(text, sizeof text,
                                   SAY("L-%s-%zu..: dusk, before the lamp lights, %.1f–%.1f V; dawn %.1f–%.1f V."),
                                   code, k + 1, rest.dusk_low_v, rest.dusk_high_v, rest.dawn_low_v, rest.dawn_high_v));
    }
    lw_sheet_text(sheet,
                  SAY("Below: clean the panel. Still below after three sunny days, or above: call the workshop."));
}

/* To the foot of the page; on the next one where little is left of this. */
static void repairs(lw_sheet *sheet)
{
    static const lw_sheet_table table = {.columns = 5, .width_mm = {26, 32, 50, 40, 26}};
    const double row_mm = 9.0, least_mm = 70.0;
    const char *head[] = {SAY("date"), SAY("lamp"), SAY("what was wrong"), SAY("what was done"), SAY("by whom")};
    const char *row[] = {" ", NULL, NULL, NULL, NULL};
    lw_sheet_need(sheet, least_mm);
    lw_sheet_heading(sheet, SAY("Repairs"));
    lw_sheet_caution(
        sheet,
        SAY("Do not open the pack box alone or in rain. If anything is hot, swollen or smells, keep away and call "
            "the workshop."));
    lw_sheet_row(sheet, &table, true, head);
    while (sheet->y + row_mm < lw_sheet_bottom_mm)
        lw_sheet_row(sheet, &table, false, row);
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    lw_sheet_value(sheet, SAY("Keeper"), "____________________________");
    lw_sheet_value(sheet, SAY("Date of this round"), "____________________________");
    lw_sheet_gap(sheet, 2.0);
    lw_sheet_text(
        sheet, SAY("Walk once a month, at dusk. Circle yes or no. Volts only if you have a meter and were shown how."));
    round_form(sheet, input->plan);
    lw_sheet_gap(sheet, 2.0);
    volts(sheet, input);
    repairs(sheet);
}

const lw_sheet_kind lw_sheet_rounds = {
    .name = "rounds",
    .group = "handover",
    .title = "Round and repairs",
    .draw = draw,
};
