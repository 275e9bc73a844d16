/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What to bring together for all lamps of a plan, and its exact sum in the currency's smallest unit.
 */
#include "lanewick/bill.h"
#include "lanewick/plan.h"

#include <stdio.h>
#include <string.h>

/* Parts that the plan itself names; people read them in their own language (scripts/words). */
const char lw_part_cement[] = "cement, bag of 50 kg", lw_part_fixings[] = "bolts, clamps and lock nuts for a mast, set",
           lw_part_sand[] = "sand, bucket of 20 litres",
           lw_part_stones[] = "stones of 10 to 20 mm, bucket of 20 litres",
           lw_part_plate[] = "base plate of steel, welded to the mast",
           lw_part_anchors[] = "anchor bolts with nuts and washers, set of four",
           lw_part_switch[] = "dusk switch made by hand, its parts";

bool lw_part_is_own(const char *name)
{
    const char *const own[] = {lw_part_cement, lw_part_fixings, lw_part_sand,  lw_part_stones,
                               lw_part_plate,  lw_part_anchors, lw_part_switch};
    for (size_t i = 0; i < sizeof own / sizeof own[0]; i++)
        if (strcmp(own[i], name) == 0)
            return true;
    return false;
}

static void add(lw_plan *plan, const char *name, int count, int64_t price_minor)
{
    if (count <= 0)
        return;
    for (size_t i = 0; i < plan->part_count; i++) {
        lw_plan_part *part = &plan->part[i];
        if (strcmp(part->name, name) == 0 && part->price_minor == price_minor) {
            part->count += count;
            part->cost_minor += count * price_minor;
            return;
        }
    }
    if (plan->part_count >= LW_PLAN_PARTS)
        return;
    lw_plan_part *part = &plan->part[plan->part_count++];
    (void)snprintf(part->name, sizeof part->name, "%s", name);
    part->count = count;
    part->price_minor = price_minor;
    part->cost_minor = count * price_minor;
}

static void add_masts(lw_plan *plan)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    const lw_mast_goods goods = lw_plan_mast_goods(plan);
    for (size_t i = 0; i < plan->kind_count; i++)
        if (plan->kind[i].mast.checked)
            add(plan, plan->kind[i].mast.pole_name, plan->kind[i].count, plan->kind[i].mast.cost_minor);
    add(plan, lw_part_cement, goods.cement_bags, shelf->cement_minor);
    add(plan, lw_part_sand, goods.sand_buckets, 0);
    add(plan, lw_part_stones, goods.stone_buckets, 0);
    add(plan, lw_part_plate, goods.plates, shelf->plate_minor);
    add(plan, lw_part_anchors, goods.plates, 0);
    add(plan, lw_part_fixings, goods.fixings, shelf->fixings_minor);
}

void lw_plan_parts(lw_plan *plan)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    plan->part_count = 0;
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_design *d = &plan->kind[i].design;
        const int lamps = plan->kind[i].count;
        add(plan, shelf->panel[d->panel].name, lamps * d->panels, shelf->panel[d->panel].price_minor);
        add(plan, shelf->cell[d->cell].name, lamps * d->series * d->parallel, shelf->cell[d->cell].price_minor);
        add(plan, shelf->charger[d->charger].name, lamps, shelf->charger[d->charger].price_minor);
        if (d->board >= 0)
            add(plan, shelf->board[d->board].name, lamps, shelf->board[d->board].price_minor);
        add(plan, shelf->driver[d->driver].name, lamps, shelf->driver[d->driver].price_minor);
        if (plan->brief.want.hand_switch)
            add(plan, lw_part_switch, lamps, shelf->switch_price_minor);
        if (d->head > 0)
            add(plan, shelf->head[d->head - 1].name, lamps, shelf->head[d->head - 1].price_minor);
        for (size_t k = 0; k < shelf->part_count; k++)
            add(plan, shelf->part[k].name, lamps * shelf->part[k].per_lamp, shelf->part[k].price_minor);
    }
    add_masts(plan);
    plan->cost_minor = 0;
    for (size_t i = 0; i < plan->part_count; i++)
        plan->cost_minor += plan->part[i].cost_minor;
}
