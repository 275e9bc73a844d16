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
        (void)fprintf(
            text->out, "    timer: %s ohm, %g uF, output %d of the counter: %.2g h (worst case %.2g to %.2g)\n",
            ohm_text(v->timer_ohm, a), v->timer_uf, v->timer_stages, v->timer_h, v->timer_low_h, v->timer_high_h);
    if (v->dim_hz > 0.0)
        (void)fprintf(text->out,
                      "    lower level: %s and %s ohm, %g nF: %.0f %% (worst case %.0f to %.0f) at %.0f Hz\n",
                      ohm_text(v->dim_on_ohm, a), ohm_text(v->dim_off_ohm, b), v->dim_nf, 100.0 * v->level,
                      100.0 * v->level_low, 100.0 * v->level_high, v->dim_hz);
}

static void of_kind(const lw_text *text, const char *name, const lw_dusk_board *d)
{
    const lw_switch_values *v = &d->values;
    char rb[16], r1[16], r2[16], r3[16];
    (void)fprintf(text->out, "  %s: %s\n", name, lw_switch_circuit_of(d->kind)->parts);
    (void)fprintf(text->out, "    Rb %s, R1 %s, R2 %s, R3 %s ohm: on at %.2g lx, off at %.2g lx (%.2g wanted)\n",
                  ohm_text(v->resistor_ohm, rb), ohm_text(v->r1_ohm, r1), ohm_text(v->r2_ohm, r2),
                  ohm_text(v->r3_ohm, r3), d->on.nominal, d->off.nominal, d->wanted_lx);
    timer(text, v);
    (void)fprintf(text->out,
                  "    clear sky, minutes longer than wished: dusk %+.0f (%+.0f to %+.0f; worst %+.0f to %+.0f)\n",
                  d->dusk.nominal, d->dusk.p05, d->dusk.p95, d->dusk.worst_low, d->dusk.worst_high);
    (void)fprintf(text->out,
                  "                                            dawn %+.0f (%+.0f to %+.0f; worst %+.0f to %+.0f)\n",
                  d->dawn.nominal, d->dawn.p05, d->dawn.p95, d->dawn.worst_low, d->dawn.worst_high);
    (void)fprintf(
        text->out,
        "    counted in the nights: %.0f min more a night under average cloud, give or take %.0f; %.2g mA, %.2g "
        "Wh a month\n",
        d->longer_min, d->spread_min, 1e3 * v->standby_a, d->standby_wh_month);
    (void)fprintf(text->out, "    its own light on the sensor: %.2g lx, good up to %.2g lx\n", d->own_lx,
                  d->own_limit_lx);
}

void lw_plan_wired_text(const lw_text *text, const lw_plan *plan)
{
    if (!plan->brief.want.hand_switch)
        return;
    lw_text_heading(text, "The switch made by hand");
    for (size_t i = 0; i < plan->kind_count; i++)
        if (plan->kind[i].dusk.there)
            of_kind(text, plan->brief.want.lamp[plan->kind[i].kind].name, &plan->kind[i].dusk);
}
