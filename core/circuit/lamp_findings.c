/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * What a lamp's readings mean: failures that would hurt, and what answers them.
 */
#include "lamp_inside.h"
#include "lanewick/wire.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>

static void add(lw_lamp_readings *out, lw_lamp_finding finding, const char *format, va_list arguments)
    __attribute__((format(printf, 3, 0)));
static void add(lw_lamp_readings *out, lw_lamp_finding finding, const char *format, va_list arguments)
{
    if (out->finding_count >= LW_LAMP_FINDINGS)
        return;
    (void)vsnprintf(finding.text, sizeof finding.text, format, arguments);
    out->findings[out->finding_count++] = finding;
}

void lw_lamp_find(lw_lamp_readings *out, lw_finding_level level, lw_lamp_condition condition, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    add(out, (lw_lamp_finding){.level = level, .condition = condition}, format, arguments);
    va_end(arguments);
}

void lw_lamp_refuse(lw_lamp_readings *out, const char *refusal, lw_lamp_condition condition, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    add(out, (lw_lamp_finding){.level = LW_FINDING_REFUSED, .condition = condition, .refusal = refusal}, format,
        arguments);
    va_end(arguments);
}

const char *lw_finding_level_text(lw_finding_level level)
{
    static const char *const texts[] = /* words */ {"good", "caution", "danger", "refused"};
    return texts[level];
}

const lw_lamp_finding *lw_lamp_refusal(const lw_lamp_readings *readings)
{
    for (size_t i = 0; i < readings->finding_count; i++)
        if (readings->findings[i].level == LW_FINDING_REFUSED)
            return &readings->findings[i];
    return NULL;
}

static double at(const lw_lamp_readings *out, lw_lamp_condition condition, lw_test_point point)
{
    return out->at[condition][point].expected;
}

static void judge_day(const lw_lamp_circuit *l, lw_lamp_readings *out)
{
    if (at(out, LW_LAMP_NOON_FULL, LW_TP_LAMP_A) > 0.001)
        lw_lamp_find(out, LW_FINDING_DANGER, LW_LAMP_NOON_FULL,
                     "the lamp burns by day: the switch does not let go at noon");
    const double charge = at(out, LW_LAMP_NOON_CHARGING, LW_TP_CHARGE_A);
    const double most =
        0.9 * 0.8 *
        (l->charger.switching ? l->charger.efficiency * l->panel.vmp_v * l->panel.imp_a / (3.7 * l->pack.series)
                              : l->panel.imp_a);
    if (charge < 0.5 * fmin(most, l->charger.limit_a))
        lw_lamp_find(out, LW_FINDING_CAUTION, LW_LAMP_NOON_CHARGING,
                     "the panel charges with only %.3g A on a hot noon: its voltage does not fit the pack", charge);
    const double heat =
        (at(out, LW_LAMP_NOON_CHARGING, LW_TP_CHARGER_V) - at(out, LW_LAMP_NOON_CHARGING, LW_TP_BUS_V)) * charge;
    if (!l->charger.switching && heat > 1.0)
        lw_lamp_find(out, LW_FINDING_CAUTION, LW_LAMP_NOON_CHARGING,
                     "the linear charger burns %.2g W: it throttles itself, give it air and copper", heat);
}

static void judge_night(const lw_lamp_circuit *l, lw_lamp_readings *out)
{
    if (at(out, LW_LAMP_DUSK, LW_TP_LAMP_A) < 1e-4)
        lw_lamp_find(out, LW_FINDING_DANGER, LW_LAMP_DUSK, "the lamp stays dark at dusk");
    const double full_a = out->at[LW_LAMP_DUSK][LW_TP_STRING_A].high;
    if (full_a > l->head.led_max_a)
        lw_lamp_refuse(
            out, "leds_burn_out", LW_LAMP_DUSK,
            "a string may carry %.3g mA with the full pack, its LEDs stand %.3g mA and burn out: a greater ballast "
            "resistor",
            1e3 * full_a, 1e3 * l->head.led_max_a);
    if (at(out, LW_LAMP_EMPTY, LW_TP_STRING_A) < 0.1 * at(out, LW_LAMP_DUSK, LW_TP_STRING_A))
        lw_lamp_find(
            out, LW_FINDING_CAUTION, LW_LAMP_EMPTY,
            "before the pack is empty the light falls below a tenth: one LED fewer in each string, or a driver");
    if (at(out, LW_LAMP_MIDNIGHT, LW_TP_PANEL_A) < -0.001)
        lw_lamp_find(out, LW_FINDING_CAUTION, LW_LAMP_MIDNIGHT,
                     "%.3g mA flow back into the panel by night: a blocking diode",
                     -1e3 * at(out, LW_LAMP_MIDNIGHT, LW_TP_PANEL_A));
    const double gate = at(out, LW_LAMP_EMPTY, LW_TP_GATE_V);
    if (gate < l->dusk.fet_gate_v)
        lw_lamp_find(
            out, LW_FINDING_CAUTION, LW_LAMP_EMPTY,
            "the empty pack gives the transistor's gate %.3g V, it is guaranteed at %.3g V: take a type for less", gate,
            l->dusk.fet_gate_v);
    if (at(out, LW_LAMP_DUSK, LW_TP_GATE_V) > 12.0 && l->dusk.fet_gate_v <= 2.5)
        lw_lamp_find(out, LW_FINDING_CAUTION, LW_LAMP_DUSK, "divide the gate voltage: parts for 2.5 V stand 8 to 12 V");
}

