/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values of a switching circuit: see lanewick/switch_values.h. Every choice is among what is at hand, and what is told
 * back is what those parts do.
 */
#include "lanewick/switch_values.h"

#include <math.h>

enum { VALUES = 320, TRIED = 32, TIMER_LAST = 14 };
/* Film capacitors of 10 %, counter chips with 5 % and 2.3 R C, timer chips: data sheets of common parts (from memory).
 */
static const double timer_factor = 2.3, capacitor_part = 0.10, chip_part = 0.05, warmth_part = 0.008,
                    ldr_warmth_part = 0.10;
static const double dim_hz = 1200.0, dim_f = 10e-9, ln2 = 0.693147180559945;
static const double counter_a = 0.03e-3, dimmer_a = 0.15e-3;

lw_switch_parts lw_switch_parts_default(void)
{
    return (lw_switch_parts){.resistors = {.series = LW_E12, .tolerance = 0.05},
                             .r10_low_ohm = 10e3,
                             .r10_high_ohm = 20e3,
                             .gamma_low = 0.5,
                             .gamma_high = 0.7,
                             .supply_a = 0.6e-3,
                             .offset_v = 0.005,
                             .headroom_v = 1.5};
}

double lw_timer_h(double ohm, double farad, int stages, double factor)
{
    return ldexp(1.0, stages - 1) * factor * ohm * farad / 3600.0;
}

double lw_dimmer_ohm(double seconds, double farad)
{
    return seconds / (ln2 * farad);
}

/* How far three resistors are from a good reference: off at 3.5 times on, in the middle of the supply, about 100 kohm.
 * INFINITY: not usable. */
static double miss(const lw_switch_parts *parts, const lw_switch_wish *wish, double gamma, const double r[3])
{
    double low, high;
    lw_comparator_levels(r[0], r[1], r[2], &low, &high);
    const double apart = pow(high * (1.0 - low) / (low * (1.0 - high)), 1.0 / gamma);
    const double room_v = wish->empty_v * (1.0 - high) - parts->offset_v;
    if (apart < 3.0 || apart > 6.0 || room_v < parts->headroom_v || low < 0.1)
        return INFINITY;
    return fabs(log(apart / 3.5)) + fabs(log(0.5 * (low + high) / 0.5)) + 0.05 * fabs(log(r[0] / 100e3));
}

static bool choose_reference(const lw_switch_parts *parts, const lw_switch_wish *wish, double gamma,
                             lw_switch_values *out, lw_error *err)
{
    double at_hand[VALUES], best = INFINITY;
    const size_t n = lw_resistors_between(&parts->resistors, 33e3, 1e6, at_hand, VALUES);
    const size_t step = 1 + n / TRIED; /* a fine series needs no more than every few values */
    for (size_t i = 0; i < n; i += step)
        for (size_t k = 0; k < n; k += step)
            for (size_t m = 0; m < n; m += step) {
                const double r[3] = {at_hand[i], at_hand[k], at_hand[m]}, here = miss(parts, wish, gamma, r);
                if (here >= best)
                    continue;
                best = here;
                out->r1_ohm = r[0];
                out->r2_ohm = r[1];
                out->r3_ohm = r[2];
            }
    if (isfinite(best))
        return true;
    return lw_fail(err, LW_NOT_COMPUTABLE, "resistors",
                   "No three resistors at hand between 33 kohm and 1 Mohm make a reference that works at %.3g V: its "
                   "inputs end %.3g V below the supply. Take a comparator that works up to its supply, or add values "
                   "such as 68, 100, 220 and 470 kohm.",
                   wish->empty_v, parts->headroom_v);
}

static bool choose_divider(const lw_switch_parts *parts, const lw_switch_wish *wish, double gamma,
                           lw_switch_values *out, lw_error *err)
{
    const double r10 = sqrt(parts->r10_low_ohm * parts->r10_high_ohm);
    lw_comparator_levels(out->r1_ohm, out->r2_ohm, out->r3_ohm, &out->low, &out->high);
    out->resistor_ohm =
        lw_resistor_near(&parts->resistors, lw_ldr_ohm(r10, gamma, wish->wanted_lx) * out->low / (1.0 - out->low));
    const lw_dusk_divider divider = {r10, gamma, out->resistor_ohm, false};
    out->lux_on = lw_dusk_lux(&divider, out->low);
    out->lux_off = lw_dusk_lux(&divider, out->high);
    if (out->lux_on > wish->wanted_lx / 3.0 && out->lux_on < 3.0 * wish->wanted_lx)
        return true;
    return lw_fail(
        err, LW_NOT_COMPUTABLE, "resistors",
        "With the resistors at hand the switch would work at %.3g lx, not near the %.3g lx wanted: add about "
        "%.3g ohm.",
        out->lux_on, wish->wanted_lx, lw_ldr_ohm(r10, gamma, wish->wanted_lx) * out->low / (1.0 - out->low));
}

