/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is wired in each chosen lamp: see lanewick/plan.h.
 */
#include "lanewick/lamp_build.h"

#include <stdio.h>

enum { DRAWS = 200 };

static void solve(const lw_brief *brief, lw_plan_kind *kind, lw_arena *scratch)
{
    const lw_lamp_kind *lamp = &brief->want.lamp[kind->kind];
    lw_circuit_card *card = &kind->circuit;
    lw_error why = {0};
    card->own_switch = !brief->want.hand_switch;
    card->there = lw_plan_circuit_of(brief, lamp, &kind->design, &kind->dusk, &card->parts, &why) &&
                  lw_lamp_read(&card->parts, DRAWS, 1, scratch, &card->readings, &why);
    if (!card->there)
        (void)snprintf(card->why_not, sizeof card->why_not, "%.199s", why.message);
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
        solve(brief, kind, scratch);
        kind->circuit.charge = lw_charge_year_of(brief, &plan->climate, &kind->design);
        scratch->used = used;
    }
}
