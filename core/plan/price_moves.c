/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What changes when a price moves: each lamp's alternatives are priced anew and the choice is made again. See
 * lanewick/bill.h.
 */
#include "lanewick/bill.h"

#include <stdio.h>
#include <string.h>

enum { STEPS = 50000 };

/* One piece at a price that has moved; what makes it fit for use stays as dear as it was. */
static int64_t moved(const lw_shelf *shelf, const char *name, int64_t now_minor, const char *mover, int percent)
{
    const lw_price *known = lw_price_find(shelf->price, shelf->price_count, name);
    const bool moves = strcmp(name, mover) == 0;
    const int64_t wage = mover[0] ? shelf->wage_minor : (shelf->wage_minor * (100 + percent) + 99) / 100;
    if (!known)
        return moves ? (now_minor * (100 + percent) + 99) / 100 : now_minor;
    lw_price price = *known;
    if (moves)
        price.price_minor = (price.price_minor * (100 + percent) + 99) / 100;
    return lw_price_true_minor(&price, wage);
}

static void move_prices(const lw_shelf *from, lw_shelf *to, const char *mover, int percent)
{
    for (size_t i = 0; i < from->panel_count; i++)
        to->panel[i].price_minor = moved(from, from->panel[i].name, from->panel[i].price_minor, mover, percent);
    for (size_t i = 0; i < from->cell_count; i++)
        to->cell[i].price_minor = moved(from, from->cell[i].name, from->cell[i].price_minor, mover, percent);
    for (size_t i = 0; i < from->charger_count; i++)
        to->charger[i].price_minor = moved(from, from->charger[i].name, from->charger[i].price_minor, mover, percent);
    for (size_t i = 0; i < from->board_count; i++)
        to->board[i].price_minor = moved(from, from->board[i].name, from->board[i].price_minor, mover, percent);
    for (size_t i = 0; i < from->driver_count; i++)
        to->driver[i].price_minor = moved(from, from->driver[i].name, from->driver[i].price_minor, mover, percent);
    for (size_t i = 0; i < from->part_count; i++)
        to->part[i].price_minor = moved(from, from->part[i].name, from->part[i].price_minor, mover, percent);
    to->switch_price_minor = moved(from, lw_part_switch, from->switch_price_minor, mover, percent);
}

typedef struct list_of_names { /* of one list of the shelf: names and prices that stand so many bytes apart */
    const char *name;
    const int64_t *price_minor;
    size_t stride, count;
} list_of_names;

/* The true cost of one piece on that shelf; other: no list has it. */
static int64_t price_on(const lw_shelf *s, const char *name, int64_t other)
{
    const list_of_names lists[] = {
        {s->panel[0].name, &s->panel[0].price_minor, sizeof s->panel[0], s->panel_count},
        {s->cell[0].name, &s->cell[0].price_minor, sizeof s->cell[0], s->cell_count},
        {s->charger[0].name, &s->charger[0].price_minor, sizeof s->charger[0], s->charger_count},
        {s->board[0].name, &s->board[0].price_minor, sizeof s->board[0], s->board_count},
        {s->driver[0].name, &s->driver[0].price_minor, sizeof s->driver[0], s->driver_count},
        {s->part[0].name, &s->part[0].price_minor, sizeof s->part[0], s->part_count},
        {s->head[0].name, &s->head[0].price_minor, sizeof s->head[0], s->head_count},
        {s->mast[0].name, &s->mast[0].price_minor, sizeof s->mast[0], s->mast_count},
        {lw_part_switch, &s->switch_price_minor, 0, 1},
        {lw_part_cement, &s->cement_minor, 0, 1},
        {lw_part_fixings, &s->fixings_minor, 0, 1},
        {lw_part_plate, &s->plate_minor, 0, 1},
    };
    for (size_t l = 0; l < sizeof lists / sizeof lists[0]; l++)
        for (size_t i = 0; i < lists[l].count; i++)
            if (strcmp(lists[l].name + i * lists[l].stride, name) == 0) {
                memcpy(&other, (const char *)lists[l].price_minor + i * lists[l].stride, sizeof other);
                return other;
            }
    return other;
}

