/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * A schedule may use only what the chosen switching circuit can do: see lanewick/brief.h.
 */
#include "switch_steps.h"

#include <stdio.h>

static const char *const names[] = {"dusk", "dusk_timer", "two_levels", "pack_dimming"};

/* Hours after dusk of a moment; false: this circuit cannot know it. */
static bool after_dusk(const lw_moment *moment, double *hours)
{
    *hours = moment->kind == LW_AFTER_DUSK ? moment->value : 0.0;
    return moment->kind == LW_AT_DUSK || moment->kind == LW_AFTER_DUSK;
}

bool lw_switch_steps(const lw_lamp_kind *lamp, const char *circuit, double hours[LW_BRIEF_STEPS],
                     double levels[LW_BRIEF_STEPS], lw_error *err)
{
    double at = 0.0;
    for (size_t i = 0; i < lamp->span_count; i++) {
        const lw_span *span = &lamp->span[i];
        double from, until = 0.0;
        const bool dawn = span->until.kind == LW_AT_DAWN;
        if (!after_dusk(&span->from, &from) || (!dawn && !after_dusk(&span->until, &until)))
            return lw_fail(
                err, LW_WRONG_INPUT, "want.schedule",
                "The switch \"%s\" counts hours from dusk: step %zu of the schedule of \"%s\" needs a clock or "
                "the time of dawn. Write \"dusk+4h\", or leave want.switch out and take a driver with a "
                "clock.",
                circuit, i + 1, lamp->name);
        if (from != at || (!dawn && until <= from))
            return lw_fail(err, LW_WRONG_INPUT, "want.schedule",
                           "The switch \"%s\" begins at dusk and has no gaps: step %zu of the schedule of \"%s\" must "
                           "begin at dusk+%gh.",
                           circuit, i + 1, lamp->name, at);
        hours[i] = dawn ? 0.0 : until - from;
        levels[i] = span->level;
        at = until;
    }
    return true;
}

static bool lamp_can(const lw_lamp_kind *lamp, lw_switch_kind kind, lw_error *err)
{
    double hours[LW_BRIEF_STEPS], levels[LW_BRIEF_STEPS];
    lw_error why = {0};
    if (!lw_switch_steps(lamp, names[kind], hours, levels, err))
        return false;
    if (lw_switch_can(kind, hours, levels, lamp->span_count, &why))
        return true;
    return lw_fail(err, LW_WRONG_INPUT, "want.schedule", "The switch \"%s\" cannot do the schedule of \"%s\": %s",
                   names[kind], lamp->name, why.message);
}

/* Tied to the pack without a diode the panel always shows the pack's volts. */
static bool panel_can(const lw_brief *brief, lw_error *err)
{
    const lw_shelf *shelf = &brief->shelf;
    for (size_t i = 0; brief->want.switch_sensor == LW_SENSE_PANEL && i < shelf->charger_count; i++)
        if (shelf->charger[i].kind == LW_SHELF_DIRECT && shelf->charger[i].drop_v < 0.2)
            return lw_fail(
                err, LW_WRONG_INPUT, "want.switch_sensor",
                "The panel cannot be the sensor behind the charger \"%s\": without a blocking diode it shows "
                "the pack's volts all night. Fit a diode and give its drop_v, or take another sensor.",
                shelf->charger[i].name);
    return true;
}

bool lw_brief_switch_check(const lw_brief *brief, lw_error *err)
{
    const lw_want *want = &brief->want;
    if (!want->hand_switch)
        return true;
    for (size_t i = 0; i < want->lamp_count; i++)
        if (!lamp_can(&want->lamp[i], want->switch_kind, err))
            return false;
    if (want->least_late_level < 1.0)
        return lw_fail(
            err, LW_WRONG_INPUT, "want.least_late_level",
            "The switch \"%s\" cannot turn late light down by itself; leave want.least_late_level out and write "
            "the lower level into the schedule (switch \"two_levels\").",
            names[want->switch_kind]);
    if (want->dims)
        return lw_fail(err, LW_WRONG_INPUT, "want.dim_when_low",
                       "The switch \"%s\" does not know the pack's charge; leave want.dim_when_low out%s.",
                       names[want->switch_kind],
                       want->switch_kind == LW_SWITCH_PACK_DIMMING ? ", the light fades with the pack anyway"
                                                                   : " or take the switch \"pack_dimming\"");
    if (!panel_can(brief, err))
        return false;
    bool resistor = false;
    for (size_t i = 0; i < brief->shelf.driver_count; i++)
        resistor = resistor || brief->shelf.driver[i].kind == LW_SHELF_RESISTOR;
    if (want->switch_kind == LW_SWITCH_PACK_DIMMING && !resistor)
        return lw_fail(
            err, LW_WRONG_INPUT, "want.switch",
            "The switch \"pack_dimming\" lets the light fade with the pack through resistors: put a driver of "
            "kind \"resistor\" on the shelf.");
    return true;
}
