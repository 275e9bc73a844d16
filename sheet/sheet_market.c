/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The shopping list: what the shelf covers, what to buy in which shop, sums, spares, and what changes when a price
 * moves.
 */
#include "sheet_list.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const char *number(char *out, size_t size, int64_t n)
{
    return lw_sheet_format(out, size, "%lld", (long long)n);
}

/* Parts of the shelf keep the name that the brief gives them; the plan's own are said in the person's language. */
static const char *named(const lw_sheet *sheet, const char *name)
{
    return lw_part_is_own(name) ? lw_say(sheet->words, name) : name;
}

static void from_the_shelf(lw_sheet *sheet, const lw_bill *bill)
{
    static const lw_sheet_table table = {.columns = 3, .width_mm = {22, 122, 30}, .right = {true, false, false}};
    const char *head[] = {SAY("count"), SAY("part"), SAY("got it")};
    bool begun = false;
    for (size_t i = 0; i < bill->count; i++) {
        char count[24];
        if (bill->line[i].covered == 0)
            continue;
        if (!begun) {
            lw_sheet_heading(sheet, SAY("Take from the shelf"));
            lw_sheet_row(sheet, &table, true, head);
        }
        begun = true;
        const char *row[] = {number(count, sizeof count, bill->line[i].covered), named(sheet, bill->line[i].price.name),
                             "□"};
        lw_sheet_row(sheet, &table, false, row);
    }
}

/* One line to buy; its day only where the shop's lines have several. */
static void purchase(lw_sheet *sheet, const lw_currency *currency, const lw_sheet_table *table,
                     const lw_bill_line *line, bool dated)
{
    char count[24], each[48], together[48], part[120], full[200];
    const char *name = named(sheet, line->price.name);
    if (dated && line->price.date[0])
        name = lw_sheet_format(part, sizeof part, "%s (%s)", name, line->price.date);
    if (line->price.told_as[0]) /* in another money */
        name = lw_sheet_format(full, sizeof full, "%s [%s]", name, line->price.told_as);
    const bool known = line->price.price_minor > 0; /* else it is written in at the shop */
    const char *row[] = {number(count, sizeof count, line->buy), name,
                         known ? lw_money_digits(currency, line->price.price_minor, each, sizeof each) : "________",
                         known ? lw_money_digits(currency, line->pay_minor, together, sizeof together) : "________",
                         "□"};
    lw_sheet_row(sheet, table, false, row);
}

static bool bought_at(const lw_bill_line *line, const char *shop)
{
    return line->buy > 0 && strcmp(line->price.shop, shop) == 0;
}

/* The day of all prices of a shop; NULL: there are several. */
static const char *day_of(const lw_bill *bill, const char *shop)
{
    const char *day = NULL;
    for (size_t i = 0; i < bill->count; i++) {
        if (!bought_at(&bill->line[i], shop))
            continue;
        if (day && strcmp(day, bill->line[i].price.date) != 0)
            return NULL;
        day = bill->line[i].price.date;
    }
    return day;
}

static void shop_heading(lw_sheet *sheet, const char *shop, const char *day)
{
    char text[200];
    if (!shop[0])
        lw_sheet_heading(sheet, SAY("Buy"));
    else if (!day || !day[0])
        lw_sheet_heading(sheet, lw_sheet_format(text, sizeof text, SAY("Buy at: %s"), shop));
    else
        lw_sheet_heading(sheet, lw_sheet_format(text, sizeof text, SAY("Buy at: %s (prices of %s)"), shop, day));
}

/* The last line stays on the page of the sum below it. */
static void one_shop(lw_sheet *sheet, const lw_currency *currency, const lw_bill *bill, const char *shop)
{
    static const lw_sheet_table table = {
        .columns = 5, .width_mm = {24, 78, 30, 32, 10}, .right = {true, false, true, true, false}};
    char each[48], together[48], sum_text[48];
    const char *head[] = {SAY("count"), SAY("part"),
                          lw_sheet_format(each, sizeof each, SAY("each (%s)"), currency->text),
                          lw_sheet_format(together, sizeof together, SAY("together (%s)"), currency->text), ""};
    int64_t sum = 0;
    size_t lines = 0, told = 0;
    const char *day = day_of(bill, shop);
    shop_heading(sheet, shop, day);
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i < bill->count; i++)
        lines += bought_at(&bill->line[i], shop) ? 1 : 0;
    for (size_t i = 0; i < bill->count; i++) {
        if (!bought_at(&bill->line[i], shop))
            continue;
        told++;
        sheet->keep_mm = lines > 1 && told == lines ? 8.0 : 0.0;
        purchase(sheet, currency, &table, &bill->line[i], day == NULL);
        sum += bill->line[i].pay_minor;
    }
    sheet->keep_mm = 0.0;
    const char *row[] = {"", SAY("together"), "", lw_money_digits(currency, sum, sum_text, sizeof sum_text), ""};
    if (lines > 1)
        lw_sheet_row(sheet, &table, true, row);
}

static void shops(lw_sheet *sheet, const lw_currency *currency, const lw_bill *bill)
{
    for (size_t i = 0; i < bill->count; i++) {
        bool first = bill->line[i].buy > 0;
        for (size_t before = 0; first && before < i; before++)
            first = !bought_at(&bill->line[before], bill->line[i].price.shop);
        if (first)
            one_shop(sheet, currency, bill, bill->line[i].price.shop);
    }
}

/* A heading with so many lines of a value each stays on one page where a page holds it. */
static void keep_list(lw_sheet *sheet, size_t lines)
{
    const double most_mm = lw_sheet_bottom_mm - lw_sheet_top_mm, line_mm = 7.0, heading_mm = 12.0;
    lw_sheet_need(sheet, fmin(most_mm, heading_mm + line_mm * (double)lines));
}