int64_t lw_plan_parts_minor(const lw_plan *plan, const lw_shelf *shelf)
{
    int64_t sum = 0;
    for (size_t i = 0; i < plan->part_count; i++) {
        const lw_plan_part *part = &plan->part[i];
        sum += part->count * price_on(shelf, part->name, part->price_minor);
    }
    return sum;
}

/* Lamps of each kind that the plan gives parts to. */
static void set_kinds(const lw_plan *plan, lw_moves_work *work)
{
    for (size_t k = 0; k < plan->brief.want.lamp_count; k++) {
        work->kind[k] = (lw_choice_kind){.candidate = work->candidate[k], .count = plan->option_count[k]};
        for (size_t i = 0; i < plan->option_count[k]; i++)
            work->candidate[k][i] = plan->option[k][i].candidate;
    }
    for (size_t i = 0; i < plan->kind_count; i++)
        work->kind[plan->kind[i].kind].lamps += plan->kind[i].count;
}

/* All parts, masts among them. */
static int64_t all_parts(const lw_plan *plan, const char *mover, int percent)
{
    int64_t sum = 0;
    for (size_t i = 0; i < plan->part_count; i++) {
        const lw_plan_part *part = &plan->part[i];
        sum += part->count * moved(&plan->brief.shelf, part->name, part->price_minor, mover, percent);
    }
    return sum;
}

/* Without the masts, as the alternatives are priced. */
static int64_t designs(const lw_plan *plan, const lw_shelf *shelf)
{
    int64_t sum = 0;
    for (size_t i = 0; i < plan->kind_count; i++)
        sum += plan->kind[i].count * lw_design_cost_minor(shelf, &plan->kind[i].design);
    return sum;
}

/* The first design that the plan does not have. */
static void name_other(const lw_plan *plan, lw_moves_work *work, lw_price_move *out)
{
    int lamp = 0;
    for (size_t k = 0; k < plan->brief.want.lamp_count; k++)
        for (int n = 0; n < work->kind[k].lamps; n++, lamp++) {
            const lw_design *design = &work->candidate[k][work->choice.pick[lamp]].design;
            bool had = false;
            for (size_t i = 0; i < plan->kind_count; i++)
                had = had || (plan->kind[i].kind == k && lw_design_same(&plan->kind[i].design, design));
            if (had)
                continue;
            out->changes = true;
            out->other_kind = k;
            out->other = *design;
            return;
        }
}

static lw_price_move one(const lw_plan *plan, lw_moves_work *work, const char *mover, int percent)
{
    lw_price_move out = {.percent = percent};
    (void)snprintf(out.name, sizeof out.name, "%s", mover);
    move_prices(&plan->brief.shelf, &work->shelf, mover, percent);
    for (size_t k = 0; k < plan->brief.want.lamp_count; k++)
        for (size_t i = 0; i < work->kind[k].count; i++)
            work->candidate[k][i].cost_minor = lw_design_cost_minor(&work->shelf, &work->candidate[k][i].design);
    const int64_t now_minor = designs(plan, &work->shelf);
    out.stays_minor = out.best_minor = all_parts(plan, mover, percent);
    lw_plan_choose(&work->shelf, work->kind, plan->brief.want.lamp_count, STEPS, &work->choice);
    /* no fewer lamps may keep the wish or be lit than in the plan: choose() puts these first */
    if (work->choice.complete && work->choice.cost_minor < now_minor) {
        name_other(plan, work, &out);
        out.best_minor -= out.changes ? now_minor - work->choice.cost_minor : 0;
    }
    return out;
}

size_t lw_bill_moves(const lw_plan *plan, lw_moves_work *work, lw_price_move out[LW_BILL_MOVES])
{
    static const int percents[] = {10, 50};
    size_t n = 0;
    work->shelf = plan->brief.shelf;
    set_kinds(plan, work);
    for (size_t p = 0; p < plan->part_count; p++)
        for (int i = 0; i < 2 && plan->part[p].price_minor > 0; i++)
            out[n++] = one(plan, work, plan->part[p].name, percents[i]);
    bool works = false;
    for (size_t i = 0; i < plan->brief.shelf.price_count; i++)
        works = works || plan->brief.shelf.price[i].bench_min > 0;
    for (int i = 0; i < 2 && works && plan->brief.shelf.wage_minor > 0; i++)
        out[n++] = one(plan, work, "", percents[i]);
    return n;
}
