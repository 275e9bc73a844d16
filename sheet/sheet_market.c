/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The shopping list: what to take from the shelf and the market for all lamps, prices, and the cost of a lit night.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>

static void parts(lw_sheet *sheet, const lw_plan *plan)
{
    static const lw_sheet_table table = {
        .columns = 5, .width_mm = {22, 72, 28, 30, 22}, .right = {true, false, true, true, false}};
    const char *head[] = {SAY("count"), SAY("part"), SAY("each"), SAY("together"), SAY("got it")};
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < plan->part_count; i++) {
        const lw_plan_part *part = &plan->part[i];
        char count[16], each[48], together[48];
        (void)snprintf(count, sizeof count, "%d", part->count);
        const char *row[] = {
            count, part->name, lw_money_text(&plan->brief.shelf.currency, part->price_minor, each, sizeof each),
            lw_money_text(&plan->brief.shelf.currency, part->cost_minor, together, sizeof together), "  □"};
        lw_sheet_row(sheet, &table, false, row);
    }
}

static void sums(lw_sheet *sheet, const lw_plan *plan)
{
    char text[64];
    int lamps = 0;
    double lit = 0.0;
    for (size_t i = 0; i < plan->kind_count; i++) {
        lamps += plan->kind[i].count;
        lit += plan->kind[i].count * (365.25 - plan->kind[i].outcome.dark.mean) * plan->brief.want.planned_years;
    }
    const lw_currency *currency = &plan->brief.shelf.currency;
    lw_sheet_value(sheet, SAY("All lamps together"), lw_money_text(currency, plan->cost_minor, text, sizeof text));
    if (lamps)
        lw_sheet_value(sheet, SAY("One lamp, on average"),
                       lw_money_text(currency, (plan->cost_minor + lamps / 2) / lamps, text, sizeof text));
    if (lit > 0.0) {
        const double each = lw_money_number(currency, plan->cost_minor) / lit;
        lw_sheet_value(sheet, SAY("One lit night of one lamp"),
                       lw_sheet_format(text, sizeof text, each < 10.0 ? "%s %.2f" : "%s %.0f", currency->text, each));
    }
}

static void spares(lw_sheet *sheet, const lw_plan *plan)
{
    char text[200];
    int lamps = 0, cells = 0;
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        lamps += kind->count;
        cells += kind->count * kind->design.series * kind->design.parallel;
    }
    lw_sheet_heading(sheet, SAY("Spares to keep for the planned years (common practice)"));
    lw_sheet_value(sheet, SAY("Tested cells, charged to half, in a dry tin"),
                   lw_sheet_format(text, sizeof text, "%d", (int)ceil(0.1 * cells)));
    lw_sheet_value(sheet, SAY("Chargers, drivers, protection boards, each"),
                   lw_sheet_format(text, sizeof text, "%d", (int)ceil(lamps / 6.0)));
    lw_sheet_value(sheet, SAY("Fuses of the same rating and kind"),
                   lw_sheet_format(text, sizeof text, "%d", 2 * lamps));
    lw_sheet_value(sheet, SAY("Bottles for the head, one a lamp and year"),
                   lw_sheet_format(text, sizeof text, "%.0f", lamps * plan->brief.want.planned_years));
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    lw_sheet_text(
        sheet,
        SAY("Take from the shelf what is there; buy the rest. Look at the label of every panel: open volts above "
            "those planned can kill the charger."));
    parts(sheet, input->plan);
    lw_sheet_gap(sheet, 4.0);
    sums(sheet, input->plan);
    spares(sheet, input->plan);
    lw_sheet_caution(
        sheet, SAY("Do not buy cells that are swollen, dented, rusty, wet or smell sweet, and none found below 2.0 V. "
                   "Carry cells with taped ends, never loose in a bag."));
}

const lw_sheet_kind lw_sheet_market = {
    .name = "market",
    .group = "market",
    .title = "Shopping list",
    .draw = draw,
};
