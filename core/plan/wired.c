/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is wired in each chosen lamp: see lanewick/plan.h.
 */
#include "lanewick/lamp_build.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { DRAWS = 200 };

/* Without a fuse or board that ends a short the pack has no protection: a hard limit (limits.c). */
static void refuse(lw_plan *plan, const char *lamp, const char *id, const char *why, const char *remedy)
{
    lw_refusal r = {.source = "IEC 60127, IEC 62133-2:2017; docs/models/lamp-circuit.md"};
    (void)snprintf(r.id, sizeof r.id, "%s", id);
    (void)snprintf(r.reason, sizeof r.reason, "%.63s: %.400s.", lamp, why);
    (void)snprintf(r.remedy, sizeof r.remedy, "%s", remedy);
    lw_refuse(&plan->refused, &r);
}

static void judge(lw_plan *plan, const lw_plan_kind *kind, const lw_error *why)
{
    const char *lamp = plan->brief.want.lamp[kind->kind].name;
    const lw_lamp_finding *found = kind->circuit.there ? lw_lamp_refusal(&kind->circuit.readings) : NULL;
    if (found)
        refuse(plan, lamp, found->refusal, found->text,
               strcmp(found->refusal, "short_not_ended") == 0
                   ? "Take cells of less resistance or more of them side by side, or a panel of less current, so that "
                     "the fuse is smaller."
                   : "Change the part that is named.");
    else if (!kind->circuit.there && why->family == LW_REFUSED)
        refuse(plan, lamp, "circuit", why->message, "Change the part that is named.");
}

/* A lamp whose own light turns it off never lights the lane. */
static void judge_own_light(lw_plan *plan, const lw_plan_kind *kind)
{
    const lw_dusk_board *dusk = &kind->dusk;
    lw_refusal r = {.id = "own_light", .source = "common practice; docs/models/dusk-switch.md"};
    if (!dusk->there || !dusk->own_blinks)
        return;
    (void)snprintf(r.reason, sizeof r.reason,
                   "%.63s: its own light puts %.3g lx on the sensor, which turns it off at %.3g lx: it would blink all "
                   "night and never light the lane.",
                   plan->brief.want.lamp[kind->kind].name, dusk->own_lx,
                   fmin(dusk->off.nominal, dusk->off_full.nominal));
    (void)snprintf(r.remedy, sizeof r.remedy,
                   "Put the sensor above the head (build.sensor.angle_deg near 180), farther away (distance_m) and in "
                   "a short black tube (tube_factor 0.1): less than %.3g lx of its own light may reach it.",
                   dusk->own_limit_lx);
    lw_refuse(&plan->refused, &r);
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
        judge_own_light(plan, kind);
        solve(plan, kind, scratch);
        kind->circuit.charge = lw_charge_year_of(brief, &plan->climate, &kind->design);
        scratch->used = used;
    }
}
