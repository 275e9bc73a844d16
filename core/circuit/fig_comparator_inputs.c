/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure comparator_inputs: levels of the reference, and whether the comparator's inputs can follow them.
 */
#include "lanewick/dusk.h"
#include "lanewick/figure.h"

enum { R1, R2, R3, SUPPLY, CLASS, BIAS };
static const lw_input inputs[] = {
    [R1] = {"r1_ohm", "ohm", "reference to the supply", LW_NUMBER, 100, 1e8, NULL, NULL, 0, 0},
    [R2] = {"r2_ohm", "ohm", "reference to ground", LW_NUMBER, 100, 1e8, NULL, NULL, 0, 0},
    [R3] = {"r3_ohm", "ohm", "reference to the output", LW_NUMBER, 100, 1e8, NULL, NULL, 0, 0},
    [SUPPLY] = {"supply_min_v", "V", "supply with the pack empty", LW_NUMBER, 1.5, 60, NULL, NULL, 0, 0},
    [CLASS] = {"part", "", "class of part: bipolar inputs end 1.5 V below the supply, rail to rail ones at it",
               LW_CHOICE, 0, 0, "bipolar|rail_to_rail", "bipolar", 0, 0},
    [BIAS] = {"bias_na", "nA", "input current; left out: 250 bipolar, 0.01 rail to rail", LW_NUMBER, 0, 2000, NULL, "",
              0, 0},
};

enum { LOW, HIGH, HIGH_V, LIMIT_V, SHIFT };
static const lw_output outputs[] = {
    [LOW] = {"level_low", "", "reference while the lamp is off, part of the supply", LW_NUMBER},
    [HIGH] = {"level_high", "", "reference while the lamp is on, part of the supply", LW_NUMBER},
    [HIGH_V] = {"level_high_v", "V", "the higher level with the pack empty", LW_NUMBER},
    [LIMIT_V] = {"input_limit_v", "V", "highest input voltage the part follows then", LW_NUMBER},
    [SHIFT] = {"bias_shift_mv", "mV", "shift of the reference by the input current; keep it below 10", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    const double r1 = in[R1].number, r2 = in[R2].number, r3 = in[R3].number, supply = in[SUPPLY].number;
    const bool bipolar = in[CLASS].number == 0.0;
    const double limit = bipolar ? supply - 1.5 : supply;
    const double bias_a = 1e-9 * (in[BIAS].given ? in[BIAS].number : bipolar ? 250.0 : 0.01);
    double low, high;
    lw_comparator_levels(r1, r2, r3, &low, &high);
    if (high * supply > limit)
        return lw_fail(err, LW_NOT_COMPUTABLE, "supply_min_v",
                       "The reference rises to %.4g V at a supply of %g V, but inputs of this class follow only up to "
                       "%.4g V: the lamp would stick. Take lower levels (smaller R2), or a rail-to-rail part.",
                       high * supply, supply, limit);
    out[LOW] = lw_value_number(low);
    out[HIGH] = lw_value_number(high);
    out[HIGH_V] = lw_value_number(high * supply);
    out[LIMIT_V] = lw_value_number(limit);
    out[SHIFT] = lw_value_number(1e3 * bias_a / (1.0 / r1 + 1.0 / r2 + 1.0 / r3));
    return true;
}

const lw_figure lw_fig_comparator_inputs = {
    .name = "comparator_inputs",
    .room = "circuit",
    .summary =
        "Switching levels of a comparator with feedback, and whether its inputs can follow them when the pack is "
        "empty.",
    .source = "node equation of the reference; input range to 1.5 V below the supply and bias 250 nA as in data sheets "
              "of common bipolar parts",
    .limits = "Output from 0 to supply; with a pull-up at an open collector add it to R3 and keep it below R3/10",
    .example = "r1_ohm=220000 r2_ohm=68000 r3_ohm=470000 supply_min_v=3",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
