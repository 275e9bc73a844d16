/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Raising a mast, in the same words and with the plan's own numbers on every sheet that speaks of it: distance to an
 * overhead line, people, caution, who stands where. All parts are fixed on the ground, as the weight to raise is
 * counted.
 */
#include "sheet_list.h"

#include <math.h>

/* Two more hold the ropes to both sides (common practice). */
static const int at_the_ropes = 2;

lw_sheet_raising lw_sheet_raising_of(const lw_plan *plan)
{
    lw_sheet_raising most = {0};
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_mast_result *r = &plan->kind[i].mast.result;
        if (!plan->kind[i].mast.checked)
            continue;
        most.people = r->raising.people > most.people ? r->raising.people : most.people;
        most.line_m = fmax(most.line_m, r->line_clear_m);
    }
    return most;
}

const char *lw_sheet_look_up(const lw_sheet *sheet, double line_m, char *out, size_t size)
{
    if (line_m <= 0.0)
        return SAY("Look up: no overhead line within twice the mast's height. Look down: no pipes or cables where you "
                   "dig.");
    return lw_sheet_format(out, size,
                           SAY("Look up: no overhead line within %.1f m of the foot, farther where it carries more "
                               "than 50 kV; its owner decides. Look down: no pipes or cables where you dig."),
                           line_m);
}

static const char *when_up(const lw_sheet *sheet, lw_base_kind base)
{
    switch (base) {
    case LW_BASE_BURIED:
        return SAY("Plumb it on two sides and ram the stones.");
    case LW_BASE_PLATE:
        return SAY("Plumb it on two sides and tighten the nuts.");
    case LW_BASE_COLLAR:
        break;
    }
    return SAY("Plumb it on two sides and pour. Ropes to three sides and a barrier stay for seven days, until the "
               "concrete has set.");
}

const char *lw_sheet_raise_text(const lw_sheet *sheet, const lw_plan_mast *mast, char *out, size_t size)
{
    char first[300];
    if (!mast->checked)
        return SAY("Raise the mast in no wind, as the engineer says who checked it. Ropes to three sides and a barrier "
                   "stay until the base has set.");
    (void)lw_sheet_format(
        first, sizeof first,
        SAY("Raise it in no wind with all parts on it: %d people push at the pole, %d more hold ropes "
            "to both sides, nobody else within %.1f m."),
        mast->result.raising.people, at_the_ropes, mast->result.raising.clear_m);
    return lw_sheet_format(out, size, "%s %s", first, when_up(sheet, mast->wish.base));
}

void lw_sheet_raise_caution(lw_sheet *sheet)
{
    lw_sheet_caution(sheet,
                     SAY("A mast that falls can kill. Nobody stands under it or where it may fall; no wind above "
                         "5 m/s; one person gives the word. Stop when anything slips."));
}
