/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Values of a switch's sensor, and its spread: see switch_sensors.h and lanewick/switch_values.h.
 */
#include "switch_sensors.h"

#include "lanewick/panel_switch.h"
#include "lanewick/trigger.h"

#include <math.h>

enum { VALUES = 320, TRIED = 32 };
static const double warmth_part = 0.008, ldr_warmth_part = 0.10;
static const double wanted_delay_s = 10.0;
static const double least_ohm = 100.0, most_ohm = 10e6; /* of Rb */
/* Input current of a bipolar comparator; scatter of a panel's current against its label (data sheets; common practice).
 */
static const double bias_a = 0.25e-6, isc_part = 0.10;

static double middle_gamma(const lw_switch_parts *parts)
{
    return 0.5 * (parts->gamma_low + parts->gamma_high);
}

static double middle_r10(const lw_switch_parts *parts)
{
    return sqrt(parts->r10_low_ohm * parts->r10_high_ohm);
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
    if (!(out->resistor_ohm >= least_ohm && out->resistor_ohm <= most_ohm))
        return lw_fail(
            err, LW_NOT_COMPUTABLE, "r10_ohm",
            "This photoresistor cannot reach %.3g lux: it has %.3g ohm there and would need %.3g ohm below it "
            "(100 ohm to 10 Mohm can be built). Take another type of photoresistor or another light.",
            wish->wanted_lx, lw_ldr_ohm(r10, gamma, wish->wanted_lx), out->resistor_ohm);
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

/* A capacitor of E3 beside the sensor so that headlights and lightning do not end the night: twice the light of
 * switch-off must last some ten seconds. seconds_per_farad: what one farad makes of it. */
static void choose_delay(double seconds_per_farad, lw_switch_values *out)
{
    const double ideal_uf = fmin(2200.0, fmax(1.0, 1e6 * wanted_delay_s / seconds_per_farad));
    out->delay_uf = lw_eseries_round(ideal_uf, LW_E3, LW_ROUND_NEAREST);
    out->delay_s = seconds_per_farad * 1e-6 * out->delay_uf;
}

/* The capacitor lies over Rb and begins empty. */
static void delay_of_divider(const lw_switch_parts *parts, lw_switch_values *out)
{
    const double ldr = lw_ldr_ohm(middle_r10(parts), middle_gamma(parts), 2.0 * out->lux_off);
    const double ends = out->resistor_ohm / (out->resistor_ohm + ldr);
    const double tau = ldr * ends; /* of one farad: photoresistor and Rb side by side */
    choose_delay(tau * log(ends / fmax(0.02 * ends, ends - out->high)), out);
}

static bool by_comparator(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out,
                          lw_error *err)
{
    const double gamma = middle_gamma(parts);
    if (!choose_reference(parts, wish, gamma, out, err) || !choose_divider(parts, wish, gamma, out, err))
        return false;
    delay_of_divider(parts, out);
    /* the photoresistor's branch carries current by day, half of the time */
    out->standby_a =
        parts->supply_a + wish->middle_v / (out->r1_ohm + out->r2_ohm) + 0.5 * wish->middle_v / out->resistor_ohm;
    return true;
}

static lw_trigger_parts trigger_parts(const lw_switch_parts *parts, const lw_switch_values *v, double supply_v)
{
    const double warm = 1.0 + ldr_warmth_part;
    return (lw_trigger_parts){.middle = {.r10_ohm = middle_r10(parts),
                                         .gamma = middle_gamma(parts),
                                         .resistor_ohm = v->resistor_ohm,
                                         .r1_ohm = v->r1_ohm,
                                         .r2_ohm = v->r2_ohm,
                                         .r3_ohm = v->r3_ohm,
                                         .vbe_v = 0.5 * (parts->vbe_low_v + parts->vbe_high_v),
                                         .gain = sqrt(parts->gain_low * parts->gain_high),
                                         .celsius = 25.0,
                                         .supply_v = supply_v},
                              .r10_low_ohm = parts->r10_low_ohm / warm,
                              .r10_high_ohm = parts->r10_high_ohm * warm,
                              .gamma_low = parts->gamma_low,
                              .gamma_high = parts->gamma_high,
                              .tolerance = parts->resistors.tolerance + warmth_part,
                              .vbe_low_v = parts->vbe_low_v,
                              .vbe_high_v = parts->vbe_high_v,
                              .mismatch_v = 0.010,
                              .gain_low = parts->gain_low,
                              .gain_high = parts->gain_high,
                              .celsius_low = 5.0,
                              .celsius_high = 45.0};
}

static bool by_transistors(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out,
                           lw_error *err)
{
    lw_trigger t = trigger_parts(parts, out, wish->middle_v).middle;
    lw_trigger_levels levels;
    if (!lw_trigger_choose(&parts->resistors, wish->wanted_lx, wish->empty_v, &t, err) ||
        !lw_trigger_at(&t, &levels, err))
        return false;
    out->resistor_ohm = t.resistor_ohm;
    out->r1_ohm = t.r1_ohm;
    out->r2_ohm = t.r2_ohm;
    out->r3_ohm = t.r3_ohm;
    out->low = levels.on_v / wish->middle_v;
    out->high = levels.off_v / wish->middle_v;
    out->lux_on = levels.lux_on;
    out->lux_off = levels.lux_off;
    delay_of_divider(parts, out);
    out->standby_a = 0.5 * (levels.day_a + levels.night_a);
    return true;
}

static lw_panel_switch_parts panel_parts(const lw_switch_parts *parts, const lw_switch_values *v, double supply_v)
{
    return (lw_panel_switch_parts){
        .middle = {.isc_a = v->panel_isc_a,
                   .shunt_ohm = sqrt(parts->shunt_low_ohm * parts->shunt_high_ohm) / v->panels,
                   .bleeder_ohm = v->resistor_ohm,
                   .r1_ohm = v->r1_ohm,
                   .r2_ohm = v->r2_ohm,
                   .r3_ohm = v->r3_ohm,
                   .supply_v = supply_v},
        .isc_part = isc_part,
        .shunt_low_ohm = parts->shunt_low_ohm / v->panels,
        .shunt_high_ohm = parts->shunt_high_ohm / v->panels,
        .tolerance = parts->resistors.tolerance + warmth_part,
        .leak_a = parts->leak_a,
        .offset_v = parts->offset_v + (parts->supply_a > 0.1e-3 ? bias_a * lw_panel_input_ohm : 0.0)};
}

static bool by_panel(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out, lw_error *err)
{
    out->panel_isc_a = wish->panel_isc_a;
    out->panels = wish->panels;
    lw_panel_switch_parts p = panel_parts(parts, out, wish->middle_v);
    double on_v, off_v;
    p.bleed_part_ohm = wish->panel_vmp_v * wish->panel_vmp_v / wish->panel_w;
    if (!lw_panel_switch_choose(&parts->resistors, wish->wanted_lx, &p, err) ||
        !lw_panel_switch_at(&p.middle, &on_v, &off_v, &out->lux_on, &out->lux_off, err))
        return false;
    out->resistor_ohm = p.middle.bleeder_ohm;
    out->r1_ohm = p.middle.r1_ohm;
    out->r2_ohm = p.middle.r2_ohm;
    out->r3_ohm = p.middle.r3_ohm;
    out->low = on_v / wish->middle_v;
    out->high = off_v / wish->middle_v;
    choose_delay(lw_panel_input_ohm * log(2.0), out);
    /* the bleeder takes from the panel by day; counted as if the pack gave it */
    out->standby_a = parts->supply_a + wish->middle_v / (out->r1_ohm + out->r2_ohm) +
                     0.5 * wish->panel_vmp_v * wish->panel_vmp_v / (out->resistor_ohm * wish->middle_v);
    return true;
}

bool lw_switch_sensor_for(const lw_switch_parts *parts, const lw_switch_wish *wish, lw_switch_values *out,
                          lw_error *err)
{
    switch (wish->sensor) {
    case LW_SENSE_TRANSISTORS:
        return by_transistors(parts, wish, out, err);
    case LW_SENSE_PANEL:
        return by_panel(parts, wish, out, err);
    case LW_SENSE_COMPARATOR:
    case LW_SENSE_COUNT:
        break;
    }
    return by_comparator(parts, wish, out, err);
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

bool lw_switch_tolerance(const lw_switch_parts *parts, const lw_switch_values *values, double supply_v, size_t samples,
                         lw_arena *arena, lw_dusk_spread *on, lw_dusk_spread *off, lw_error *err)
{
    if (values->sensor == LW_SENSE_TRANSISTORS) {
        const lw_trigger_parts trigger = trigger_parts(parts, values, supply_v);
        return lw_trigger_tolerance(&trigger, samples, 1, arena, on, off, err);
    }
    if (values->sensor == LW_SENSE_PANEL) {
        const lw_panel_switch_parts panel = panel_parts(parts, values, supply_v);
        return lw_panel_switch_tolerance(&panel, samples, 1, arena, on, off, err);
    }
    const lw_dusk_parts bands = lw_switch_bands(parts, values, supply_v);
    return lw_dusk_tolerance(&bands, samples, 1, arena, on, off, err);
}

bool lw_switch_draws(const lw_switch_parts *parts, const lw_switch_values *values, double supply_v, size_t samples,
                     double *lux_on, double *lux_off, lw_error *err)
{
    if (values->sensor == LW_SENSE_TRANSISTORS) {
        const lw_trigger_parts trigger = trigger_parts(parts, values, supply_v);
        return lw_trigger_draws(&trigger, samples, 2, lux_on, lux_off, err);
    }
    if (values->sensor == LW_SENSE_PANEL) {
        const lw_panel_switch_parts panel = panel_parts(parts, values, supply_v);
        return lw_panel_switch_draws(&panel, samples, 2, lux_on, lux_off, err);
    }
    const lw_dusk_parts bands = lw_switch_bands(parts, values, supply_v);
    return lw_dusk_draws(&bands, samples, 2, lux_on, lux_off, err);
}
