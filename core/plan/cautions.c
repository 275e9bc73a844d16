/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What can hurt, said at the step where it can. Whatever breaks a hard limit is refused in limits.c instead.
 */
#include "lanewick/plan.h"
#include "lanewick/wiring.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static void say(lw_plan *plan, const char *at, const char *format, ...) __attribute__((format(printf, 3, 4)));

static void say(lw_plan *plan, const char *at, const char *format, ...)
{
    if (plan->caution_count >= LW_PLAN_CAUTIONS)
        return;
    lw_caution *caution = &plan->caution[plan->caution_count++];
    (void)snprintf(caution->at, sizeof caution->at, "%s", at);
    va_list arguments;
    va_start(arguments, format);
    (void)vsnprintf(caution->text, sizeof caution->text, format, arguments);
    va_end(arguments);
}

static void of_pack(lw_plan *plan)
{
    bool class_4v35 = false;
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_design *design = &plan->kind[i].design;
        class_4v35 = class_4v35 || plan->brief.shelf.cell[design->cell].voltage_class == LW_SHELF_4V35;
    }
    say(plan, "pack",
        "Packs of reclaimed cells are not certified (IEC 63338:2024 covers only cells with a traceable "
        "life). Where local rules forbid them, do not build them.");
    say(plan, "pack",
        "Work on a surface that does not burn, with sand at hand. Insulate every cell end before the next "
        "is joined: a short across one group can weld, burn and blind.");
    say(plan, "pack",
        "Join cells at about half charge, so that a slip does less harm. Cells of one group, and all groups, are "
        "within "
        "0.02 V of each other before they are joined.");
    if (class_4v35)
        say(plan, "charging",
            "These cells are made for 4.35 V; never charge them with others, and never above the end "
            "voltage planned here.");
}

static void of_charging(lw_plan *plan)
{
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        const lw_shelf_charger *charger = &plan->brief.shelf.charger[kind->design.charger];
        if (kind->outcome.cold_h >= 1.0)
            say(plan, "charging",
                "%s: the charger has to stop for frost in about %.0f sunny hours a year. Test its thermometer with ice "
                "before use: a lithium cell charged below 0 degC is lost and can short inside.",
                plan->brief.want.lamp[kind->kind].name, kind->outcome.cold_h);
        if (kind->outcome.hot_h >= 1.0)
            say(plan, "charging",
                "%s: the cells pass 45 degC for about %.0f sunny hours a year, and charging must stop then. Shade and "
                "vent the box; paint it white.",
                plan->brief.want.lamp[kind->kind].name, kind->outcome.hot_h);
        if (charger->end_v_per_cell > 4.15 && plan->brief.shelf.cell[kind->design.cell].voltage_class == LW_SHELF_4V2)
            say(plan, "charging",
                "%s ends the charge at %.2f V. Reclaimed cells live longer with 4.10 V, for about a tenth of the "
                "capacity.",
                charger->name, charger->end_v_per_cell);
    }
}

static void of_wiring(lw_plan *plan)
{
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        const lw_lamp_kind *lamp = &plan->brief.want.lamp[kind->kind];
        lw_wiring w;
        if (lw_plan_wiring(&plan->brief, lamp, &kind->design, &w, NULL))
            say(plan, "wiring",
                "%s: a blade fuse of %g A; a short at the pack would drive about %.0f A, which a glass fuse may not "
                "break. Copper: pack %g mm2, head %g mm2, panel %g mm2 (5 m up the mast).",
                lamp->name, w.fuse_a, w.short_a, w.pack_mm2, w.head_mm2, w.panel_mm2);
    }
}

static void of_one_mast(lw_plan *plan, const lw_plan_kind *kind)
{
    const lw_plan_mast *mast = &kind->mast;
    const char *lamp = plan->brief.want.lamp[kind->kind].name;
    char reason[LW_MAST_NOTE_BYTES];
    if (mast->checked)
        say(plan, "mast",
            "%s: raise the mast with all parts on it, in no wind: %d people at the pole and two at ropes, nobody else "
            "within %.1f m, its foot at least %.1f m from an overhead line up to 50 kV.",
            lamp, mast->result.raising.people, mast->result.raising.clear_m, mast->result.line_clear_m);
    for (size_t i = 0; mast->result.verdict == LW_MAST_ENGINEER && i < mast->result.reasons; i++) {
        lw_mast_note_say(&mast->result.notes[i], mast->result.notes[i].text, reason, sizeof reason);
        say(plan, "mast", "%s: %.340s: a licensed engineer decides before it is built.", lamp, reason);
    }
    if (mast->missing > 0)
        say(plan, "mast", "%s: the shelf lacks %d of the pole that stands (%s); buy them, nothing thinner.", lamp,
            mast->missing, mast->pole_name);
}

