/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The summary for the people who pay: what is built, how sure the light is, what it costs.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *nights_text(char *out, size_t size, const lw_dark_band *dark)
{
    return lw_sheet_format(out, size, dark->mean < 9.95 ? "%.1f (%.0f–%.0f)" : "%.0f (%.0f–%.0f)", dark->mean,
                           dark->low, dark->high);
}

/* Count x price of one = together in every row, and the rows add up to all lamps. */
static void lamps(lw_sheet *sheet, const lw_sheet_input *input)
{
    static const lw_sheet_table table = {
        .columns = 6, .width_mm = {27, 19, 44, 28, 28, 28}, .right = {false, true, false, true, true, true}};
    const lw_plan *plan = input->plan;
    const lw_bill *bill = input->bill;
    const lw_currency *currency = &plan->brief.shelf.currency;
    char each_head[60], sum_head[60], count[16], design[200], nights[60], each[60], sum[60], name[LW_NAME + 16];
    const char *head[] = {SAY("lamp"),
                          SAY("count"),
                          SAY("panel and pack"),
                          SAY("dark nights a year"),
                          lw_sheet_format(each_head, sizeof each_head, SAY("price of one (%s)"), currency->text),
                          lw_sheet_format(sum_head, sizeof sum_head, SAY("together (%s)"), currency->text)};
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        const char *row[] = {lw_sheet_kind_name(sheet, plan, i, name, sizeof name),
                             lw_sheet_format(count, sizeof count, "%d", kind->count),
                             lw_sheet_design(sheet, &plan->brief.shelf, &kind->design, design, sizeof design),
                             nights_text(nights, sizeof nights, &kind->outcome.dark),
                             lw_money_digits(currency, kind->cost_minor, each, sizeof each),
                             lw_money_digits(currency, kind->count * kind->cost_minor, sum, sizeof sum)};
        lw_sheet_row(sheet, &table, false, row);
    }
    if (bill->shared_bags > 0) {
        const char *row[] = {SAY("all masts"),
                             lw_sheet_format(count, sizeof count, "%d", bill->shared_bags),
                             SAY(lw_part_cement),
                             "",
                             lw_money_digits(currency, bill->shared_minor / bill->shared_bags, each, sizeof each),
                             lw_money_digits(currency, bill->shared_minor, sum, sizeof sum)};
        lw_sheet_row(sheet, &table, false, row);
    }
    const char *all[] = {
        SAY("together"), "", "", "", "", lw_money_digits(currency, bill->lamps_minor, sum, sizeof sum)};
    lw_sheet_row(sheet, &table, true, all);
}

/* Twelve bars: hours of night, and above them the share of nights that stay dark. */
static void year(lw_sheet *sheet, const lw_plan_kind *kind)
{
    const double high = 34.0, step = lw_sheet_width_mm / 12.0;
    static const char *const months[] = {"J", "F", "M", "A", "M", "J", "J", "A", "S", "O", "N", "D"};
    lw_sheet_need(sheet, high + 14.0);
    lw_canvas *c = sheet->canvas;
    const double foot = sheet->y + high;
    double most = 1.0;
    for (int m = 0; m < 12; m++)
        most = fmax(most, kind->outcome.panel_month_wh[m]);
    for (int m = 0; m < 12; m++) {
        const double x = lw_sheet_left_mm + m * step, sun = high * kind->outcome.panel_month_wh[m] / most;
        const double used = high * kind->outcome.load_month_wh[m] / most;
        char text[24];
        lw_canvas_pen(c, 0.3, lw_black);
        lw_canvas_box(c, x + 1.0, foot - sun, 0.5 * step - 1.0, sun);
        lw_canvas_fill_box(c, x + 0.5 * step, foot - used, 0.5 * step - 1.0, used, lw_black);
        (void)lw_canvas_text(c, x + 0.5 * step, foot + 1.0, (lw_type){.size_pt = 10, .align = LW_ALIGN_CENTRE},
                             months[m]);
        (void)snprintf(text, sizeof text, "%.1f", kind->outcome.by_month[m]);
        (void)lw_canvas_text(c, x + 0.5 * step, foot + 5.2, (lw_type){.size_pt = 9, .align = LW_ALIGN_CENTRE}, text);
    }
    lw_canvas_line(c, lw_sheet_left_mm, foot, lw_sheet_left_mm + lw_sheet_width_mm, foot);
    sheet->y = foot + 11.0;
    lw_sheet_text(
        sheet,
        SAY("Open bars: what the sun can give in a day. Full bars: what the lamp needs in a night. Numbers: dark "
            "nights in that month."));
}

