/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is wired in each chosen lamp: see lanewick/plan.h.
 */
#include "lanewick/lamp_build.h"

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
    }
}
