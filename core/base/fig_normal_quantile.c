/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure normal_quantile: the value that a normal quantity stays below with a given probability.
 */
#include "lanewick/figure.h"
#include "lanewick/stats.h"

enum { PROBABILITY };
static const lw_input inputs[] = {
    [PROBABILITY] = {"probability", "", "chance that the quantity stays below the value", LW_NUMBER, 1e-12, 1.0 - 1e-12,
                     NULL, NULL, 0, 0},
};

enum { DEVIATIONS };
static const lw_output outputs[] = {
    [DEVIATIONS] = {"deviations", "", "the value, counted in standard deviations from the mean", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    (void)arena;
    (void)err;
    out[DEVIATIONS] = lw_value_number(lw_normal_quantile(in[PROBABILITY].number));
    return true;
}

const lw_figure lw_fig_normal_quantile = {
    .name = "normal_quantile",
    .room = "base",
    .summary = "Value of a normal quantity that is not passed with a given probability.",
    .source = "Wichura (1988), Applied Statistics 37, 477, algorithm AS 241",
    .example = "probability=0.95",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
