/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure schedule_circuit: can the chosen circuit do the wanted schedule.
 */
#include "lanewick/figure.h"
#include "lanewick/switching.h"

enum { PARTS_TEXT = 320 };
enum { KIND, HOURS, LEVELS, SENSOR };
static const lw_input inputs[] = {
    [KIND] = {"circuit", "", "the switching circuit", LW_CHOICE, 0, 0, LW_SWITCH_WORDS, NULL, 0, 0},
    [HOURS] = {"hours", "h", "length of each step from dusk; the last may be 0: until dawn", LW_NUMBERS, 0, 24, NULL,
               NULL, 1, 6},
    [LEVELS] = {"levels", "", "light of each step, 1 is full", LW_NUMBERS, 0, 1, NULL, NULL, 1, 6},
    [SENSOR] = {"sensor", "", "what tells it that it is dark; to name its parts", LW_CHOICE, 0, 0, LW_SENSE_WORDS,
                "comparator", 0, 0},
};

enum { STANDBY, EXACT, PARTS };
static const lw_output outputs[] = {
    [STANDBY] = {"standby_ma", "mA", "current of the circuit, day and night", LW_NUMBER},
    [EXACT] = {"time_error_pct", "%", "of its timed steps, worst case", LW_NUMBER},
    [PARTS] = {"parts", "", "what it is made of", LW_TEXT},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    if (in[HOURS].count != in[LEVELS].count)
        return lw_fail(err, LW_WRONG_INPUT, "levels", "hours has %zu steps and levels %zu; they must be as many.",
                       in[HOURS].count, in[LEVELS].count);
    const lw_switch_kind kind = (lw_switch_kind)in[KIND].number;
    if (!lw_switch_can(kind, in[HOURS].list, in[LEVELS].list, in[HOURS].count, err))
        return false;
    const lw_switch_circuit *circuit = lw_switch_circuit_of(kind);
    out[STANDBY] = lw_value_number(circuit->standby_ma);
    if (circuit->timed)
        out[EXACT] = lw_value_number(circuit->time_error_pct);
    char *parts = lw_arena_take(arena, PARTS_TEXT, 1, err);
    if (!parts)
        return false;
    lw_switch_parts_text(kind, (lw_switch_sensor)in[SENSOR].number, parts, PARTS_TEXT);
    out[PARTS] = lw_value_text(parts);
    return true;
}

const lw_figure lw_fig_schedule_circuit = {
    .name = "schedule_circuit",
    .room = "circuit",
    .summary = "Whether a switching circuit can do a schedule of hours and levels, and what it draws.",
    .source = "capabilities of the circuits described in docs/models/dusk-switch.md; standby currents of data "
              "sheets of common parts",
    .limits = "Levels are shares of full light",
    .example = "circuit=two_levels hours=5,0 levels=1,0.4",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
