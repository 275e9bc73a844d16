/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bill of a plan: see lanewick/bill.h.
 */
#include "lanewick/bill.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double nights_a_year = 365.25;

/* What the shelf itself says of a price goes to the entry of the list, for the shops; the true cost goes to the shelf.
 */
static const char *true_cost(lw_shelf *shelf, const char *name, int64_t *price_minor, const char *dear)
{
    for (size_t i = 0; i < shelf->price_count; i++) {
        lw_price *price = &shelf->price[i];
        if (!lw_price_find(price, 1, name))
            continue;
        if (!price->priced)
            price->price_minor = *price_minor;
        price->priced = true;
        *price_minor = lw_price_true_minor(price, shelf->wage_minor);
        return *price_minor > lw_price_max_minor ? price->name : dear;
    }
    return dear;
}

const char *lw_shelf_true_costs(lw_shelf *shelf)
{
    const char *dear = NULL;
    for (size_t i = 0; i < shelf->panel_count; i++)
        dear = true_cost(shelf, shelf->panel[i].name, &shelf->panel[i].price_minor, dear);
    for (size_t i = 0; i < shelf->cell_count; i++)
        dear = true_cost(shelf, shelf->cell[i].name, &shelf->cell[i].price_minor, dear);
    for (size_t i = 0; i < shelf->charger_count; i++)
        dear = true_cost(shelf, shelf->charger[i].name, &shelf->charger[i].price_minor, dear);
    for (size_t i = 0; i < shelf->board_count; i++)
        dear = true_cost(shelf, shelf->board[i].name, &shelf->board[i].price_minor, dear);
    for (size_t i = 0; i < shelf->driver_count; i++)
        dear = true_cost(shelf, shelf->driver[i].name, &shelf->driver[i].price_minor, dear);
    for (size_t i = 0; i < shelf->part_count; i++)
        dear = true_cost(shelf, shelf->part[i].name, &shelf->part[i].price_minor, dear);
    for (size_t i = 0; i < shelf->mast_count; i++)
        dear = true_cost(shelf, shelf->mast[i].name, &shelf->mast[i].price_minor, dear);
    dear = true_cost(shelf, lw_part_switch, &shelf->switch_price_minor, dear);
    dear = true_cost(shelf, lw_part_cement, &shelf->cement_minor, dear);
    dear = true_cost(shelf, lw_part_plate, &shelf->plate_minor, dear);
    return true_cost(shelf, lw_part_fixings, &shelf->fixings_minor, dear);
}

/* Fills what is wanted, covered and bought from the good pieces. */
static void supply(lw_bill_line *line)
{
    const lw_price *price = &line->price;
    line->wanted = lw_price_pieces(price, line->lamps + line->spares);
    line->covered = price->at_hand < line->wanted ? price->at_hand : line->wanted;
    const int64_t lacking = line->wanted - line->covered;
    line->buy = (lacking + price->sold_by - 1) / price->sold_by * price->sold_by;
    line->pay_minor = line->buy * price->price_minor;
}

/* Pieces kept for the planned years: per mille a lamp and year, at least one when any. */
static int64_t spares_of(const lw_price *price, int lamps, double years)
{
    return price->spares_pm > 0 ? (int64_t)ceil(lamps * years * price->spares_pm / 1000.0 - 1e-9) : 0;
}

static void add_part(const lw_plan *plan, const lw_plan_part *part, lw_bill *out)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    const lw_price *known = lw_price_find(shelf->price, shelf->price_count, part->name);
    lw_bill_line *line = &out->line[out->count++];
    *line = (lw_bill_line){.price = known ? *known : lw_price_blank(part->name), .lamps = part->count};
    (void)snprintf(line->price.name, sizeof line->price.name, "%s", part->name);
    if (!known)
        line->price.price_minor = part->price_minor;
    line->good_minor = part->price_minor;
    line->spares = spares_of(&line->price, out->lamps, plan->brief.want.planned_years);
    supply(line);
    out->lamps_minor += part->cost_minor;
    out->spares_minor += line->spares * line->good_minor;
    out->pay_minor += line->pay_minor;
    out->bench_min += line->wanted * line->price.bench_min;
}

static void add_tool(const lw_price *price, int64_t wage_minor, lw_bill *out)
{
    lw_bill_line *line = &out->line[out->count++];
    *line = (lw_bill_line){.price = *price, .lamps = 1};
    line->good_minor = lw_price_true_minor(price, wage_minor);
    supply(line);
    out->tools_minor += line->covered ? 0 : line->good_minor;
    out->pay_minor += line->pay_minor;
}

void lw_bill_of(const lw_plan *plan, lw_bill *out)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    *out = (lw_bill){.lit_night = NAN};
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        out->lamps += kind->count;
        for (size_t y = 0; y < kind->ahead_count; y++) {
            const double before = y ? kind->ahead[y - 1].year : 0.0; /* the last year may be a part of one */
            out->lit_nights +=
                kind->count * (kind->ahead[y].year - before) * (nights_a_year - kind->ahead[y].dark.mean);
        }
    }
    for (size_t i = 0; i < plan->part_count; i++)
        add_part(plan, &plan->part[i], out);
    out->shared_minor = lw_plan_shared_minor(plan);
    out->shared_bags = out->shared_minor > 0 ? lw_plan_mast_goods(plan).cement_bags : 0;
    for (size_t i = 0; i < shelf->price_count; i++)
        if (shelf->price[i].tool)
            add_tool(&shelf->price[i], shelf->wage_minor, out);
    if (out->lit_nights > 0.0)
        out->lit_night = lw_money_number(&shelf->currency, out->lamps_minor + out->spares_minor) / out->lit_nights;
}
