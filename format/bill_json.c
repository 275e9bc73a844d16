/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The bill of a plan as JSON: part of the plan's cost.
 */
#include "plan_json.h"

#include "json_help.h"

#include "lanewick/bill.h"
#include "lanewick/prices.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static json_t *lines(const lw_shelf *shelf, const lw_bill *bill)
{
    json_t *out = json_array();
    for (size_t i = 0; i < bill->count; i++) {
        const lw_bill_line *line = &bill->line[i];
        const lw_price *price = &line->price;
        json_array_append_new(
            out, json_pack("{s:s,s:b,s:I,s:I,s:I,s:I,s:I,s:o,s:o,s:o,s:o,s:o}", "name", price->name, "tool",
                           price->tool, "lamps", (json_int_t)line->lamps, "spares", (json_int_t)line->spares, "pieces",
                           (json_int_t)line->wanted, "at_hand", (json_int_t)line->covered, "buy", (json_int_t)line->buy,
                           "price", lw_json_money(shelf, price->price_minor), "good_piece",
                           lw_json_money(shelf, line->good_minor), "pay", lw_json_money(shelf, line->pay_minor), "shop",
                           lw_json_text(price->shop), "date", lw_json_text(price->date)));
    }
    return out;
}

/* "path: 2 x 10 W panel, 3 x 4 cells"; "" when the designs stay the cheapest */
static json_t *other(const lw_plan *plan, const lw_price_move *move)
{
    char what[100], text[160] = "";
    if (move->changes) {
        lw_design_text(&plan->brief.shelf, &move->other, what, sizeof what);
        (void)snprintf(text, sizeof text, "%.40s: %s", plan->brief.want.lamp[move->other_kind].name, what);
    }
    return lw_json_text(text);
}

static json_t *moves(const lw_plan *plan, int lamps)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    json_t *out = json_array();
    lw_moves_work *work = calloc(1, sizeof *work);
    lw_price_move *move = calloc(LW_BILL_MOVES, sizeof *move);
    const size_t n = work && move && lamps ? lw_bill_moves(plan, work, move) : 0;
    for (size_t i = 0; i < n; i++)
        json_array_append_new(
            out, json_pack("{s:s,s:i,s:o,s:o,s:o}", "name", move[i].name[0] ? move[i].name : "hour at the bench",
                           "percent", move[i].percent, "all_lamps", lw_json_money(shelf, move[i].stays_minor),
                           "cheapest", lw_json_money(shelf, move[i].best_minor), "other", other(plan, &move[i])));
    free(work);
    free(move);
    return out;
}

void lw_bill_to_json(const lw_plan *plan, json_t *cost)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    lw_bill *bill = calloc(1, sizeof *bill);
    if (!bill)
        return;
    lw_bill_of(plan, bill);
    json_object_set_new(cost, "lit_night", lw_json_number(bill->lit_night));
    json_object_set_new(cost, "spares", lw_json_money(shelf, bill->spares_minor));
    json_object_set_new(cost, "tools", lw_json_money(shelf, bill->tools_minor));
    json_object_set_new(cost, "to_pay", lw_json_money(shelf, bill->pay_minor));
    json_object_set_new(cost, "bench_hours", lw_json_number((double)bill->bench_min / 60.0));
    json_object_set_new(cost, "bill", lines(shelf, bill));
    json_object_set_new(cost, "if_price_moves", moves(plan, bill->lamps));
    free(bill);
}

static json_t *lamps_then(const lw_plan *plan)
{
    json_t *out = json_array();
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        char what[200];
        lw_design_text(&plan->brief.shelf, &kind->design, what, sizeof what);
        json_array_append_new(
            out, json_pack("{s:o,s:i,s:o,s:{s:o,s:o,s:o}}", "name",
                           lw_json_text(plan->brief.want.lamp[kind->kind].name), "count", kind->count, "what",
                           lw_json_text(what), "dark_per_year", "mean", lw_json_number(kind->outcome.dark.mean), "low",
                           lw_json_number(kind->outcome.dark.low), "high", lw_json_number(kind->outcome.dark.high)));
    }
    return out;
}

char *lw_plan_if_to_json(const lw_plan *then, const lw_moved_price *moved, int64_t stays_minor, int64_t anew_minor,
                         bool changes)
{
    const lw_shelf *shelf = &then->brief.shelf;
    return lw_json_line(json_pack("{s:o,s:o,s:o,s:o,s:o,s:b,s:o}", "name", lw_json_text(moved->name), "from",
                                  lw_json_money(shelf, moved->from_minor), "to", lw_json_money(shelf, moved->to_minor),
                                  "as_planned", lw_json_money(shelf, stays_minor), "planned_anew",
                                  lw_json_money(shelf, anew_minor), "changes", changes, "lamps", lamps_then(then)));
}
