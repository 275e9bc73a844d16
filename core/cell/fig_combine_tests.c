/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure combine_tests: several readings of one quantity put together, with what the crate teaches.
 */
#include "lanewick/figure.h"
#include "lanewick/verdict.h"

enum { VALUES, SDS, PRIOR, PRIOR_SD, CRATE, CRATE_SD };
static const lw_input inputs[] = {
    [VALUES] = {"values", "", "the readings, all in one unit", LW_NUMBERS, -1e9, 1e9, NULL, "", 0, 1000},
    [SDS] = {"sds", "", "their standard uncertainties", LW_NUMBERS, 1e-12, 1e9, NULL, "", 0, 1000},
    [PRIOR] = {"prior", "", "known beforehand", LW_NUMBER, -1e9, 1e9, NULL, "", 0, 0},
    [PRIOR_SD] = {"prior_sd", "", "its standard uncertainty", LW_NUMBER, 1e-12, 1e9, NULL, "", 0, 0},
    [CRATE] = {"crate", "", "the same quantity of tested cells of the same marking, instead of prior", LW_NUMBERS, -1e9,
               1e9, NULL, "", 0, 10000},
    [CRATE_SD] = {"crate_sds", "", "their standard uncertainties", LW_NUMBERS, 1e-12, 1e9, NULL, "", 0, 10000},
};

enum { VALUE, SD, LOW, HIGH, FROM, FROM_SD };
static const lw_output outputs[] = {
    [VALUE] = {"value", "", "all put together", LW_NUMBER},
    [SD] = {"sd", "", "its standard uncertainty", LW_NUMBER},
    [LOW] = {"low90", "", "lower end of the 90 % band", LW_NUMBER},
    [HIGH] = {"high90", "", "upper end", LW_NUMBER},
    [FROM] = {"crate_mean", "", "what the crate teaches: the mean", LW_NUMBER},
    [FROM_SD] = {"crate_sd", "", "and how far a further cell may lie from it", LW_NUMBER},
};

static bool learn(const lw_value *in, lw_arena *arena, lw_estimate *prior, bool *known, lw_error *err)
{
    *known = in[PRIOR].given && in[PRIOR_SD].given;
    *prior = (lw_estimate){in[PRIOR].number, in[PRIOR_SD].number, 0};
    const size_t n = in[CRATE].given ? in[CRATE].count : 0;
    if (n == 0)
        return true;
    if (!in[CRATE_SD].given || in[CRATE_SD].count != n)
        return lw_fail(err, LW_WRONG_INPUT, "crate_sds", "crate_sds must have %zu values as crate has.", n);
    lw_estimate *cells = lw_arena_take(arena, n, sizeof *cells, err);
    if (!cells)
        return false;
    for (size_t i = 0; i < n; i++)
        cells[i] = (lw_estimate){in[CRATE].list[i], in[CRATE_SD].list[i], 1};
    *known = true;
    return lw_estimate_of_crate(cells, n, prior, err);
}

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const size_t n = in[VALUES].given ? in[VALUES].count : 0;
    if (n > 0 && (!in[SDS].given || in[SDS].count != n))
        return lw_fail(err, LW_WRONG_INPUT, "sds", "sds must have %zu values as values has.", n);
    lw_estimate prior, e;
    bool known;
    if (!learn(in, arena, &prior, &known, err) ||
        !lw_estimate_from(in[VALUES].list, in[SDS].list, n, known ? &prior : NULL, &e, err))
        return false;
    const double z95 = 1.6448536269514722;
    out[VALUE] = lw_value_number(e.value);
    out[SD] = lw_value_number(e.sd);
    out[LOW] = lw_value_number(e.value - z95 * e.sd);
    out[HIGH] = lw_value_number(e.value + z95 * e.sd);
    if (in[CRATE].given && in[CRATE].count > 0) {
        out[FROM] = lw_value_number(prior.value);
        out[FROM_SD] = lw_value_number(prior.sd);
    }
    return true;
}

const lw_figure lw_fig_combine_tests = {
    .name = "combine_tests",
    .room = "cell",
    .summary = "Several readings of one quantity put together with what the crate teaches, as value and band.",
    .source =
        "weighted mean, Birge (1932) Phys. Rev. 40, 207; spread of a crate by DerSimonian and Laird (1986) Control. "
        "Clin. Trials 7, 177; normal prior",
    .limits = "Readings must be independent; two tests with one resistor share its error.",
    .example =
        "values=1.93,1.97 sds=0.02,0.03 crate=1.80,2.02,1.71,1.95,1.88,2.10 crate_sds=0.02,0.02,0.03,0.02,0.02,0.02",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
