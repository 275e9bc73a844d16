/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * The masts of all lamps from the one shelf; a lamp whose mast does not stand refuses the plan (DESIGN: hard limits).
 */
#include "lanewick/plan.h"

#include <math.h>
#include <stdio.h>

static void refuse(lw_plan *plan, const char *lamp, const char *why, const char *remedy)
{
    lw_refusal r = {.id = "mast_falls",
                    .source = "EN 1991-1-4, ASCE 7-16, EN 1990, IBC 1807.3.2.1 (docs/models/mast.md)"};
    (void)snprintf(r.reason, sizeof r.reason, "%.63s: no mast stands in the wind that was given. %.400s", lamp, why);
    (void)snprintf(r.remedy, sizeof r.remedy, "%s", remedy);
    lw_refuse(&plan->refused, &r);
}

static void one(lw_plan *plan, lw_plan_kind *kind, int *left)
{
    const lw_brief *brief = &plan->brief;
    const char *lamp = brief->want.lamp[kind->kind].name;
    char why[LW_REASON] = "", remedy[LW_REASON] = "";
    lw_mast_wish wish;
    lw_error err = {0};
    kind->mast = (lw_plan_mast){.pole = -1, .result = {.verdict = LW_MAST_NOT_CHECKED}};
    if (!brief->place.wind_given)
        return;
    if (!lw_plan_mast_wish(brief, lw_design_panel_w(&brief->shelf, &kind->design),
                           lw_design_pack_wh(&brief->shelf, &kind->design), plan->tilt_deg,
                           brief->want.lamp[kind->kind].light_m, &wish, &err)) {
        refuse(plan, lamp, err.message, "Choose firm ground (build.mast.soil), or dig through to it.");
        return;
    }
    if (!lw_plan_mast_choose(brief, &wish, left, kind->count, &kind->mast, why, remedy)) {
        refuse(plan, lamp, why, remedy);
        return;
    }
    if (kind->mast.pole >= 0)
        left[kind->mast.pole] -= kind->count - kind->mast.missing;
}

/* Concrete 1:2:4: 320 kg of cement, 0.45 m3 of sand, 0.9 m3 of stones in a cubic metre (common practice). */
static const double bags_m3 = 6.4, sand_m3 = 0.45, stones_m3 = 0.9, bucket_m3 = 0.02;

int lw_plan_cement_bags(double concrete_m3)
{
    return (int)ceil(concrete_m3 * bags_m3 - 1e-9);
}

lw_mast_goods lw_plan_mast_goods(const lw_plan *plan)
{
    lw_mast_goods goods = {0};
    double concrete_m3 = 0.0;
    for (size_t i = 0; i < plan->kind_count; i++)
        if (plan->kind[i].mast.checked) {
            concrete_m3 += plan->kind[i].count * plan->kind[i].mast.concrete_m3;
            goods.fixings += plan->kind[i].count;
            if (plan->kind[i].mast.wish.base == LW_BASE_PLATE)
                goods.plates += plan->kind[i].count;
        }
    goods.cement_bags = lw_plan_cement_bags(concrete_m3);
    goods.sand_buckets = (int)ceil(concrete_m3 * sand_m3 / bucket_m3 - 1e-9);
    goods.stone_buckets = (int)ceil(concrete_m3 * stones_m3 / bucket_m3 - 1e-9);
    return goods;
}

int64_t lw_plan_shared_minor(const lw_plan *plan)
{
    int64_t own = 0;
    for (size_t i = 0; i < plan->kind_count; i++)
        own += plan->kind[i].count * plan->kind[i].cost_minor;
    return plan->cost_minor - own;
}

/* Pole and fixings to each lamp; the cement, bought in whole bags for all, to the sum alone. */
static void add_cost(lw_plan *plan)
{
    const lw_shelf *shelf = &plan->brief.shelf;
    plan->bound_minor += lw_plan_mast_goods(plan).cement_bags * shelf->cement_minor;
    for (size_t i = 0; i < plan->kind_count; i++) {
        lw_plan_kind *kind = &plan->kind[i];
        const int64_t plate = kind->mast.wish.base == LW_BASE_PLATE ? shelf->plate_minor : 0;
        const int64_t more = kind->mast.checked ? kind->mast.cost_minor + shelf->fixings_minor + plate : 0;
        kind->cost_minor += more;
        plan->bound_minor += kind->count * more;
    }
}

void lw_plan_masts(lw_plan *plan)
{
    int left[LW_SHELF_KINDS];
    for (size_t i = 0; i < plan->brief.shelf.mast_count; i++)
        left[i] = plan->brief.shelf.mast[i].count;
    for (size_t i = 0; i < plan->kind_count; i++)
        one(plan, &plan->kind[i], left);
    add_cost(plan);
}
