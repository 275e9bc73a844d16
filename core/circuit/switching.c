/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Switching circuits and their schedules: see lanewick/switching.h. Currents: comparator 0.4 to 0.6 mA (bipolar, data
 * sheets of common parts), counter-oscillator 0.03 mA, timer chip for the lower level 0.15 mA (CMOS).
 */
#include "lanewick/switching.h"

#include <stdio.h>

static const lw_switch_circuit circuits[LW_SWITCH_KIND_COUNT] = {
    [LW_SWITCH_DUSK] = {0.66, false, 0.0, ""},
    [LW_SWITCH_DUSK_TIMER] =
        {0.69, true, 20.0, "counter with oscillator, five resistors, film capacitor, one diode, two small transistors"},
    [LW_SWITCH_TWO_LEVELS] = {0.84, true, 20.0,
                              "counter with oscillator, CMOS timer chip, seven resistors, two capacitors, three "
                              "diodes, two small transistors"},
    [LW_SWITCH_PACK_DIMMING] = {0.66, false, 0.0,
                                "one more LED in each string, so that the current falls with the pack"},
};

static const struct {
    const char *name, *parts;
} sensors[LW_SENSE_COUNT] = {
    [LW_SENSE_COMPARATOR] = {"comparator", "photoresistor, dual comparator, seven resistors, one N-channel transistor"},
    [LW_SENSE_TRANSISTORS] = {"transistors", "photoresistor, two NPN and one PNP transistor, seven resistors, one "
                                             "N-channel transistor"},
    [LW_SENSE_PANEL] = {"panel", "dual comparator, eight resistors, one small diode, one N-channel transistor; the "
                                 "panel is the sensor"},
};

const char *lw_switch_sensor_name(lw_switch_sensor sensor)
{
    return sensors[sensor].name;
}

const lw_switch_circuit *lw_switch_circuit_of(lw_switch_kind kind)
{
    return &circuits[kind];
}

const char *lw_switch_sensor_parts(lw_switch_sensor sensor)
{
    return sensors[sensor].parts;
}

void lw_switch_parts_text(lw_switch_kind kind, lw_switch_sensor sensor, char *out, size_t size)
{
    const char *more = circuits[kind].parts;
    (void)snprintf(out, size, "%s%s%s", sensors[sensor].parts, *more ? "; " : "", more);
}

static size_t most_steps(lw_switch_kind kind)
{
    return kind == LW_SWITCH_DUSK || kind == LW_SWITCH_PACK_DIMMING ? 1 : 2;
}

bool lw_switch_can(lw_switch_kind kind, const double *hours, const double *levels, size_t steps, lw_error *err)
{
    if (steps == 0 || steps > most_steps(kind))
        return lw_fail(err, LW_WRONG_INPUT, "hours", "This circuit does %zu step%s, but %zu were given.",
                       most_steps(kind), most_steps(kind) == 1 ? "" : "s", steps);
    for (size_t i = 0; i + 1 < steps; i++)
        if (hours[i] <= 0.0)
            return lw_fail(err, LW_WRONG_INPUT, "hours", "Step %zu has no length; only the last may last until dawn.",
                           i + 1);
    if (hours[steps - 1] > 0.0 && kind != LW_SWITCH_DUSK_TIMER)
        return lw_fail(err, LW_WRONG_INPUT, "hours",
                       "This circuit stays on until dawn; the last step must have 0 hours.");
    if (levels[0] != 1.0)
        return lw_fail(err, LW_WRONG_INPUT, "levels", "The first step must be full light (1), not %g.", levels[0]);
    if (kind == LW_SWITCH_DUSK_TIMER && steps == 2 && levels[1] != 0.0)
        return lw_fail(err, LW_WRONG_INPUT, "levels",
                       "After its time this circuit is dark; for a lower level of %g take two_levels.", levels[1]);
    return true;
}
