/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Efficiency of a charger from a short log: ratio estimator and its standard error (Cochran 1977, Sampling Techniques,
 * eq. 2.46), and the meters' calibration errors, which more readings do not make smaller.
 */
#include "lanewick/charging.h"

#include <math.h>

bool lw_charger_trial_of(const double *panel_v, const double *panel_a, const double *pack_v, const double *pack_a,
                         size_t n, double meter_part, lw_charger_trial *out, lw_error *err)
{
    double in = 0.0, given = 0.0;
    for (size_t i = 0; i < n; i++) {
        in += panel_v[i] * panel_a[i];
        given += pack_v[i] * pack_a[i];
    }
    if (n < 3 || !(in > 0.0) || !(given > 0.0))
        return lw_fail(err, LW_NOT_COMPUTABLE, "panel_a",
                       "At least three readings with current from the panel and into the pack are needed.");
    const double ratio = given / in, mean_in = in / (double)n;
    double squares = 0.0;
    for (size_t i = 0; i < n; i++) {
        const double miss = pack_v[i] * pack_a[i] - ratio * panel_v[i] * panel_a[i];
        squares += miss * miss;
    }
    const double scatter = sqrt(squares / ((double)n * (double)(n - 1))) / mean_in;
    const double meters = ratio * meter_part * 2.0; /* four quantities in squares: sqrt 4 */
    *out = (lw_charger_trial){.efficiency = ratio,
                              .standard_error = sqrt(scatter * scatter + meters * meters),
                              .input_w = mean_in,
                              .output_w = given / (double)n,
                              .readings = n};
    return true;
}

static const char *look_for(const lw_charger_trial *trial, double currents)
{
    if (currents > 0.97 && currents < 1.03)
        return "the current passes unchanged: this is a linear charger; the plan counts on a switching one";
    if (currents < 0.97)
        return "less current leaves than enters: a hot part, a wrong-way diode, or something else on the line drinks";
    return trial->output_w < 1.0
               ? "at low power the charger's own draw weighs: try again in full sun"
               : "look for a warm diode, thin wires, a corroded plug, a choke that is too hot to touch";
}

bool lw_trial_judge(const lw_charger_trial *trial, double currents, double planned, lw_trial_verdict *out,
                    lw_error *err)
{
    out->low = trial->efficiency - 1.645 * trial->standard_error;
    out->high = trial->efficiency + 1.645 * trial->standard_error;
    if (out->low > 1.0)
        return lw_fail(err, LW_WRONG_INPUT, "pack_a",
                       "The pack gets %.3g times what the panel gives, which cannot be: the meters disagree or two "
                       "lists are exchanged.",
                       trial->efficiency);
    const bool lower = out->high < planned;
    out->verdict = lower                ? "lower than planned"
                   : out->low > planned ? "better than planned"
                                        : "as planned, within the uncertainty";
    out->look_for = lower ? look_for(trial, currents) : "nothing: note the readings in the lamp's record";
    return true;
}
