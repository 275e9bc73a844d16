/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure equalising_current: what flows when two cells of unequal voltage are joined.
 */
#include "lanewick/cell_test.h"
#include "lanewick/figure.h"

enum { OPEN, OHM, CAPACITY, PATH, LIMIT, CLASS };
static const lw_input inputs[] = {
    [OPEN] = {"open_v", "V", "open voltages of the two cells, 0 to 4.6", LW_NUMBERS, -1e5, 1e5, NULL, NULL, 2, 2},
    [OHM] = {"resistance_ohm", "ohm", "their resistances", LW_NUMBERS, 0.0, 10.0, NULL, NULL, 2, 2},
    [CAPACITY] = {"capacity_ah", "Ah", "their capacities", LW_NUMBERS, 0.01, 400.0, NULL, "", 2, 2},
    [PATH] = {"path_ohm", "ohm", "strips, wires, holder contacts between them", LW_NUMBER, 0.0, 10.0, NULL, "0", 0, 0},
    [LIMIT] = {"limit_a", "A", "current that the weaker cell may take as a charge", LW_NUMBER, 0.001, 100.0, NULL, "1",
               0, 0},
    [CLASS] = {"voltage_class", "", "what is known of the chemistry", LW_CHOICE, 0, 0, "4v2|4v35|lfp", "4v2", 0, 0},
};

enum { CURRENT, DIFFERENCE, ALLOWED, MOVED };
static const lw_output outputs[] = {
    [CURRENT] = {"current_a", "A", "current at the moment of joining", LW_NUMBER},
    [DIFFERENCE] = {"allowed_difference_v", "V", "difference at which they may be joined", LW_NUMBER},
    [ALLOWED] = {"allowed", "", "they may be joined as they are", LW_FLAG},
    [MOVED] = {"charge_moved_ah", "Ah", "charge that flows until they stand alike", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    lw_join join;
    if (!lw_equalising_current(in[OPEN].list, in[OHM].list, in[CAPACITY].given ? in[CAPACITY].list : NULL,
                               in[PATH].number, in[LIMIT].number, lw_test_class_find(in[CLASS].text), &join, err))
        return false;
    out[CURRENT] = lw_value_number(join.current_a);
    out[DIFFERENCE] = lw_value_number(join.allowed_difference_v);
    out[ALLOWED] = lw_value_flag(join.allowed);
    if (in[CAPACITY].given)
        out[MOVED] = lw_value_number(join.charge_moved_ah);
    return true;
}

const lw_figure lw_fig_equalising_current = {
    .name = "equalising_current",
    .room = "cell",
    .summary =
        "Current between two cells of unequal voltage at the moment they are joined, and the difference allowed.",
    .source = "Ohm's law, I = dU / (R1 + R2 + path); allowed difference 0.05 V (common practice, 0.02 V is better)",
    .caution =
        "Bring the cells to the same voltage first (charge or discharge each alone). Never bridge unequal cells: "
        "the full cell drives the empty one with no limit.",
    .example = "open_v=4.10,3.70 resistance_ohm=0.060,0.080",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
