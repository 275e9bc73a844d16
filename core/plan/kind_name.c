/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What each entry of a plan is called, and when its lamps give light: see lanewick/plan.h.
 */
#include "lanewick/plan.h"

#include <stdio.h>

char *lw_plan_kind_name(const lw_plan *plan, size_t i, char *out, size_t size)
{
    const size_t kind = plan->kind[i].kind;
    bool several = false;
    for (size_t other = 0; other < plan->kind_count; other++)
        several = several || (other != i && plan->kind[other].kind == kind);
    if (several)
        (void)snprintf(out, size, "%s (%zu)", plan->brief.want.lamp[kind].name, i + 1);
    else
        (void)snprintf(out, size, "%s", plan->brief.want.lamp[kind].name);
    return out;
}

int lw_plan_lacking(const lw_plan *plan, size_t kind)
{
    int built = 0;
    for (size_t i = 0; i < plan->kind_count; i++)
        built += plan->kind[i].kind == kind ? plan->kind[i].count : 0;
    return plan->brief.want.lamp[kind].count - built;
}

double lw_plan_mast_height_m(const lw_plan *plan, const lw_plan_kind *kind)
{
    const double light_m = plan->brief.want.lamp[kind->kind].light_m;
    return light_m > 0.0 ? light_m + lw_light_below_top_m : plan->brief.build.mast.height_m;
}

/* The schedule as wished or trimmed, with the hours that a switch made by hand keeps. */
int lw_plan_lamp_spans(const lw_brief *brief, const lw_lamp_kind *lamp, bool trimmed, lw_span out[LW_MAX_SPANS])
{
    const int n = lw_plan_spans(lamp, trimmed, brief->want.least_late_level, out);
    const lw_switch_burn *burn = &lamp->burn;
    if (!brief->want.hand_switch || burn->step_h <= 0.0)
        return n;
    out[0].until.value = burn->step_h;
    if (n > 1) {
        out[1].from.value = burn->step_h;
        out[1].level = burn->level;
    }
    return n;
}
