/* SPDX-License-Identifier: GPL-3.0-or-later
 *
 * Figure charger_trial: a charger's efficiency from a short log.
 */
#include "lanewick/charging.h"
#include "lanewick/figure.h"

#include <math.h>
#include <stdio.h>

enum { PV, PA, BV, BA, METER, PLAN, PMAX };
static const lw_input inputs[] = {
    [PV] = {"panel_v", "V", "panel voltage of each reading", LW_NUMBERS, 0.5, 150, NULL, NULL, 3, 200},
    [PA] = {"panel_a", "A", "panel current of each reading", LW_NUMBERS, 0, 50, NULL, NULL, 3, 200},
    [BV] = {"pack_v", "V", "pack voltage of each reading", LW_NUMBERS, 0.5, 60, NULL, NULL, 3, 200},
    [BA] = {"pack_a", "A", "current into the pack of each reading", LW_NUMBERS, 0, 50, NULL, NULL, 3, 200},
    [METER] = {"meter_pct", "%", "error of each meter", LW_NUMBER, 0.05, 10, NULL, "1", 0, 0},
    [PLAN] = {"planned_efficiency", "", "what the plan counts on", LW_NUMBER, 0.3, 1, NULL, "0.85", 0, 0},
    [PMAX] = {"panel_w", "W", "what the panel should give now, if known", LW_NUMBER, 0.1, 1000, NULL, "", 0, 0},
};

enum { ETA, SE, LOW, HIGH, VERDICT, LOOK, USED };
static const lw_output outputs[] = {
    [ETA] = {"efficiency", "", "energy into the pack over energy from the panel", LW_NUMBER},
    [SE] = {"standard_error", "", "its uncertainty, one standard deviation", LW_NUMBER},
    [LOW] = {"efficiency_low", "", "lower end of the 90 % band", LW_NUMBER},
    [HIGH] = {"efficiency_high", "", "upper end", LW_NUMBER},
    [VERDICT] = {"verdict", "", "against the plan", LW_TEXT},
    [LOOK] = {"look_for", "", "what to look for", LW_TEXT},
    [USED] = {"panel_use", "", "panel power taken over what it should give", LW_NUMBER},
};

static bool run(const lw_value *in, lw_value *out, lw_arena *arena, lw_error *err)
{
    const size_t n = in[PV].count;
    if (in[PA].count != n || in[BV].count != n || in[BA].count != n)
        return lw_fail(err, LW_WRONG_INPUT, "panel_a",
                       "The four lists must have the same number of readings; panel_v has %zu.", n);
    lw_charger_trial trial = {0};
    if (!lw_charger_trial_of(in[PV].list, in[PA].list, in[BV].list, in[BA].list, n, in[METER].number / 100.0, &trial,
                             err))
        return false;
    lw_trial_verdict judged;
    const double plan = in[PLAN].number, currents = in[BA].list[0] / fmax(1e-6, in[PA].list[0]);
    if (!lw_trial_judge(&trial, currents, plan, &judged, err))
        return false;
    enum { WORDS = 200 };
    char *verdict = lw_arena_take(arena, WORDS, 1, err);
    if (!verdict)
        return false;
    (void)snprintf(verdict, WORDS, "%s: measured %.3f (%.3f to %.3f), planned %.3f", judged.verdict, trial.efficiency,
                   judged.low, judged.high, plan);
    out[ETA] = lw_value_number(trial.efficiency);
    out[SE] = lw_value_number(trial.standard_error);
    out[LOW] = lw_value_number(judged.low);
    out[HIGH] = lw_value_number(judged.high);
    out[VERDICT] = lw_value_text(verdict);
    out[LOOK] = lw_value_text(judged.look_for);
    if (in[PMAX].given)
        out[USED] = lw_value_number(trial.input_w / in[PMAX].number);
    return true;
}

const lw_figure lw_fig_charger_trial = {
    .name = "charger_trial",
    .room = "circuit",
    .summary = "A charger's efficiency from a short log of panel and pack readings, with uncertainty, against "
               "the plan.",
    .source = "ratio estimator, Cochran (1977), Sampling Techniques, eq. 2.46; four meter errors added in "
              "squares",
    .limits = "Readings within a few minutes of steady sun; the meter's own voltage drop counts as loss of the "
              "wire it sits in",
    .caution = "Measure with the fuse in place; never put an ammeter across the pack.",
    .example = "panel_v=16.9,17.1,17.0 panel_a=0.91,0.93,0.90 pack_v=11.4,11.4,11.5 pack_a=1.21,1.24,1.19",
    .inputs = inputs,
    .input_count = sizeof inputs / sizeof inputs[0],
    .outputs = outputs,
    .output_count = sizeof outputs / sizeof outputs[0],
    .run = run,
};
