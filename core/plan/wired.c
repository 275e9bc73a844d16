/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is wired in each chosen lamp: see lanewick/plan.h.
 */
#include "lanewick/lamp_build.h"

#include <stdio.h>

enum { DRAWS = 200 };

/* Without a fuse or board that ends a short the pack has no protection: a hard limit (limits.c). */
static void refuse(lw_plan *plan, const char *lamp, const char *id, const char *why, const char *remedy)
{
    lw_refusal r = {.source = "IEC 60127, IEC 62133-2:2017; docs/models/lamp-circuit.md"};
    (void)snprintf(r.id, sizeof r.id, "%s", id);
    (void)snprintf(r.reason, sizeof r.reason, "%.40s: %.190s.", lamp, why);
    (void)snprintf(r.remedy, sizeof r.remedy, "%s", remedy);
    lw_refuse(&plan->refused, &r);
}

static void judge(lw_plan *plan, const lw_plan_kind *kind, const lw_error *why)
{
    const char *lamp = plan->brief.want.lamp[kind->kind].name;
    const lw_lamp_finding *found = kind->circuit.there ? lw_lamp_refusal(&kind->circuit.readings) : NULL;
    if (found)
        refuse(plan, lamp, "short_not_ended", found->text,
               "Take cells of less resistance or more of them side by side, or a panel of less current, so that the "
               "fuse is smaller.");
    else if (!kind->circuit.there && why->family == LW_REFUSED)
        refuse(plan, lamp, "circuit", why->message, "Change the part that is named.");
}

static void solve(lw_plan *plan, lw_plan_kind *kind, lw_arena *scratch)
{
    const lw_brief *brief = &plan->brief;
    const lw_lamp_kind *lamp = &brief->want.lamp[kind->kind];
    lw_circuit_card *card = &kind->circuit;
    lw_error why = {0};
    card->own_switch = !brief->want.hand_switch;
    card->there = lw_plan_circuit_of(brief, lamp, &kind->design, &kind->dusk, &card->parts, &why) &&
                  lw_lamp_read(&card->parts, DRAWS, 1, scratch, &card->readings, &why);
    if (!card->there)
        (void)snprintf(card->why_not, sizeof card->why_not, "%.199s", why.message);
    judge(plan, kind, &why);
}

void lw_plan_wire(lw_plan *plan, lw_arena *scratch)
{
    const lw_brief *brief = &plan->brief;
    for (size_t i = 0; i < plan->kind_count; i++) {
        lw_plan_kind *kind = &plan->kind[i];
        const lw_lamp_kind *lamp = &brief->want.lamp[kind->kind];
        const size_t used = scratch->used;
        if (brief->want.hand_switch)
            kind->dusk.there = lw_dusk_board_of(brief, lamp, &kind->design, scratch, &kind->dusk, NULL);
        scratch->used = used;
        solve(plan, kind, scratch);
        kind->circuit.charge = lw_charge_year_of(brief, &plan->climate, &kind->design);
        scratch->used = used;
    }
}