static void sums(lw_sheet *sheet, const lw_currency *currency, const lw_bill *bill)
{
    char text[64];
    keep_list(sheet, 8);
    lw_sheet_heading(sheet, SAY("What it costs"));
    lw_sheet_value(sheet, SAY("To pay in the shops"), lw_money_joined(currency, bill->pay_minor, text, sizeof text));
    lw_sheet_value(sheet, SAY("All lamps together"), lw_money_joined(currency, bill->lamps_minor, text, sizeof text));
    if (bill->shared_minor)
        lw_sheet_value(sheet, SAY("Of it cement, in whole bags for all masts"),
                       lw_money_joined(currency, bill->shared_minor, text, sizeof text));
    if (bill->lamps)
        lw_sheet_value(
            sheet, SAY("One lamp, on average"),
            lw_money_joined(currency, (bill->lamps_minor + bill->lamps / 2) / bill->lamps, text, sizeof text));
    if (bill->spares_minor)
        lw_sheet_value(sheet, SAY("Spares for the planned years"),
                       lw_money_joined(currency, bill->spares_minor, text, sizeof text));
    if (bill->tools_minor)
        lw_sheet_value(sheet, SAY("Tools"), lw_money_joined(currency, bill->tools_minor, text, sizeof text));
    if (bill->bench_min)
        lw_sheet_value(sheet, SAY("Hours at the bench"),
                       lw_sheet_format(text, sizeof text, "%.0f", ceil((double)bill->bench_min / 60.0)));
    lw_sheet_lit_night(sheet, currency, bill);
}

/* When the price list tells no spares. */
static void usual_spares(lw_sheet *sheet, const lw_plan *plan)
{
    char text[200];
    int lamps = 0, cells = 0;
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        lamps += kind->count;
        cells += kind->count * kind->design.series * kind->design.parallel;
    }
    keep_list(sheet, 6); /* two of its names take two lines in some languages */
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

static void spares(lw_sheet *sheet, const lw_plan *plan, const lw_bill *bill)
{
    char text[24];
    if (bill->spares_minor == 0) {
        usual_spares(sheet, plan);
        return;
    }
    size_t lines = 0;
    for (size_t i = 0; i < bill->count; i++)
        lines += bill->line[i].spares > 0 ? 1 : 0;
    keep_list(sheet, lines);
    lw_sheet_heading(sheet, SAY("Spares among these, for the planned years"));
    for (size_t i = 0; i < bill->count; i++)
        if (bill->line[i].spares > 0)
            lw_sheet_value(sheet, named(sheet, bill->line[i].price.name),
                           number(text, sizeof text, bill->line[i].spares));
}

static const char *other_way(const lw_sheet *sheet, const lw_plan *plan, const lw_price_move *move, char *out,
                             size_t size)
{
    char design[150];
    if (!move->changes)
        return "–";
    return lw_sheet_format(out, size, "%.40s: %s", plan->brief.want.lamp[move->other_kind].name,
                           lw_sheet_design(sheet, &plan->brief.shelf, &move->other, design, sizeof design));
}

/* Pairs of 10 and 50 percent. */
static void moves(lw_sheet *sheet, const lw_sheet_input *input)
{
    static const lw_sheet_table table = {
        .columns = 4, .width_mm = {56, 30, 30, 58}, .right = {false, true, true, false}};
    const lw_currency *currency = &input->plan->brief.shelf.currency;
    char ten_head[40], fifty_head[40];
    const char *head[] = {SAY("part"), lw_sheet_format(ten_head, sizeof ten_head, "+ 10 %% (%s)", currency->text),
                          lw_sheet_format(fifty_head, sizeof fifty_head, "+ 50 %% (%s)", currency->text),
                          SAY("cheaper at + 50 %")};
    if (input->move_count < 2)
        return;
    lw_sheet_heading(sheet, SAY("All lamps, when a price rises"));
    lw_sheet_row(sheet, &table, true, head);
    for (size_t i = 0; i + 1 < input->move_count; i += 2) {
        char ten[48], fifty[48], other[200];
        const lw_price_move *small = &input->move[i], *large = &input->move[i + 1];
        const char *row[] = {small->name[0] ? named(sheet, small->name) : SAY("hour at the bench"),
                             lw_money_digits(currency, small->stays_minor, ten, sizeof ten),
                             lw_money_digits(currency, large->stays_minor, fifty, sizeof fifty),
                             other_way(sheet, input->plan, large, other, sizeof other)};
        lw_sheet_row(sheet, &table, false, row);
    }
}

static void draw(lw_sheet *sheet, const void *payload)
{
    const lw_sheet_input *input = payload;
    const lw_currency *currency = &input->plan->brief.shelf.currency;
    lw_sheet_not_built(sheet, input->plan);
    lw_sheet_text(
        sheet,
        SAY("Take from the shelf what is there; buy the rest. Look at the label of every panel: open volts above "
            "those planned can kill the charger."));
    lw_sheet_caution(
        sheet, SAY("Do not buy cells that are swollen, dented, rusty, wet or smell sweet, and none found below 2.0 V. "
                   "Carry cells with taped ends, never loose in a bag."));
    from_the_shelf(sheet, input->bill);
    shops(sheet, currency, input->bill);
    if (lw_sheet_loads(sheet, input->plan))
        lw_sheet_text(sheet,
                      SAY("Only their power is planned. Socket, wire and a fuse of its own are not on this list; "
                          "buy them too."));
    sums(sheet, currency, input->bill);
    spares(sheet, input->plan, input->bill);
    moves(sheet, input);
}

const lw_sheet_kind lw_sheet_market = {
    .name = "market",
    .group = "market",
    .title = "Shopping list",
    .draw = draw,
};
