/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure markov_clearness: what the published matrix for a month implies for the spread of its days.
 */
#include "lanewick/figure.h"
#include "markov.h"

enum { CLEARNESS };
static const lw_input inputs[] = {
    [CLEARNESS] = {"clearness", "", "monthly mean clearness index, which picks one of the ten matrices", LW_NUMBER, 0,
                   1, NULL, NULL, 0, 0},
};

enum { MATRIX, MEAN, DAY_SD, DAY_LAG1, LOWEST, HIGHEST, SHARES };
static const lw_output outputs[] = {
    [MATRIX] = {"matrix", "", "number of the matrix, 1 to 10", LW_INTEGER},
    [MEAN] = {"mean", "", "mean of its days in the long run", LW_NUMBER},
    [DAY_SD] = {"day_sd", "", "standard deviation of its days", LW_NUMBER},
    [DAY_LAG1] = {"day_lag1", "", "correlation of a day with the day before", LW_NUMBER},
    [LOWEST] = {"lowest", "", "lower edge of the lowest of the ten states", LW_NUMBER},
    [HIGHEST] = {"highest", "", "upper edge of the highest state", LW_NUMBER},
    [SHARES] = {"shares", "", "share of days in each state", LW_NUMBERS},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const int matrix = lw_markov_class(in[CLEARNESS].number);
    const lw_markov m = lw_markov_of(matrix);
    double *shares = lw_arena_take(arena, LW_MARKOV_STATES, sizeof *shares, err);
    if (!shares)
        return false;
    for (int i = 0; i < LW_MARKOV_STATES; i++)
        shares[i] = m.share[i];
    out[MATRIX] = lw_value_integer(matrix + 1);
    out[MEAN] = lw_value_number(m.mean);
    out[DAY_SD] = lw_value_number(m.sd);
    out[DAY_LAG1] = lw_value_number(m.lag1);
    out[LOWEST] = lw_value_number(m.low);
    out[HIGHEST] = lw_value_number(m.high);
    out[SHARES] = lw_value_list(shares, LW_MARKOV_STATES);
    return true;
}

const lw_figure lw_fig_markov_clearness = {
    .name = "markov_clearness",
    .room = "sun",
    .summary = "Spread and persistence of daily clearness by the published Markov matrices.",
    .source = "Aguiar, Collares-Pereira & Conde (1988), Solar Energy 40, 269",
    .limits = "Fitted at middle latitudes: below 25 degrees real days vary only half to two thirds as much.",
    .example = "clearness=0.52",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
