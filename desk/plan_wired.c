/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What is wired in the lamps of a plan, in plain English.
 */
#include "plan_text.h"

#include <stdio.h>

/* 15k, 2.2M */
static char *ohm_text(double ohm, char out[16])
{
    if (ohm >= 1e6)
        (void)snprintf(out, 16, "%.3gM", ohm / 1e6);
    else
        (void)snprintf(out, 16, "%.3g%s", ohm >= 1e3 ? ohm / 1e3 : ohm, ohm >= 1e3 ? "k" : "");
    return out;
}

static void timer(const lw_text *text, const lw_switch_values *v)
{
    char a[16], b[16];
    if (v->timer_h > 0.0)
        lw_text_line(text, "    timer: %s ohm, %g uF, output %d of the counter: %.2g h (worst case %.2g to %.2g)\n",
                     ohm_text(v->timer_ohm, a), v->timer_uf, v->timer_stages, v->timer_h, v->timer_low_h,
                     v->timer_high_h);
    if (v->dim_hz > 0.0)
        lw_text_line(text, "    lower level: %s and %s ohm, %g nF: %.0f %% (worst case %.0f to %.0f) at %.0f Hz\n",
                     ohm_text(v->dim_on_ohm, a), ohm_text(v->dim_off_ohm, b), v->dim_nf, 100.0 * v->level,
                     100.0 * v->level_low, 100.0 * v->level_high, v->dim_hz);
}

static void of_kind(const lw_text *text, const char *name, const lw_dusk_board *d)
{
    const lw_switch_values *v = &d->values;
    char rb[16], r1[16], r2[16], r3[16];
    (void)fprintf(text->out, "  %s\n", name);
    lw_text_wrap(text, 4, lw_switch_sensor_parts(v->sensor));
    if (*lw_switch_circuit_of(d->kind)->parts)
        lw_text_wrap(text, 4, lw_switch_circuit_of(d->kind)->parts);
    lw_text_line(text, "    Rb %s, R1 %s, R2 %s, R3 %s ohm, for %.2g lx; worst case of parts, 5 to 45 degC:\n",
                 ohm_text(v->resistor_ohm, rb), ohm_text(v->r1_ohm, r1), ohm_text(v->r2_ohm, r2),
                 ohm_text(v->r3_ohm, r3), d->wanted_lx);
    lw_text_line(text, "    full pack, as at dusk: on at %.3g lx (%.3g to %.3g), off at %.3g lx\n", d->on_full.nominal,
                 d->on_full.worst_low, d->on_full.worst_high, d->off_full.nominal);
    lw_text_line(text, "    empty pack: on at %.3g lx (%.3g to %.3g), off at %.3g lx\n", d->on.nominal, d->on.worst_low,
                 d->on.worst_high, d->off.nominal);
    lw_text_line(text, "    %g uF at its sensor: twice the light of switch-off must last %.0f s\n", v->delay_uf,
                 v->delay_s);
    timer(text, v);
    lw_text_line(text, "    clear sky, minutes longer than wished: dusk %+.0f (%+.0f to %+.0f; worst %+.0f to %+.0f)\n",
                 d->dusk.nominal, d->dusk.p05, d->dusk.p95, d->dusk.worst_low, d->dusk.worst_high);
    lw_text_line(text,
                 "                                            dawn %+.0f (%+.0f to %+.0f; worst %+.0f to %+.0f)\n",
                 d->dawn.nominal, d->dawn.p05, d->dawn.p95, d->dawn.worst_low, d->dawn.worst_high);
    lw_text_line(
        text,
        "    counted in the nights: %.0f min more a night under average cloud, give or take %.0f; %.2g mA, %.2g "
        "Wh a month\n",
        d->longer_min, d->spread_min, 1e3 * v->standby_a, d->standby_wh_month);
    lw_text_line(text, "    its own light on the sensor: %.2g lx, good up to %.2g lx\n", d->own_lx, d->own_limit_lx);
}

/* Where the panel has least room over the full pack. */
static int tightest(const lw_charge_year *year)
{
    int least = 0;
    for (int m = 1; m < 12; m++)
        if (year->month[m].panel_v - year->month[m].pack_v < year->month[least].panel_v - year->month[least].pack_v)
            least = m;
    return least;
}

static void of_circuit(const lw_text *text, const char *name, const lw_circuit_card *card)
{
    const lw_charge_year *year = &card->charge;
    const int m = tightest(year);
    char line[400];
    (void)snprintf(
        line, sizeof line,
        "%s: on a hot noon of %s the panel gives %.1f V, the full pack wants %.1f V: %s, %.2g A. At night %.2g mA "
        "flow back.",
        name, lw_month_text(text, m + 1), year->month[m].panel_v, year->month[m].pack_v,
        year->fills ? "it fills all year" : "it does NOT fill", year->month[m].amps, year->back_ma);
    lw_text_wrap(text, 2, line);
    if (year->bleed_h > 0.0) {
        (void)snprintf(line, sizeof line, "A board that bleeds 50 mA evens 1 %% between groups in %.2g h.",
                       year->bleed_h);
        lw_text_wrap(text, 4, line);
    }
    if (card->there) {
        const lw_circuit_reading *pack = &card->readings.at[LW_LAMP_MIDNIGHT][LW_TP_PACK_A];
        const lw_circuit_reading *string = &card->readings.at[LW_LAMP_MIDNIGHT][LW_TP_STRING_A];
        const lw_circuit_reading *head = &card->readings.at[LW_LAMP_MIDNIGHT][LW_TP_HEAD_V];
        (void)snprintf(
            line, sizeof line,
            "Midnight, pack half full: %.2f A out of the pack (%.2f to %.2f), %.1f V over the head, %.0f mA in "
            "the first string.",
            pack->expected, pack->low, pack->high, head->expected, 1e3 * string->expected);
    } else {
        (void)snprintf(line, sizeof line, "No circuit was solved: %s", card->why_not);
    }
    lw_text_wrap(text, 4, line);
}

void lw_plan_wired_text(const lw_text *text, const lw_plan *plan)
{
    if (plan->brief.want.hand_switch)
        lw_text_heading(text, "The switch made by hand");
    for (size_t i = 0; i < plan->kind_count; i++)
        if (plan->kind[i].dusk.there)
            of_kind(text, plan->brief.want.lamp[plan->kind[i].kind].name, &plan->kind[i].dusk);
    lw_text_heading(text, "Charging and test points (every reading: lanewick circuit PLAN.json)");
    for (size_t i = 0; i < plan->kind_count; i++)
        of_circuit(text, plan->brief.want.lamp[plan->kind[i].kind].name, &plan->kind[i].circuit);
}