static void of_mast(lw_plan *plan)
{
    if (!plan->brief.place.wind_given) {
        say(plan, "mast",
            "No wind was given: mast and base are not checked by this plan, and there is no mast sheet. Local codes "
            "give the wind (place.wind).");
        return;
    }
    say(plan, "mast",
        "A mast that falls can kill. The check is a screening: a licensed engineer decides where local rules ask for "
        "it.");
    for (size_t i = 0; i < plan->kind_count; i++)
        of_one_mast(plan, &plan->kind[i]);
    if (plan->brief.shelf.mast_count == 0)
        say(plan, "mast", "No pole is on the shelf: the steel tubes are to be bought. Their price is not in the sum.");
}

/* Fuse and pack lead are chosen with what else the pack feeds (lw_plan_wiring); nothing of its own is planned. */
static void of_loads(lw_plan *plan)
{
    for (size_t k = 0; k < plan->brief.want.lamp_count; k++) {
        const lw_lamp_kind *lamp = &plan->brief.want.lamp[k];
        for (size_t i = 0; i < lamp->load_count && lw_plan_lacking(plan, k) < lamp->count; i++)
            say(plan, "wiring",
                "%s: the pack also feeds %s, %.3g W. The fuse at the pack and its lead are chosen for both; wire, "
                "socket "
                "and a fuse of its own are not planned: no fuse larger than its wire carries.",
                lamp->name, lamp->load[i].name, lamp->load[i].power_w);
    }
}

/* A lamp that sees its own light blinks; when all night, it is refused in wired.c; a sensor that no one can reach is
 * not moved later. */
static void of_switch(lw_plan *plan)
{
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_dusk_board *dusk = &plan->kind[i].dusk;
        if (!dusk->there || dusk->own_good || dusk->own_blinks)
            continue;
        say(plan, "wiring",
            "%s: its own light puts %.2g lx on the sensor, which turns it off at %.2g lx: %s. Put the sensor above the "
            "head or aside, in a short black tube.",
            plan->brief.want.lamp[plan->kind[i].kind].name, dusk->own_lx,
            fmin(dusk->off.nominal, dusk->off_full.nominal),
            dusk->own_stable ? "it may blink on bright walls or in mist"
                             : "it would blink at dusk until the sky is dark");
    }
}

/* Worst volts and amperes behind a pack that is joined the wrong way round, of all lamps: one caution for the plan. */
static void of_reversed(lw_plan *plan)
{
    double worst_v = 0.0, worst_a = 0.0;
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_circuit_card *card = &plan->kind[i].circuit;
        const lw_circuit_reading *at = card->readings.at[LW_LAMP_REVERSED];
        if (!card->there || card->parts.protection.reverse != LW_REVERSE_NONE)
            continue;
        worst_v = fmax(worst_v, -at[LW_TP_BUS_V].expected);
        worst_a = fmax(worst_a, fabs(at[LW_TP_PACK_A].expected));
    }
    if (worst_v > 0.5)
        say(plan, "wiring",
            "No guard against a reversed pack is planned (build.reverse_guard): joined the wrong way round it drives "
            "%.2g A backwards at %.3g V, and charger and comparator are lost. Put a keyed plug on it that fits one way "
            "only.",
            worst_a, worst_v);
}

/* What the whole lamp as a circuit shows, where it hurts. */
static void of_circuit(lw_plan *plan)
{
    for (size_t i = 0; i < plan->kind_count; i++) {
        const lw_plan_kind *kind = &plan->kind[i];
        const char *lamp = plan->brief.want.lamp[kind->kind].name;
        const lw_lamp_readings *r = &kind->circuit.readings;
        for (size_t f = 0; kind->circuit.there && f < r->finding_count; f++)
            if (r->findings[f].level >= LW_FINDING_DANGER && r->findings[f].condition != LW_LAMP_REVERSED)
                say(plan, "wiring", "%s, %s: %.239s.", lamp, lw_lamp_condition_text(r->findings[f].condition),
                    r->findings[f].text);
        if (!kind->circuit.charge.fills)
            say(plan, "charging",
                "%s: on the hot noon of some months the panel's volts do not fill the pack; take a panel of more cells "
                "or "
                "a charger that tracks.",
                lamp);
        if (kind->circuit.charge.back_ma > 1.0)
            say(plan, "charging", "%s: without a blocking diode %.2g mA flow back into the panel all night.", lamp,
                kind->circuit.charge.back_ma);
    }
}

void lw_plan_cautions(lw_plan *plan)
{
    plan->caution_count = 0;
    of_pack(plan);
    of_charging(plan);
    if (plan->brief.shelf.board_count == 0)
        say(plan, "pack",
            "No protection board is on the shelf: buy one for each pack that watches and balances every "
            "group. Its price is not in the sum.");
    say(plan, "wiring",
        "Put the fuse at the pack's positive lead before any other wire is joined, then the sense wires in their "
        "order, "
        "then the protection board. Connect the panel last.");
    of_wiring(plan);
    of_loads(plan);
    of_switch(plan);
    of_reversed(plan);
    of_circuit(plan);
    of_mast(plan);
}