static void costs(lw_sheet *sheet, const lw_currency *currency, const lw_bill *bill)
{
    char text[60];
    lw_sheet_heading(sheet, SAY("What it costs"));
    lw_sheet_value(sheet, SAY("All lamps together"), lw_money_joined(currency, bill->lamps_minor, text, sizeof text));
    if (bill->spares_minor)
        lw_sheet_value(sheet, SAY("Spares for the planned years"),
                       lw_money_joined(currency, bill->spares_minor, text, sizeof text));
    if (bill->tools_minor)
        lw_sheet_value(sheet, SAY("Tools"), lw_money_joined(currency, bill->tools_minor, text, sizeof text));
    lw_sheet_lit_night(sheet, currency, bill);
}

/* A lamp without a name is not called "the lamp lamp". */
static void year_heading(lw_sheet *sheet, const lw_plan *plan, size_t i)
{
    char text[160], name[LW_NAME + 16];
    if (strcmp(plan->brief.want.lamp[plan->kind[i].kind].name, lw_lamp_unnamed) != 0)
        (void)lw_sheet_format(text, sizeof text, SAY("The year of the %s lamp"),
                              lw_sheet_kind_name(sheet, plan, i, name, sizeof name));
    else if (plan->kind_count == 1)
        (void)lw_sheet_format(text, sizeof text, "%s", SAY("The year of the lamp"));
    else
        (void)lw_sheet_format(text, sizeof text, "%s (%zu)", SAY("The year of the lamp"), i + 1);
    lw_sheet_heading(sheet, text);
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_plan *plan = input->plan;
    char text[400];
    lw_sheet_text(sheet, plan->brief.name);
    lw_sheet_not_built(sheet, plan);
    lw_sheet_text(
        sheet, lw_sheet_format(text, sizeof text,
                               SAY("Wished: at most %g dark nights a year for %g years. A dark night is one on which "
                                   "the lamp does not give its light to the end."),
                               plan->brief.want.dark_nights_per_year, plan->brief.want.planned_years));
    if (plan->kind_count)
        lw_sheet_portrait(sheet, plan, &plan->kind[0], 80.0);
    lw_sheet_heading(sheet, SAY("What is built"));
    lamps(sheet, input);
    lw_sheet_gap(sheet, 1.5);
    lw_sheet_text(sheet, SAY("In brackets: nine of ten years lie between these two numbers."));
    lw_sheet_heading(sheet, SAY("When the lamps give light"));
    lw_sheet_hours(sheet, plan);
    (void)lw_sheet_loads(sheet, plan);
    costs(sheet, &plan->brief.shelf.currency, input->bill);
    for (size_t i = 0; i < plan->kind_count; i++) {
        lw_sheet_need(sheet, 70.0); /* the heading stays with its bars and what they mean */
        year_heading(sheet, plan, i);
        year(sheet, &plan->kind[i]);
    }
    lw_sheet_caution(sheet,
                     SAY("The packs are made of reclaimed cells and are not certified. Local rules and licensed people "
                         "decide whether they may be used."));
}

const lw_sheet_kind lw_sheet_summary = {
    .name = "summary",
    .group = "handover",
    .title = "Summary",
    .each_kind = false,
    .draw = draw,
};