static void judge_torn(lw_lamp_readings *out)
{
    const double back = at(out, LW_LAMP_PANEL_OFF, LW_TP_PACK_A);
    if (back > 0.2)
        lw_lamp_find(out, LW_FINDING_DANGER, LW_LAMP_PANEL_OFF, "%.3g A flow out of the pack into the torn wires",
                     back);
    else
        lw_lamp_find(out, LW_FINDING_GOOD, LW_LAMP_PANEL_OFF,
                     "nothing burns: the charger lets nothing back (%.3g A leave the pack)", back);
}

static void judge_short(const lw_lamp_circuit *l, lw_lamp_readings *out)
{
    const double amps = at(out, LW_LAMP_SHORTED, LW_TP_PACK_A);
    const double wire_s = lw_wire_fault_a2s(fmin(l->head_wire.area_mm2, l->pack_wire.area_mm2)) / (amps * amps);
    const double switch_w = at(out, LW_LAMP_SHORTED, LW_TP_SWITCH_V) * amps;
    const double breaks = lw_fuse_breaks_a(l->protection.fuse_kind, l->protection.fuse_a);
    if (amps > breaks)
        lw_lamp_refuse(out, "short_not_ended", LW_LAMP_SHORTED,
                       "%.3g A flow; this kind of fuse breaks at most %.3g A and would burn on: fit a blade fuse", amps,
                       breaks);
    if (amps < 2.0 * l->protection.fuse_a && amps < l->protection.trip_a)
        lw_lamp_refuse(
            out, "short_not_ended", LW_LAMP_SHORTED,
            "only %.3g A flow: neither the board (%.3g A) nor the fuse (%.3g A) acts, the wire goes on heating; a "
            "smaller fuse or thicker wire",
            amps, l->protection.trip_a, l->protection.fuse_a);
    else if (amps >= l->protection.trip_a)
        lw_lamp_find(
            out, LW_FINDING_GOOD, LW_LAMP_SHORTED,
            "%.3g A flow; the protection board opens (%.3g A), the fuse of %.3g A stands behind it; the wire would "
            "stand %.2g s, the transistor takes %.3g W meanwhile",
            amps, l->protection.trip_a, l->protection.fuse_a, wire_s, switch_w);
    else
        lw_lamp_find(
            out, LW_FINDING_CAUTION, LW_LAMP_SHORTED,
            "%.3g A flow; the board (%.3g A) does not open, the fuse of %.3g A must; the wire would stand %.2g s", amps,
            l->protection.trip_a, l->protection.fuse_a, wire_s);
}

static void judge_reversed(const lw_lamp_circuit *l, lw_lamp_readings *out)
{
    const double bus = at(out, LW_LAMP_REVERSED, LW_TP_BUS_V), amps = -at(out, LW_LAMP_REVERSED, LW_TP_PACK_A);
    const double led_v = -bus / l->head.leds;
    if (l->protection.reverse == LW_REVERSE_DIODE && amps > 2.0 * l->protection.fuse_a)
        lw_lamp_find(out, LW_FINDING_GOOD, LW_LAMP_REVERSED,
                     "%.3g A through the shunt diode blow the fuse; the rest sees %.2g V", amps, bus);
    else if (bus < -0.5)
        lw_lamp_find(out, LW_FINDING_DANGER, LW_LAMP_REVERSED,
                     "charger and comparator see %.3g V the wrong way (%.3g A): they are destroyed; keyed plugs, and a "
                     "transistor or a shunt diode as guard",
                     bus, amps);
    else
        lw_lamp_find(out, LW_FINDING_GOOD, LW_LAMP_REVERSED, "the guard holds: %.3g V and %.3g mA behind it", bus,
                     1e3 * amps);
    if (l->head.driver == LW_HEAD_DIRECT && led_v > 5.0)
        lw_lamp_find(out, LW_FINDING_DANGER, LW_LAMP_REVERSED,
                     "each LED sees %.3g V backwards, more than the 5 V it stands", led_v);
}

void lw_lamp_judge(const lw_lamp_circuit *lamp, lw_lamp_readings *out)
{
    judge_day(lamp, out);
    judge_night(lamp, out);
    judge_torn(out);
    judge_short(lamp, out);
    lw_lamp_judge_guards(lamp, out);
    judge_reversed(lamp, out);
}