/* Resistor, capacitor and output that come nearest to the hours. */
static bool choose_timer(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out, lw_error *err)
{
    static const double film_uf[] = {0.47, 0.22, 1.0, 0.1};
    double best = INFINITY;
    for (int stages = TIMER_LAST; stages >= TIMER_LAST - 4; stages--)
        for (size_t c = 0; c < sizeof film_uf / sizeof film_uf[0]; c++) {
            const double farad = film_uf[c] * 1e-6;
            const double ideal = wish->step_h / lw_timer_h(1.0, farad, stages, timer_factor);
            const double ohm = lw_resistor_near(&parts->resistors, ideal);
            const double here = fabs(log(ohm / ideal)) + 1e-3 * (TIMER_LAST - stages) + 1e-3 * (double)c;
            if (ohm < 10e3 || ohm > 4.7e6 || here >= best)
                continue;
            best = here;
            out->timer_ohm = ohm;
            out->timer_uf = film_uf[c];
            out->timer_stages = stages;
        }
    if (!(best < 0.15))
        return lw_fail(err, LW_NOT_COMPUTABLE, "resistors",
                       "No resistor at hand between 10 kohm and 4.7 Mohm times %.3g h: add one near %.3g ohm.",
                       wish->step_h, wish->step_h / lw_timer_h(1.0, 0.47e-6, TIMER_LAST, timer_factor));
    const double r = parts->resistors.tolerance;
    out->timer_h = lw_timer_h(out->timer_ohm, out->timer_uf * 1e-6, out->timer_stages, timer_factor);
    out->timer_low_h = out->timer_h * (1.0 - r) * (1.0 - capacitor_part) * (1.0 - chip_part);
    out->timer_high_h = out->timer_h * (1.0 + r) * (1.0 + capacitor_part) * (1.0 + chip_part);
    return true;
}

static bool choose_dimmer(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out,
                          lw_error *err)
{
    const double on = lw_resistor_near(&parts->resistors, lw_dimmer_ohm(wish->level / dim_hz, dim_f));
    const double off = lw_resistor_near(&parts->resistors, lw_dimmer_ohm((1.0 - wish->level) / dim_hz, dim_f));
    const double t = parts->resistors.tolerance;
    out->dim_on_ohm = on;
    out->dim_off_ohm = off;
    out->dim_nf = dim_f * 1e9;
    out->dim_hz = 1.0 / (ln2 * dim_f * (on + off));
    out->level = on / (on + off);
    out->level_low = on * (1.0 - t) / (on * (1.0 - t) + off * (1.0 + t));
    out->level_high = on * (1.0 + t) / (on * (1.0 + t) + off * (1.0 - t));
    if (fabs(out->level - wish->level) <= 0.05 && out->dim_hz >= 500.0 && on >= 1e3 && off >= 1e3)
        return true;
    return lw_fail(
        err, LW_NOT_COMPUTABLE, "resistors",
        "With the resistors at hand the lower level would be %.2g at %.3g Hz, not %.2g at 1200 Hz: add about "
        "%.3g and %.3g ohm.",
        out->level, out->dim_hz, wish->level, lw_dimmer_ohm(wish->level / dim_hz, dim_f),
        lw_dimmer_ohm((1.0 - wish->level) / dim_hz, dim_f));
}

bool lw_switch_values_for(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out,
                          lw_error *err)
{
    const double gamma = 0.5 * (parts->gamma_low + parts->gamma_high);
    const bool timed = wish->kind == LW_SWITCH_DUSK_TIMER || wish->kind == LW_SWITCH_TWO_LEVELS;
    *out = (lw_switch_values){.level = 1.0};
    if (!choose_reference(parts, wish, gamma, out, err) || !choose_divider(parts, wish, gamma, out, err) ||
        (timed && !choose_timer(parts, wish, out, err)) ||
        (wish->kind == LW_SWITCH_TWO_LEVELS && !choose_dimmer(parts, wish, out, err)))
        return false;
    if (wish->kind == LW_SWITCH_DUSK_TIMER)
        out->level = 0.0;
    /* the photoresistor's branch carries current by day, half of the time */
    out->standby_a = parts->supply_a + wish->middle_v / (out->r1_ohm + out->r2_ohm) +
                     0.5 * wish->middle_v / out->resistor_ohm + (timed ? counter_a : 0.0) +
                     (wish->kind == LW_SWITCH_TWO_LEVELS ? dimmer_a : 0.0);
    return true;
}

lw_dusk_parts lw_switch_bands(const lw_switch_parts *parts, const lw_switch_values *values, double supply_v)
{
    return (lw_dusk_parts){.r10_low_ohm = parts->r10_low_ohm / (1.0 + ldr_warmth_part),
                           .r10_high_ohm = parts->r10_high_ohm * (1.0 + ldr_warmth_part),
                           .gamma_low = parts->gamma_low,
                           .gamma_high = parts->gamma_high,
                           .resistor_ohm = values->resistor_ohm,
                           .r1_ohm = values->r1_ohm,
                           .r2_ohm = values->r2_ohm,
                           .r3_ohm = values->r3_ohm,
                           .tolerance = parts->resistors.tolerance + warmth_part,
                           .offset = parts->offset_v / supply_v};
}
